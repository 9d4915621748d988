import { FullName, shortened } from "../../component/name.tsx";
import { type CellDesk, type CellDraft, isOnDisk } from "../../state/cell-desk.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";

/** What was typed into other cells and is not saved: why not, and the way back to it. */
export function UnsavedCells({
  cells,
  nameOf,
  isHere,
  onGo,
}: {
  cells: CellDesk;
  /** The name of a run, as far as it is known. */
  nameOf: (runId: string) => string | null;
  isHere: (draft: CellDraft) => boolean;
  onGo: (draft: CellDraft) => void;
}) {
  const { changes: words, ...all } = useWords();
  const { handle } = useStudy();
  const others = cells.drafts.filter(
    (draft) => draft.study === handle && !isOnDisk(draft) && draft.status !== "saving" && !isHere(draft),
  );
  if (others.length === 0) return null;
  return (
    <section className="unsaved" aria-label={words.unsavedTitle}>
      <h2>{words.unsavedTitle}</h2>
      <ul className="marks">
        {others.map((draft) => {
          const where = words.field(
            shortened(nameOf(draft.run) ?? all.dash),
            draft.phase === null ? null : all.phase(draft.phase),
            all.reading(draft.column),
          );
          return (
            <li className="mark" key={JSON.stringify([draft.run, draft.phase, draft.column])}>
              <p>
                <FullName text={words.unsaved(where, shortened(draft.text, 120))} />
              </p>
              <div className="acts">
                <button type="button" className="act quiet" onClick={() => onGo(draft)}>
                  {words.toUnsaved}
                </button>
                <button type="button" className="plain" onClick={() => cells.drop(draft)}>
                  {words.drop}
                </button>
              </div>
              {draft.refusal !== null && (
                <p role="alert">
                  <FullName text={draft.refusal.message} />
                </p>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
