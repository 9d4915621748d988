import { useState } from "react";
import type { ComparisonChoice, ExportKind, Refusal } from "../../app/contract/index.ts";
import { handOver } from "../state/file.ts";
import { askHost } from "../state/host.ts";
import { useWords } from "../state/language.tsx";
import { useStudy } from "../state/study.tsx";

type Saving =
  | { state: "idle" }
  | { state: "saving" }
  | { state: "saved"; file: string }
  | { state: "not"; refusal: Refusal };

/** What was saved last, or why it was not; one line under the buttons. */
export function SaveButtons({
  kinds,
  choice,
  firstIsMain = false,
}: {
  kinds: readonly ExportKind[];
  choice: ComparisonChoice;
  firstIsMain?: boolean;
}) {
  const words = useWords().save;
  const { handle } = useStudy();
  const [saving, setSaving] = useState<Saving>({ state: "idle" });

  const save = async (what: ExportKind) => {
    setSaving({ state: "saving" });
    const answer = await askHost<"export">({ kind: "export", study: handle, what, choice });
    if (answer.ok) {
      handOver(answer.value.fileName, answer.value.mediaType, answer.value.contentBase64);
      setSaving({ state: "saved", file: answer.value.fileName });
    } else if (answer.reason === "refused" || answer.reason === "failed") setSaving({ state: "not", refusal: answer });
    else setSaving({ state: "idle" });
  };

  return (
    <div className="save">
      <div className="acts">
        {kinds.map((kind, index) => (
          <button
            key={kind}
            type="button"
            className={firstIsMain && index === 0 ? "act" : "act quiet"}
            aria-busy={saving.state === "saving"}
            onClick={() => saving.state !== "saving" && void save(kind)}
          >
            {words.labels[kind]}
          </button>
        ))}
      </div>
      <p className={saving.state === "not" ? "mark" : "soft small"} role="status">
        {saving.state === "saving" && words.saving}
        {saving.state === "saved" && words.saved(saving.file)}
        {saving.state === "not" && saving.refusal.message}
      </p>
    </div>
  );
}
