import { useState } from "react";
import type { Refusal } from "../../../app/contract/index.ts";
import { Dialog } from "../../component/dialog.tsx";
import { shortened } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { askHost } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";

/** Opens the invented study; asks first where it would take the place of somebody's own. */
export function OpenExample() {
  const words = useWords().study;
  const { view, replaced } = useStudy();
  const [asking, setAsking] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const isOwn = view !== null && !view.isExample && view.runs > 0;

  const open = async () => {
    setAsking(false);
    const answer = await askHost<"study.openExample">({ kind: "study.openExample" });
    if (answer.ok) replaced(words.exampleOpened);
    else if (answer.reason === "refused" || answer.reason === "failed") setRefusal(answer);
  };

  return (
    <div className="example">
      <p className="soft">{words.exampleLead}</p>
      <button type="button" className="act quiet" onClick={() => (isOwn ? setAsking(true) : void open())}>
        {view?.isExample === true ? words.exampleAgain : words.example}
      </button>
      {refusal !== null && <Refused refusal={refusal} />}
      {asking && (
        <Dialog className="ask" label={words.replaceTitle} onClose={() => setAsking(false)}>
          <h2>{words.replaceTitle}</h2>
          <p>{words.replace(shortened(view?.name ?? "", 120))}</p>
          <div className="acts">
            <button type="button" className="act quiet" onClick={() => setAsking(false)}>
              {words.replaceCancel}
            </button>
            <button type="button" className="act" onClick={() => void open()}>
              {words.replaceConfirm}
            </button>
          </div>
        </Dialog>
      )}
    </div>
  );
}
