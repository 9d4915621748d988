import type { BenchFieldView } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import type { BenchDesk } from "../../state/bench-desk.ts";
import { isOnDisk } from "../../state/cell-desk.ts";
import { useWords } from "../../state/language.tsx";

/** Why what was typed is not saved, beside its field; and what somebody else wrote there meanwhile. */
export function BenchFieldTrouble({ desk, field }: { desk: BenchDesk; field: BenchFieldView }) {
  const { bench: words, changes } = useWords();
  const draft = desk.draftOf(field);
  const refusal = desk.refusalOf(field);
  const isOpen = draft !== undefined && !isOnDisk(draft);
  const stands = desk.standsIn(field);
  const isChanged = isOpen && desk.isNewest && draft.status !== "saving" && stands !== draft.was;
  return (
    <>
      {draft?.status === "unheard" && <p className="mark">{changes.unheard}</p>}
      {draft?.status === "nameless" && <p className="mark">{changes.needsName}</p>}
      {draft?.status === "kept" && <p className="mark">{words.kept}</p>}
      {refusal !== null && (
        <div className="mark" role="alert">
          <b>{changes.notSaved}</b>
          <p>
            <FullName text={refusal.message} />
          </p>
        </div>
      )}
      {isChanged && (
        <div className="mark">
          <p>
            <FullName text={changes.meanwhile(stands)} />
          </p>
          <div className="acts">
            <button type="button" className="act quiet" onClick={() => desk.restore(field)}>
              {changes.keepTheirs}
            </button>
            <button
              type="button"
              className="act quiet"
              onClick={() => void desk.cells.putMine(desk.placeOf(field), stands)}
            >
              {changes.putMine}
            </button>
          </div>
        </div>
      )}
    </>
  );
}
