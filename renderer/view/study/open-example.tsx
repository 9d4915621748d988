import { useState } from "react";
import type { Refusal } from "../../../app/contract/index.ts";
import { Refused } from "../../component/refused.tsx";
import { askHost, isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";
import { useAskWho } from "../../state/who.ts";

/** Opens a fresh copy of the invented study; the study that is open stays where it is. */
export function OpenExample() {
  const words = useWords().study;
  const { view, opened } = useStudy();
  const askWho = useAskWho();
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  const open = async () => {
    if ((await askWho.ask()) === null) return;
    const answer = await askHost<"study.openExample">({ kind: "study.openExample" });
    if (answer.ok) opened(answer.value, words.exampleOpened);
    else if (isRefusal(answer)) setRefusal(answer);
  };

  return (
    <div className="example">
      <p className="soft">{words.exampleLead}</p>
      <button type="button" className="act quiet" onClick={() => void open()}>
        {view?.isExample === true ? words.exampleAgain : words.example}
      </button>
      {refusal !== null && <Refused refusal={refusal} />}
    </div>
  );
}
