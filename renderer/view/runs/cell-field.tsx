import { type KeyboardEvent, useEffect, useId, useRef } from "react";
import { FullName } from "../../component/name.tsx";
import { type CellDesk, type CellPlace, isOnDisk } from "../../state/cell-desk.ts";
import { useWords } from "../../state/language.tsx";
import { stepOfKey } from "../../state/steps.ts";

/** The field is to take the focus: with all of its text marked, or behind what was typed. */
export type FieldWish = "whole" | "end";

/**
 * Changes one cell: Enter saves, Escape puts back what was there; leaving saves, so that nothing typed is lost. What is not
 * taken stays, with the reason beside it.
 */
export function CellField({
  cells,
  place,
  label,
  stands,
  proposals,
  isInGrid,
  wantsFocus,
  onFocused,
  onDone,
}: {
  cells: CellDesk;
  place: CellPlace;
  label: string;
  /** What stands in the cell now. */
  stands: string;
  proposals: readonly string[];
  /** It is being written in its cell: here stands only what is to be known of it. */
  isInGrid: boolean;
  wantsFocus: FieldWish | null;
  onFocused: () => void;
  /** The focus goes back to the cell. */
  onDone: () => void;
}) {
  const { changes: words } = useWords();
  const id = useId();
  const form = useRef<HTMLFormElement>(null);
  const input = useRef<HTMLInputElement>(null);
  const draft = cells.draftOf(place);
  const isSaving = draft?.status === "saving";
  const isOpen = draft !== undefined && !isOnDisk(draft);
  const text = draft === undefined || draft.status === "shown" ? stands : draft.text;

  useEffect(() => {
    const field = input.current;
    if (wantsFocus === null || field === null) return;
    field.focus();
    if (wantsFocus === "whole") field.select();
    else field.setSelectionRange(field.value.length, field.value.length);
    onFocused();
  }, [wantsFocus, onFocused]);

  const told = useRef<HTMLDivElement>(null);
  // On a small screen the reason would stand below its edge.
  useEffect(() => {
    if (draft?.refusal != null) told.current?.scrollIntoView?.({ block: "nearest" });
  }, [draft?.refusal]);

  // The table may move to another cell before the field has lost the focus.
  const leave = useRef(() => {});
  const inGrid = useRef(isInGrid);
  inGrid.current = isInGrid;
  leave.current = () => cells.leave(place);
  useEffect(
    () => () => {
      if (!inGrid.current) leave.current();
    },
    [],
  );

  const save = async () => {
    if (await cells.save(place)) onDone();
  };
  const press = (event: KeyboardEvent) => {
    if (event.key === "Enter" && event.target instanceof HTMLInputElement) {
      event.preventDefault();
      void save();
    } else if (event.key === "Escape") {
      event.preventDefault();
      if (!isSaving) cells.drop(place);
      onDone();
    } else if (isOpen && stepOfKey(event) === "undo" && !(event.target instanceof HTMLInputElement)) {
      // What is typed and not saved is what was done last.
      event.preventDefault();
      if (!isSaving) cells.drop(place);
      if (input.current === null) onDone();
      else input.current.focus();
    }
  };

  return (
    <form
      ref={form}
      className="cell-field"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
      onKeyDown={press}
      onBlur={(event) => {
        // The window lost the focus, not the field.
        if (document.activeElement === event.target) return;
        const isInside = event.relatedTarget instanceof Node && form.current?.contains(event.relatedTarget) === true;
        if (!isInside) cells.leave(place);
      }}
    >
      <div className="cell-line">
        {!isInGrid && (
          <>
            <input
              ref={input}
              className="field"
              aria-label={label}
              aria-invalid={draft?.status === "refused"}
              aria-describedby={`${id}-state`}
              list={proposals.length > 0 ? `${id}-proposals` : undefined}
              autoComplete="off"
              dir="auto"
              maxLength={10_000}
              value={text}
              readOnly={isSaving}
              onChange={(event) => cells.type(place, stands, event.target.value)}
            />
            {proposals.length > 0 && (
              <datalist id={`${id}-proposals`}>
                {proposals.map((proposal) => (
                  <option key={proposal} value={proposal} />
                ))}
              </datalist>
            )}
          </>
        )}
        {isOpen && (
          <>
            <button type="submit" className="act quiet">
              {words.save}
            </button>
            <button
              type="button"
              className="plain"
              onClick={() => {
                cells.drop(place);
                onDone();
              }}
            >
              {words.restore}
            </button>
          </>
        )}
        <span className="soft small" role="status" id={`${id}-state`}>
          {isSaving && words.saving}
          {draft !== undefined && isOnDisk(draft) && words.saved}
          {draft?.status === "unheard" && words.unheard}
          {draft?.status === "nameless" && words.needsName}
        </span>
      </div>
      {draft?.status === "refused" && draft.refusal !== null && (
        <div ref={told} className="mark" role="alert">
          <b>{words.notSaved}</b>
          <p>
            <FullName text={draft.refusal.message} />
          </p>
        </div>
      )}
      {isOpen && !isSaving && stands !== draft.was && (
        <div className="mark">
          <p>
            <FullName text={words.meanwhile(stands)} />
          </p>
          <div className="acts">
            <button
              type="button"
              className="act quiet"
              onClick={() => {
                cells.drop(place);
                onDone();
              }}
            >
              {words.keepTheirs}
            </button>
            <button
              type="button"
              className="act quiet"
              onClick={() =>
                void cells.putMine(place, stands).then((done) => {
                  if (done) onDone();
                })
              }
            >
              {words.putMine}
            </button>
          </div>
        </div>
      )}
      {isOpen && (
        <>
          <label className="cell-why">
            <span className="soft small">{words.why}</span>
            <input
              className="field"
              autoComplete="off"
              dir="auto"
              maxLength={10_000}
              value={draft.why}
              readOnly={isSaving}
              onChange={(event) => cells.explain(place, event.target.value)}
            />
          </label>
          <p className="soft small">{words.fieldKeys}</p>
        </>
      )}
    </form>
  );
}
