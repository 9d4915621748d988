import { useEffect, useState } from "react";
import type { Refusal, SetUpFieldView } from "../../../app/contract/index.ts";
import { shortened } from "../../component/name.tsx";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import type { SetUpEdit } from "./set-up-fields.ts";

/** Where a row is, and who is told why a cell of it was not saved. */
export interface CellRow {
  readonly subject: SetUpEdit["subject"];
  readonly item: string | null;
  readonly name: string;
  readonly refusedId: string;
  readonly onRefused: (refusal: Refusal | null) => void;
}

/** What is typed, what stood there when that was begun, and what of it is on disk already. */
interface Draft {
  readonly typed: string;
  readonly was: string;
  readonly saved: string | null;
}

/** One cell, changed in its place: Enter or leaving it saves, Escape takes back. What was not saved stays in it. */
export function SetUpCell({
  field,
  text,
  row,
  canChange,
}: {
  field: SetUpFieldView;
  text: string;
  row: CellRow;
  canChange: boolean;
}) {
  const words = useWords().setUp;
  const make = useMakeEdit();
  const [draft, setDraft] = useState<Draft | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const [isRefused, setIsRefused] = useState(false);

  // What stands there now is another text: mine, that was saved, or that of another window, which what is being typed must not hide.
  useEffect(() => {
    setDraft((before) => {
      if (before === null || before.saved === null) return before;
      return before.typed === before.saved ? null : { typed: before.typed, was: text, saved: null };
    });
  }, [text]);

  const takeBack = () => {
    setDraft(null);
    setIsRefused(false);
    row.onRefused(null);
  };
  const save = async () => {
    if (draft === null || isBusy || draft.typed === draft.saved) return;
    const { typed } = draft;
    // What was saved a moment ago stands there, though the page has yet to hear of it.
    const was = draft.saved?.trim() ?? draft.was;
    if (typed.trim() === was && was === text) {
      takeBack();
      return;
    }
    setIsBusy(true);
    const fields = [{ field: field.field, text: typed, was }];
    const answer = await make({ kind: "setUp", subject: row.subject, item: row.item, fields });
    setIsBusy(false);
    if (answer?.ok === true) setDraft((before) => (before === null ? null : { ...before, saved: typed }));
    const refusal = answer !== null && isRefusal(answer) ? answer : null;
    setIsRefused(refusal !== null);
    row.onRefused(refusal);
  };
  const shown = draft?.typed ?? text;

  return (
    <SetUpInput
      field={field}
      label={words.cell(field.name, shortened(row.name))}
      value={shown}
      isChanged={shown !== text}
      isBusy={isBusy}
      canChange={canChange}
      describedBy={isRefused ? row.refusedId : undefined}
      onType={(typed) => setDraft((before) => ({ typed, was: before?.was ?? text, saved: before?.saved ?? null }))}
      onEnter={() => void save()}
      onEscape={takeBack}
      onLeave={() => void save()}
    />
  );
}

/** What is typed or chosen in. */
export function SetUpInput({
  field,
  label,
  value,
  isChanged,
  isBusy,
  canChange,
  describedBy,
  onType,
  onEnter,
  onEscape,
  onLeave,
}: {
  field: SetUpFieldView;
  label: string;
  value: string;
  isChanged: boolean;
  isBusy: boolean;
  canChange: boolean;
  describedBy?: string | undefined;
  onType: (text: string) => void;
  onEnter: () => void;
  onEscape: () => void;
  onLeave?: () => void;
}) {
  const shared = {
    className: `set-up-input${field.kind === "number" ? " n" : ""}${isChanged ? " changed" : ""}`,
    "aria-label": label,
    "aria-busy": isBusy,
    "aria-invalid": describedBy !== undefined,
    "aria-describedby": describedBy,
    "aria-required": field.needed,
    "data-field": field.field,
    value,
    onBlur: onLeave,
    onKeyDown: (event: React.KeyboardEvent) => {
      if (event.nativeEvent.isComposing) return;
      if (event.key === "Enter") {
        event.preventDefault();
        onEnter();
      }
      if (event.key === "Escape") {
        event.preventDefault();
        event.stopPropagation();
        onEscape();
      }
    },
  };
  if (field.choices !== null) {
    return (
      <select {...shared} disabled={!canChange} onChange={(event) => onType(event.target.value)}>
        {field.choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
    );
  }
  return (
    <input
      {...shared}
      type="text"
      dir={field.kind === "text" ? "auto" : "ltr"}
      inputMode={field.kind === "number" ? "decimal" : "text"}
      placeholder={field.kind === "date" && canChange ? "2026-03-14" : undefined}
      autoComplete="off"
      spellCheck={false}
      maxLength={10_000}
      readOnly={!canChange}
      title={value.length > 20 ? value : undefined}
      onChange={(event) => onType(event.target.value)}
    />
  );
}
