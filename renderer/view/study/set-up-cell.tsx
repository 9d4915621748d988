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
  const [typed, setTyped] = useState<string | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const [isRefused, setIsRefused] = useState(false);

  // biome-ignore lint/correctness/useExhaustiveDependencies: what stands there now is another text, so what was typed is saved or past.
  useEffect(() => setTyped(null), [text]);

  const takeBack = () => {
    setTyped(null);
    setIsRefused(false);
    row.onRefused(null);
  };
  const save = async () => {
    if (typed === null || isBusy) return;
    if (typed.trim() === text) {
      takeBack();
      return;
    }
    setIsBusy(true);
    const fields = [{ field: field.field, text: typed, was: text }];
    const answer = await make({ kind: "setUp", subject: row.subject, item: row.item, fields });
    setIsBusy(false);
    const refusal = answer !== null && isRefusal(answer) ? answer : null;
    setIsRefused(refusal !== null);
    row.onRefused(refusal);
  };

  return (
    <SetUpInput
      field={field}
      label={words.cell(field.name, shortened(row.name))}
      value={typed ?? text}
      isChanged={typed !== null && typed !== text}
      isBusy={isBusy}
      canChange={canChange}
      describedBy={isRefused ? row.refusedId : undefined}
      onType={setTyped}
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
