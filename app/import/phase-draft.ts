import type { PhaseName } from "../../core/index.ts";
import { layoutColumn } from "./layout.ts";
import type { ProblemList } from "./problem-list.ts";
import type { RowReader } from "./row-reader.ts";
import type { RunReadings } from "./shared-readings.ts";

/** What the parts of a phase are read with. */
export interface PhaseSource {
  readonly row: RowReader;
  readonly phase: PhaseName;
  readonly readings: RunReadings;
  readonly list: ProblemList;
  /** The run is left out: a needed reading may be missing. */
  readonly abandoned: boolean;
  /** Cells that are kept as written, because what they say is already said, or cannot be used alone. */
  readonly kept: { readonly heading: string; readonly text: string }[];
}

/**
 * A needed reading is missing. Said at the first of its columns that the file has, unless the missing column is an error of
 * the whole file already.
 */
export function reportMissing({ row, list, abandoned }: PhaseSource, names: readonly string[]): void {
  if (names.some((column) => row.isRefused(column))) return;
  const name = names.find((column) => row.hasColumn(column)) ?? names[0];
  if (name === undefined) return;
  const words = list.words.cell;
  const message =
    names.length === 1
      ? words.missing({ column: row.place(name).column ?? name })
      : words.missingOneOf({ columns: names });
  if (abandoned) row.missing.push(message);
  else row.error("reading-missing", row.place(name), message);
}

/** The number of a needed column; NaN, and said, where it is missing. */
export function neededNumber(source: PhaseSource, name: string): number {
  const value = source.row.number(name);
  if (value !== null) return value;
  reportMissing(source, [name]);
  return Number.NaN;
}

/** Two ways to say one thing, both filled: an error at the second. */
export function reportBoth({ row, list }: PhaseSource, first: string, second: string): void {
  const columns = [first, second].map((name) => row.place(name).column ?? name);
  row.error("one-of-two", row.place(second), list.words.cell.oneOfTwo({ columns }));
}

/**
 * Keeps a cell as written, under its own heading or the one that it goes to. A number that the layout would write otherwise
 * (another unit, a decimal comma) is kept as the layout has it: under the layout's heading it has to mean the same.
 */
export function keepWritten({ row, kept }: PhaseSource, name: string, heading = name): void {
  if (!row.isFilled(name)) return;
  const written = row.written(name);
  const value = layoutColumn(name).content === "number" ? row.number(name) : null;
  const isAsLayout = value === null || Number.isNaN(value) || Number(written) === value;
  kept.push({ heading, text: isAsLayout ? written : String(value) });
}
