import { type Locale, type PhaseName, wordsFor } from "../../../core/index.ts";
import type { CellHistoryView } from "../../contract/index.ts";
import { timeOfMinutes } from "../../import/index.ts";
import type { StoredHead, StudyDatabase } from "../../store/index.ts";
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
  return cellHistory(file.database, content.head, place, locale);
}

function cellHistory(database: StudyDatabase, head: StoredHead, place: CellPlace, locale: Locale): CellHistoryView {
  const { run, phase, column } = place;
  const factor = phase === null && column.startsWith(factorMark) ? column.slice(factorMark.length) : null;
  const field = phase !== null ? column : factor !== null ? "levels" : fieldOf.get(column);
  if (field === undefined) refuse(wordsFor(locale).record.notACell(column));
  const changes = database.history(run, phase, field);
  const text = (value: unknown): string => textOf(value, { column, factor, head });
  const steps = changes.flatMap((change) => {
    const [before, after] = [text(change.before), text(change.after)];
    return before === after ? [] : [{ ...recordedView(change, locale), before, after }];
  });
  return { steps };
}

interface Cell {
  readonly column: string;
  readonly factor: string | null;
  readonly head: StoredHead;
}

/** What stood in a cell, from what the record keeps of it. */
function textOf(value: unknown, { column, factor, head }: Cell): string {
  if (value === null || value === undefined) return "";
  if (factor !== null) {
    const levels = value as readonly (readonly [string, string | null])[];
    return levels.find(([name]) => name === factor)?.[1] ?? "";
  }
  if (column === "variant") return head.variants.get(Number(value))?.name ?? "";
  if (typeof value === "object" && "value" in value) {
    const number = Number(value.value);
    return timeColumns.has(column) ? timeOfMinutes(number) : String(number);
  }
  if (typeof value === "object" && "text" in value) return String(value.text);
  return String(value);
}
