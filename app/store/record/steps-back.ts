import { StoreFault } from "../fault.ts";
import type { Connection } from "../schema/connection.ts";
import type { Step } from "./apply-edit.ts";
import { type LoggedChange, rowsOf } from "./change-log.ts";
import { parsed } from "./content-text.ts";
import { changeTo } from "./place.ts";
import { runSeal, seriesSeal } from "./seal.ts";

/** What undoes an edit: what was before each of its changes, the last first. */
export function* stepsOfUndo(connection: Connection, edit: number): Generator<Step> {
  for (const { change } of rowsOf(connection, edit).reverse()) {
    yield { change: changeTo(change, change.before), place: change.place };
  }
}

/**
 * The content of a run or series of which the record keeps a seal alone. It was taken away since, by the undo that is now redone,
 * and stands as `before` where that was recorded.
 */
function contentOfSeal(connection: Connection, subject: "run" | "series", item: number, seal: string): string {
  const sealOf =
    subject === "run" ? (text: string) => runSeal(item, text, []) : (text: string) => seriesSeal(item, text);
  const query = `SELECT "before" FROM change WHERE item = ? AND subject = ? AND "before" IS NOT NULL ORDER BY id DESC`;
  for (const row of connection.each(query, item, subject)) {
    const text = row.before as string;
    if (sealOf(text) === seal) return text;
  }
  throw new StoreFault("damaged", `the record does not hold ${subject} ${item} as it was`);
}

function textOfAfter(connection: Connection, { subject, item, after }: LoggedChange): string | null {
  if (after === null || item === null || (subject !== "run" && subject !== "series")) return after;
  const { seal } = parsed(after) as { seal?: unknown };
  return contentOfSeal(connection, subject, item, String(seal));
}

/** What makes an edit again that was undone. */
export function* stepsOfRedo(connection: Connection, edit: number): Generator<Step> {
  for (const { change } of rowsOf(connection, edit)) {
    yield { change: changeTo(change, textOfAfter(connection, change)), place: null };
  }
}
