import type { Refusal } from "../../app/contract/index.ts";
import { useWords } from "../state/language.tsx";

/** Why something was not done, in the host's own words. */
export function Refused({ refusal }: { refusal: Refusal }) {
  const words = useWords();
  return (
    <div className="mark prose" role="alert">
      <b>{refusal.reason === "failed" ? words.trouble.failed : words.trouble.refused}</b>
      <p>{refusal.message}</p>
    </div>
  );
}
