import { type KeyboardEvent, type RefObject, useEffect, useId, useRef } from "react";
import { type CellDesk, type CellPlace, isOnDisk } from "../../state/cell-desk.ts";
import type { FieldWish } from "./cell-field.tsx";

/** Where to go on after a cell: rows down, columns to the right; null: stay. */
export interface Onward {
  readonly down: number;
  readonly right: number;
}

/**
 * The field in a cell of the grid: Enter saves and goes down, Tab to the right, Escape puts back what was there. Leaving saves,
 * so that nothing typed is lost; what is not taken is told of in the panel.
 */
export function CellWriter({
  cells,
  place,
  stands,
  label,
  wish,
  proposals,
  panel,
  onDone,
  onLeft,
}: {
  cells: CellDesk;
  place: CellPlace;
  stands: string;
  label: string;
  wish: FieldWish;
  proposals: readonly string[];
  /** What belongs to the cell too: the reason for a change. */
  panel: RefObject<HTMLElement | null>;
  onDone: (onward: Onward | null) => void;
  onLeft: () => void;
}) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const draft = cells.draftOf(place);
  const text = draft === undefined || draft.status === "shown" ? stands : draft.text;

  useEffect(() => {
    const field = input.current;
    if (field === null) return;
    field.focus();
    if (wish === "whole") field.select();
    else field.setSelectionRange(field.value.length, field.value.length);
  }, [wish]);

  // The grid may move on, or scroll the cell away, before the field has lost the focus.
  const leave = useRef(() => {});
  leave.current = () => {
    cells.leave(place);
    onLeft();
  };
  const isFinished = useRef(false);
  useEffect(
    () => () => {
      if (!isFinished.current) leave.current();
    },
    [],
  );
  const finish = (onward: Onward | null) => {
    isFinished.current = true;
    onDone(onward);
  };

  const press = (event: KeyboardEvent) => {
    const { key, shiftKey } = event;
    const isVertical = proposals.length === 0 && (key === "ArrowUp" || key === "ArrowDown");
    if (key === "Escape") {
      event.preventDefault();
      if (draft?.status !== "saving") cells.drop(place);
      finish(null);
    } else if (key === "Enter") {
      event.preventDefault();
      finish({ down: shiftKey ? -1 : 1, right: 0 });
    } else if (key === "Tab") {
      event.preventDefault();
      finish({ down: 0, right: shiftKey ? -1 : 1 });
    } else if (isVertical && !event.altKey && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      finish({ down: key === "ArrowUp" ? -1 : 1, right: 0 });
    }
  };

  return (
    <>
      <input
        ref={input}
        className="cell-input"
        aria-label={label}
        aria-invalid={draft?.status === "refused"}
        list={proposals.length > 0 ? id : undefined}
        autoComplete="off"
        dir="auto"
        maxLength={10_000}
        value={text}
        readOnly={draft !== undefined && !isOnDisk(draft) && draft.status === "saving"}
        onKeyDown={press}
        onChange={(event) => cells.type(place, stands, event.target.value)}
        onBlur={(event) => {
          // The window lost the focus, not the field.
          if (document.activeElement === event.target) return;
          const to = event.relatedTarget;
          if (to instanceof Node && panel.current?.contains(to) === true) return;
          if (!isFinished.current) leave.current();
        }}
      />
      {proposals.length > 0 && (
        <datalist id={id}>
          {proposals.map((proposal) => (
            <option key={proposal} value={proposal} />
          ))}
        </datalist>
      )}
    </>
  );
}
