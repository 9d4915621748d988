import { useState } from "react";
import type { Refusal, StudyView } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { SaveButtons } from "../../component/save-button.tsx";
import { askHost, isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { choiceOf, type Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";

/** Where the study is, and how to have it elsewhere too. */
export function StudyFile({ view, route }: { view: StudyView; route: Route }) {
  const { changes: words } = useWords();
  return (
    <section className="study-file">
      <h2>{words.file}</h2>
      <p className="soft">
        {words.savedAsMade} {words.where}
      </p>
      <p className="small">
        <FullName text={view.file} />
      </p>
      <SaveCopy name={view.name} />
      <SaveButtons kinds={["study"]} choice={choiceOf(route)} />
    </section>
  );
}

function SaveCopy({ name }: { name: string }) {
  const { changes: words } = useWords();
  const { handle } = useStudy();
  const [typed, setTyped] = useState<string | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const [isLacking, setIsLacking] = useState(false);
  const [done, setDone] = useState("");
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const shown = typed ?? words.copySuggestion(name.slice(0, 9_900));

  const save = async () => {
    const given = shown.trim();
    setIsLacking(given === "");
    if (given === "" || isBusy) return;
    setIsBusy(true);
    setDone("");
    setRefusal(null);
    const answer = await askHost<"study.saveCopy">({ kind: "study.saveCopy", study: handle, name: given });
    setIsBusy(false);
    if (answer.ok) setDone(words.copied(answer.value.fileName));
    else if (isRefusal(answer)) setRefusal(answer);
  };

  return (
    <form
      className="save-copy"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <label>
        <span>{words.copyName}</span>
        <input
          className="field"
          autoComplete="off"
          dir="auto"
          maxLength={10_000}
          value={shown}
          aria-invalid={isLacking && shown.trim() === ""}
          onChange={(event) => setTyped(event.target.value)}
        />
      </label>
      <button type="submit" className="act quiet" aria-busy={isBusy}>
        {words.saveCopy}
      </button>
      <p className={isLacking ? "mark" : "soft small"} role="status">
        {isLacking && shown.trim() === "" ? words.copyNameNeeded : done}
      </p>
      {refusal !== null && <Refused refusal={refusal} />}
    </form>
  );
}
