import { FullName } from "../../component/name.tsx";
import { ReasonForm } from "../../component/reason-form.tsx";
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
  const isOut = leftOut !== null;
  const { reasonNeeded, cancel } = words;
  const send = isOut ? words.bringBack : words.leaveOut;
  const reason = isOut ? words.bringBackReason : words.leaveOutReason;
  return (
    <section className="leave-out" aria-label={words.run}>
      <h3>{words.run}</h3>
      {leftOut !== null && (
        <p>
          <FullName text={runs.leftOut(leftOut)} />
        </p>
      )}
      <ReasonForm
        words={{ open: send, reason, reasonNeeded, send, cancel }}
        edit={(given) => ({ kind: isOut ? "bringBack" : "leaveOut", run: runId, reason: given })}
        onDone={onDone}
      />
    </section>
  );
}
