import { useWords } from "../state/language.tsx";
import type { Steps } from "../state/steps.ts";

/** What was done last, and why an undo was not done. */
export function Told({ said, steps }: { said: string; steps: Steps }) {
  const words = useWords();
  return (
    <>
      <p className="told soft small" role="status">
        {said}
      </p>
      {steps.refusal !== null && (
        <div className="mark notice" role="alert">
          <b>{steps.refusal.reason === "failed" ? words.trouble.failed : words.trouble.refused}</b>
          <p>{steps.refusal.message}</p>
          <button type="button" className="act quiet" onClick={steps.forgive}>
            {words.cover.close}
          </button>
        </div>
      )}
    </>
  );
}
