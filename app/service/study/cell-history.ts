import { type Locale, type PhaseName, wordsFor } from "../../../core/index.ts";
import type { CellHistoryView } from "../../contract/index.ts";
import { timeOfMinutes } from "../../import/index.ts";
import type { RecordedChange, StudyDatabase } from "../../store/index.ts";
import { refuse } from "../refused.ts";
import { recordedView } from "./record-words.ts";
import type { StudySession } from "./study-session.ts";

/** Columns of the whole run by the field in which the file keeps them. */
const fieldOf = new Map([
  ["run", "name"],
  ["variant", "variant"],
  ["date", "date"],
  ["order", "order"],
  ["block", "block"],
  ["operator", "operator"],
  ["excluded", "leftOut"],
]);

const timeColumns = new Set(["start", "end", "boiled_at"]);
const factorMark = "factor:";

interface CellPlace {
  readonly run: number;
  readonly phase: PhaseName | null;
  readonly column: string;
}

/** All that ever stood in one cell of an open study. */
export function cellHistoryOf({ content, file }: StudySession, place: CellPlace, locale: Locale): CellHistoryView {
  if (content.run(place.run) === null) refuse(wordsFor(locale).record.runGone);
  const { database } = file;
  const { run, phase, column } = place;
  const factor = phase === null && column.startsWith(factorMark) ? column.slice(factorMark.length) : null;
  if (factor !== null) return { steps: factorSteps(database, run, factor, locale) };
  const field = phase === null ? fieldOf.get(column) : column;
  if (field === undefined) refuse(wordsFor(locale).record.notACell(column));
  const text = (value: unknown): string => textOf(value, column, database);
  // What was kept as written may have become a reading in one edit, and the other way round: that is one step, or none.
  const byEdit = Map.groupBy(database.history(run, phase, field), ({ edit }) => edit);
  const steps = [...byEdit.values()].flatMap((changes) => {
    const [change] = changes;
    const stood = (texts: readonly string[]) => texts.find((one) => one !== "") ?? "";
    const before = stood(changes.map((one) => text(one.before)));
    const after = stood(changes.map((one) => text(one.after)));
    return change === undefined ? [] : step(change, before, after, locale);
  });
  return { steps };
}

function step(change: RecordedChange, before: string, after: string, locale: Locale): CellHistoryView["steps"] {
  return before === after ? [] : [{ ...recordedView(change, locale), before, after }];
}

/** Levels as the record keeps them. */
type Levels = readonly (readonly [factor: string, level: string | null])[];

/** What a run has of a factor is its own level, or else its variant's: both may have changed. */
function factorSteps(database: StudyDatabase, run: number, factor: string, locale: Locale): CellHistoryView["steps"] {
  const changes = (["variant", "levels"] as const).flatMap((field) =>
    database.history(run, null, field).map((change) => ({ field, change })),
  );
  const byEdit = [...Map.groupBy(changes, ({ change }) => change.edit)].sort(([left], [right]) => left - right);
  const now: { variant: unknown; levels: unknown } = { variant: null, levels: null };
  const level = (): string => {
    const own = (now.levels as Levels | null)?.find(([name]) => name === factor);
    if (own !== undefined) return own[1] ?? "";
    return now.variant === null ? "" : (database.variantEver(Number(now.variant))?.levels.get(factor) ?? "");
  };
  return byEdit.flatMap(([, ofEdit]) => {
    const before = level();
    for (const { field, change } of ofEdit) now[field] = change.after;
    const [first] = ofEdit;
    return first === undefined ? [] : step(first.change, before, level(), locale);
  });
}

/** The column of a field of the whole run, as a readings file has it. */
export function columnOfField(field: string): string {
  return [...fieldOf].find(([, name]) => name === field)?.[0] ?? field;
}

/** What stood in a cell, from what the record keeps of it. */
export function textOf(value: unknown, column: string, database: StudyDatabase): string {
  if (value === null || value === undefined) return "";
  if (column === "variant") return database.variantEver(Number(value))?.name ?? "";
  if (typeof value === "object" && "value" in value) {
    const number = Number(value.value);
    return timeColumns.has(column) ? timeOfMinutes(number) : String(number);
  }
  if (typeof value === "object" && "text" in value) return String(value.text);
  if (Array.isArray(value)) return (value as Levels).map(([factor, level]) => `${factor}: ${level ?? ""}`).join("; ");
  return String(value);
}
