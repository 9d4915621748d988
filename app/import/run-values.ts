import type { Run } from "../../core/index.ts";
import type { FileColumns } from "./file-columns.ts";
import type { Place, ProblemList } from "./problem-list.ts";
import { readDate } from "./read-time.ts";
import type { RowReader } from "./row-reader.ts";

/** What belongs to the whole run. */
export type RunValues = Pick<Run, "date" | "order" | "block" | "operator" | "factors" | "leftOut"> & {
  /** Null where no row names it; said in every row. */
  readonly variant: string | null;
};

interface Stated<T> {
  readonly row: RowReader;
  readonly value: T;
  readonly place: Place;
}

/** The run's one value. Two different ones are an error in every row that states one, since nobody knows which is right. */
function oneValue<T>(column: string, stated: readonly Stated<T>[], list: ProblemList, firstWillDo = false): T | null {
  const included = stated.filter(({ row }) => !row.leftOut);
  const [first] = included;
  // Where no remaining row states it, the rows that were left out may: the run is still the same run.
  if (first === undefined) {
    const agreed = stated.every(({ value }) => value === stated[0]?.value);
    return agreed || firstWillDo ? (stated[0]?.value ?? null) : null;
  }
  const different = included.find(({ value }) => value !== first.value);
  if (different === undefined) return first.value;
  for (const { row, place, value } of included) {
    const other = value === first.value ? different : first;
    const message = list.words.run.conflict({
      column,
      row: row.row,
      otherRow: other.row.row,
      cell: place.cell ?? "",
      otherCell: other.place.cell ?? "",
    });
    row.error("run-value-conflict", place, message);
  }
  return first.value;
}

/** Texts that say that a run counts, or nothing: none of them is a reason for leaving it out. */
export const noReason =
  /^(no?|not|none|false|nein|non|nao|não|ok|included|keep|kept|n\/?a|0|[-\u2010-\u2015\u2212]+|\.|\?)$/i;

/** The values of a run from its rows, those that were left out among them. */
export function readRunValues(rows: readonly RowReader[], columns: FileColumns, list: ProblemList): RunValues {
  const textValue = (name: string, firstWillDo = false): string | null =>
    oneValue(
      columns.known.get(name)?.heading ?? name,
      rows.flatMap((row) => {
        const value = row.text(name);
        return value === null ? [] : [{ row, value, place: row.place(name) }];
      }),
      list,
      firstWillDo,
    );

  for (const row of rows) {
    const cell = row.text("excluded");
    if (cell === null || !noReason.test(cell)) continue;
    row.error("not-a-reason", row.place("excluded"), list.words.cell.notAReason({ cell }));
  }
  const dates = rows.flatMap((row) => {
    const cell = row.written("date");
    if (cell === "") return [];
    if (readDate(cell) !== null) return [{ row, value: cell, place: row.place("date") }];
    row.error("not-a-date", row.place("date"), list.words.cell.notADate({ cell }));
    return [];
  });
  const orders = rows.flatMap((row) => {
    const value = row.number("order");
    return value === null || Number.isNaN(value) ? [] : [{ row, value, place: row.place("order") }];
  });
  const factors = new Map<string, string>();
  for (const { index, heading, factor } of columns.factors) {
    const levels = rows.flatMap((row) => {
      const value = row.textAt(index);
      return value === null ? [] : [{ row, value, place: { ...row.place("run"), column: heading, cell: value } }];
    });
    const level = oneValue(heading, levels, list);
    if (level !== null) factors.set(factor, level);
  }

  const variant = textValue("variant");
  if (variant === null && columns.known.has("variant")) {
    for (const row of rows) {
      row.error("reading-missing", row.place("variant"), list.words.cell.missingName({ column: "variant" }));
    }
  }
  return {
    variant,
    date: oneValue(columns.known.get("date")?.heading ?? "date", dates, list),
    order: oneValue(columns.known.get("order")?.heading ?? "order", orders, list),
    block: textValue("block"),
    operator: textValue("operator"),
    factors,
    // Whatever the reason, a run that was left out stays left out.
    leftOut: textValue("excluded", true),
  };
}
