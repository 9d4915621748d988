import { useEffect, useId, useRef, useState } from "react";
import type { Refusal } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";

/** Leaves a run out of everything that is worked out, or brings it back; each with a reason. */
export function LeaveOut({
  runId,
  leftOut,
  onDone,
}: {
  runId: string;
  /** Why it is left out now; null: it counts. */
  leftOut: string | null;
  onDone: () => void;
}) {
  const { changes: words, runs } = useWords();
  const make = useMakeEdit();
  const [reason, setReason] = useState<string | null>(null);
  const [isLacking, setIsLacking] = useState(false);
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  const id = useId();
  const isOut = leftOut !== null;
  const isAsking = reason !== null;

  useEffect(() => {
    if (isAsking) input.current?.focus();
  }, [isAsking]);

  const close = () => {
    setReason(null);
    setRefusal(null);
    setIsLacking(false);
    setTimeout(() => opener.current?.focus());
  };
  const send = async () => {
    const given = reason?.trim() ?? "";
    setIsLacking(given === "");
    if (given === "" || isBusy) {
      input.current?.focus();
      return;
    }
    setIsBusy(true);
    setRefusal(null);
    const answer = await make({ kind: isOut ? "bringBack" : "leaveOut", run: runId, reason: given });
    setIsBusy(false);
    if (answer?.ok === true) {
      setReason(null);
      onDone();
    } else if (answer !== null && isRefusal(answer)) setRefusal(answer);
  };

  return (
    <section className="leave-out" aria-label={words.run}>
      <h3>{words.run}</h3>
      {leftOut !== null && (
        <p>
          <FullName text={runs.leftOut(leftOut)} />
        </p>
      )}
      {reason === null ? (
        <button ref={opener} type="button" className="act quiet" onClick={() => setReason("")}>
          {isOut ? words.bringBack : words.leaveOut}
        </button>
      ) : (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void send();
          }}
          onKeyDown={(event) => {
            if (event.key !== "Escape") return;
            event.preventDefault();
            close();
          }}
        >
          <label>
            <span>{isOut ? words.bringBackReason : words.leaveOutReason}</span>
            <input
              ref={input}
              className="field"
              autoComplete="off"
              dir="auto"
              maxLength={10_000}
              value={reason}
              aria-invalid={isLacking && reason.trim() === ""}
              aria-describedby={`${id}-lack`}
              onChange={(event) => setReason(event.target.value)}
            />
          </label>
          <p className={isLacking && reason.trim() === "" ? "mark" : ""} id={`${id}-lack`} role="status">
            {isLacking && reason.trim() === "" ? words.reasonNeeded : ""}
          </p>
          <div className="acts">
            <button type="submit" className="act quiet" aria-busy={isBusy}>
              {isOut ? words.bringBack : words.leaveOut}
            </button>
            <button type="button" className="plain" onClick={close}>
              {words.cancel}
            </button>
          </div>
        </form>
      )}
      {refusal !== null && <Refused refusal={refusal} />}
    </section>
  );
}
