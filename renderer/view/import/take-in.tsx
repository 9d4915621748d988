import { useRef, useState } from "react";
import type { ImportView, StudyView } from "../../../app/contract/index.ts";
import { FullName, shortened } from "../../component/name.tsx";
import type { ImportDesk } from "../../state/import-desk.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";
import { useAskWho } from "../../state/who.ts";
import type { FileTable } from "./file-table.ts";

/** The last step: a name, what it would give, and one button. It is there only once no error stands. */
export function TakeIn({ desk, view, table }: { desk: ImportDesk; view: ImportView; table: FileTable }) {
  const words = useWords().importing;
  const open = useStudy();
  const askWho = useAskWho();
  const [wants, setWants] = useState<"new" | "open" | null>(null);
  const [lacksName, setLacksName] = useState(false);
  const nameField = useRef<HTMLInputElement>(null);
  const name = desk.studyName ?? view.suggestedName;
  const errors = view.problems.filter((problem) => problem.severity === "error");
  const inCells = errors.filter((problem) => table.placeOf(problem) !== null).length;
  const wrongFiles = [...new Set(errors.filter((problem) => table.placeOf(problem) === null).map(({ file }) => file))];

  // Whoever has just begun a study brings its first readings.
  const isJustBegun = open.view !== null && open.view.runs === 0 && !open.view.isExample;
  const wantsOpen = wants === null ? isJustBegun : wants === "open";
  const into = wantsOpen && open.view !== null && open.view.readOnly === null ? open.view : null;

  const take = async () => {
    if (into === null && name.trim() === "") {
      setLacksName(true);
      nameField.current?.focus();
      return;
    }
    const who = await askWho.ask();
    if (who === null) return;
    const study = await desk.accept(into === null ? { kind: "new" } : { kind: "open", study: into.study }, who);
    if (study === null) return;
    const shown = shortened(study.name, 120);
    open.opened(study, into === null ? words.taken(shown) : words.added(view.summary?.runs ?? 0, shown));
  };

  return (
    <form
      className="take-in"
      onSubmit={(event) => {
        event.preventDefault();
        if (view.acceptable) void take();
      }}
    >
      <h2>{words.takeTitle}</h2>
      {view.summary !== null && <p>{words.gives(view.summary.runs, view.summary.phases, view.summary.variants)}</p>}
      <WhereTo study={open.view} wantsOpen={into !== null} onChoose={(isOpen) => setWants(isOpen ? "open" : "new")} />
      {into === null && (
        <label>
          <span>{words.studyName}</span>
          <input
            ref={nameField}
            className="field"
            value={name}
            maxLength={10_000}
            aria-invalid={lacksName && name.trim() === ""}
            onChange={(event) => desk.rename(event.target.value)}
          />
        </label>
      )}
      {into === null && lacksName && name.trim() === "" && (
        <p className="mark" role="alert">
          {words.nameNeeded}
        </p>
      )}
      {inCells > 0 && <p className="soft">{words.notYet(inCells)}</p>}
      {wrongFiles.map((file) => (
        <p className="soft" key={file}>
          {words.notYetFile(shortened(file, 120))}
        </p>
      ))}
      {view.acceptable && (
        <button type="submit" className="act" aria-busy={desk.waiting}>
          {words.take}
        </button>
      )}
    </form>
  );
}

/** A study of its own, or one more part of the study that is open. */
function WhereTo({
  study,
  wantsOpen,
  onChoose,
}: {
  study: StudyView | null;
  wantsOpen: boolean;
  onChoose: (wantsOpen: boolean) => void;
}) {
  const words = useWords().importing;
  if (study === null) return null;
  if (study.readOnly !== null) return <p className="soft">{words.notIntoOpen}</p>;
  return (
    <fieldset className="where-to">
      <legend>{words.into}</legend>
      <label className="choice">
        <input type="radio" name="into" checked={!wantsOpen} onChange={() => onChoose(false)} />
        <span>{words.intoNew}</span>
      </label>
      <label className="choice">
        <input type="radio" name="into" checked={wantsOpen} onChange={() => onChoose(true)} />
        <span>
          <FullName text={words.intoOpen(shortened(study.name, 120))} />
        </span>
      </label>
      {wantsOpen && <p className="soft small">{words.intoOpenHint}</p>}
    </fieldset>
  );
}
