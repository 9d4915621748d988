import { useEffect, useRef, useState } from "react";
import type { BenchRunView, Refusal } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import type { Go } from "../../state/route.ts";
import { BenchSoFar } from "./bench-so-far.tsx";

/** A run that is finished, with what came out; or one that was abandoned, with its reason. Then the next one. */
export function BenchEnded({ run, isReadOnly, go }: { run: BenchRunView; isReadOnly: boolean; go: Go }) {
  const words = useWords().bench;
  const make = useMakeEdit();
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const next = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (document.querySelector("dialog[open]") === null) next.current?.focus();
  }, []);
  const isFinished = run.state === "finished";
  const takeUp = async () => {
    setRefusal(null);
    const answer = await make({ kind: "takeUpRun", run: run.id });
    if (answer !== null && isRefusal(answer)) setRefusal(answer);
  };
  return (
    <section className="bench-step bench-ended" aria-labelledby="bench-step-title">
      <h1 id="bench-step-title">
        <FullName text={isFinished ? words.finished(run.run) : words.abandonedTitle(run.run)} />
      </h1>
      <p className="soft">
        <FullName text={isFinished ? words.finishedLead : (run.reason ?? "")} />
      </p>
      <div className="acts">
        <button ref={next} type="button" className="act" onClick={() => go({ bench: null, step: null })}>
          {words.beginNext}
        </button>
        {!isReadOnly && (
          <button type="button" className="act quiet" onClick={() => void takeUp()}>
            {words.reopenRun}
          </button>
        )}
      </div>
      {refusal !== null && <Refused refusal={refusal} />}
      {isFinished && <BenchSoFar run={run} title={words.cameOut} />}
    </section>
  );
}
