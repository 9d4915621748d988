import type { Refusal } from "../../app/contract/index.ts";
import { useWords } from "../state/language.tsx";
import { FullName } from "./name.tsx";

/** Why something was not done, in the host's own words; under a heading that says what, where that is not plain from its place. */
export function Refused({ refusal, title }: { refusal: Refusal; title?: string }) {
  const words = useWords();
  return (
    <div className="mark prose" role="alert">
      <b>{title ?? (refusal.reason === "failed" ? words.trouble.failed : words.trouble.refused)}</b>
      <p>
        <FullName text={refusal.message} />
      </p>
    </div>
  );
}
