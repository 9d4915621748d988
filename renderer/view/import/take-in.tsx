import { useState } from "react";
import type { ImportView } from "../../../app/contract/index.ts";
import { shortened } from "../../component/name.tsx";
import type { ImportDesk } from "../../state/import-desk.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";
import type { FileTable } from "./file-table.ts";

/** The last step: a name, what it would give, and one button. It is there only once no error stands. */
export function TakeIn({ desk, view, table }: { desk: ImportDesk; view: ImportView; table: FileTable }) {
  const words = useWords().importing;
  const open = useStudy();
  const [lacksName, setLacksName] = useState(false);
  const name = desk.studyName ?? view.suggestedName;
  const errors = view.problems.filter((problem) => problem.severity === "error");
  const inCells = errors.filter((problem) => table.placeOf(problem) !== null).length;
  const wrongFiles = [...new Set(errors.filter((problem) => table.placeOf(problem) === null).map(({ file }) => file))];

  const take = async () => {
    if (name.trim() === "") {
      setLacksName(true);
      return;
    }
    const study = await desk.accept();
    if (study !== null) open.replaced(words.taken(shortened(study.name, 120)));
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
      <label>
        <span>{words.studyName}</span>
        <input
          className="field"
          value={name}
          maxLength={10_000}
          aria-invalid={lacksName && name.trim() === ""}
          onChange={(event) => desk.rename(event.target.value)}
        />
      </label>
      {lacksName && name.trim() === "" && (
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
      {open.view !== null && open.view.runs > 0 && (
        <p className="soft">{words.replaces(shortened(open.view.name, 120))}</p>
      )}
      {view.acceptable && (
        <button type="submit" className="act" aria-busy={desk.waiting}>
          {words.take}
        </button>
      )}
    </form>
  );
}
