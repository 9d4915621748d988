import {
  formatFixed,
  type Locale,
  type ReadingDomainFault,
  type ReadingDomainName,
  readingDomainFault,
  readingText,
} from "../../core/index.ts";
import { toNumber } from "./exact-decimal.ts";
import type { FileColumns } from "./file-columns.ts";
import { layoutColumn } from "./layout.ts";
import { textOfCell } from "./match-headings.ts";
import type { Place, ProblemList } from "./problem-list.ts";
import { type DecimalRule, type NumberFault, readNumber } from "./read-number.ts";
import { readClockDuration, readTime, type TimeRead } from "./read-time.ts";
import { toLayoutUnit } from "./units.ts";

/** The cells of one row by the layout's names; what is wrong with them goes to the list of problems, once. */
export interface RowReader {
  readonly row: number;
  /** Name of the run as written; "" where the cell is empty. */
  readonly run: string;
  /** The person chose to leave the row out: what it says of its run may still be needed. */
  readonly leftOut: boolean;
  /** Errors found in this row so far. */
  errors: number;
  /** Needed readings that are missing in a run that is left out: sentences. */
  readonly missing: string[];
  hasColumn(name: string): boolean;
  /** The column is missing or not understood, which is an error of the whole file. */
  isRefused(name: string): boolean;
  isFilled(name: string): boolean;
  /** Without blanks around it; "" where empty or where the column is absent. */
  written(name: string): string;
  /** Null where empty. */
  text(name: string): string | null;
  textAt(index: number): string | null;
  /** In the layout's unit. Null where empty; NaN where there is something that cannot be used. */
  number(name: string): number | null;
  /** Null where empty, false where unreadable. */
  time(name: string): TimeRead | null | false;
  place(name: string): Place;
  error(rule: string, place: Place, message: string): void;
}

const shown = (value: number | null, locale: Locale) => (value === null ? "" : readingText(value, locale));

function domainMessage(
  domain: ReadingDomainName,
  { rule, minimum, maximum }: ReadingDomainFault,
  cell: string,
  value: number,
  list: ProblemList,
): string {
  const { cell: words } = list.words;
  const range = { cell, minimum: shown(minimum, list.locale), maximum: shown(maximum, list.locale) };
  switch (rule) {
    case "negative-mass":
      return words.negativeMass({ cell });
    case "mass-too-large":
      return words.massTooLarge({ cell });
    case "calorific-value-out-of-range":
      return words.calorificRange(range);
    case "not-positive":
    case "duration-not-positive":
      return words.notPositive({ cell });
    case "moisture-out-of-range":
      return domain === "moistureWet"
        ? words.moistureWet({ cell, aboveRange: maximum !== null && value >= maximum })
        : words.moistureDry(range);
    case "temperature-out-of-range":
      return words.temperatureRange(range);
    case "pressure-out-of-range":
      return words.pressureRange(range);
    case "altitude-out-of-range":
      return words.altitudeRange(range);
    case "hydrogen-out-of-range":
      return words.hydrogenRange(range);
    case "duration-too-long":
      return words.durationTooLong({ cell });
  }
}

function numberMessage(because: Exclude<NumberFault, "other-mark">, cell: string, list: ProblemList): string {
  const { cell: words } = list.words;
  switch (because) {
    case "not-a-number":
      return words.notANumber({ cell });
    case "not-finite":
      return words.notFinite({ cell });
    case "spreadsheet-error":
      return words.spreadsheetError({ cell });
    case "two-numbers":
      return words.twoNumbers({ cell });
    case "unit-in-cell":
      return words.unitInCell({ cell });
    case "thousands-separator":
      return words.thousandsSeparator({ cell });
  }
}

const wholeDigits = /^-?\d{1,9}$/;
const plainDigits = /^-?\d{1,9}$|^-?\d{1,9}\.\d{1,6}$/;

/** Reads one row of a file. */
export function rowReader(
  source: { readonly row: number; readonly cells: readonly string[] },
  columns: FileColumns,
  mark: DecimalRule,
  list: ProblemList,
  leftOut: boolean,
): RowReader {
  const numbers = new Map<string, number | null>();
  const rawOf = (name: string): string | null => {
    const column = columns.known.get(name);
    return column === undefined ? null : (source.cells[column.index] ?? "");
  };
  const written = (name: string) => (rawOf(name) ?? "").trim();
  const run = textOfCell(written("run"));
  const phase = textOfCell(written("phase"));

  const place = (name: string): Place => {
    const column = columns.known.get(name);
    return {
      row: source.row,
      column: column?.heading ?? name,
      ...(column === undefined ? {} : { cell: source.cells[column.index] ?? "" }),
      ...(run === "" ? {} : { run }),
      ...(phase === "" ? {} : { phase }),
    };
  };

  const reader: RowReader = {
    row: source.row,
    run,
    leftOut,
    errors: 0,
    missing: [],
    hasColumn: (name) => columns.known.has(name),
    isRefused: (name) => columns.refused.has(name),
    isFilled: (name) => written(name) !== "",
    written,
    text: (name) => textOfCell(written(name)) || null,
    textAt: (index) => textOfCell(source.cells[index] ?? "") || null,
    number(name) {
      const before = numbers.get(name);
      if (before !== undefined) return before;
      const value = readNumberCell(name);
      numbers.set(name, value);
      return value;
    },
    time(name) {
      const cell = written(name);
      if (cell === "") return null;
      const time = readTime(cell);
      if (time !== null) return time;
      reader.error("not-a-time", place(name), list.words.cell.notATime({ cell }));
      return false;
    },
    place,
    error(rule, at, message) {
      reader.errors += 1;
      if (!leftOut) list.error(rule, at, message);
    },
  };

  function readNumberCell(name: string): number | null {
    const cell = written(name);
    if (cell === "") return null;
    const column = layoutColumn(name);
    const unit = columns.known.get(name)?.unit ?? null;
    let value: number;
    if (unit?.clockForm !== undefined) {
      const minutes = readClockDuration(cell, unit.clockForm);
      if (minutes === null) {
        const message = list.words.cell.notADuration({ cell, form: unit.clockForm });
        reader.error("not-a-duration", place(name), message);
        return Number.NaN;
      }
      value = minutes;
    } else if (
      unit?.factor === undefined &&
      unit?.offset === undefined &&
      unit?.divisor === undefined &&
      (mark === "," ? wholeDigits : plainDigits).test(cell)
    ) {
      // What nearly every cell holds: no need of exact decimals.
      value = Number(cell);
    } else {
      const read = readNumber(cell, mark);
      if (!read.ok) {
        if (read.because === "other-mark") {
          const words = mark === "." ? list.words.cell.decimalComma : list.words.cell.decimalPoint;
          const { asDecimal, asThousands } = read;
          reader.error(
            mark === "." ? "decimal-comma" : "decimal-point",
            place(name),
            words({ cell, asDecimal, asThousands }),
          );
        } else reader.error(read.because, place(name), numberMessage(read.because, cell, list));
        return Number.NaN;
      }
      value = unit === null ? toNumber(read.value) : toLayoutUnit(read.value, unit);
    }
    if (!Number.isFinite(value)) {
      reader.error("not-finite", place(name), list.words.cell.notFinite({ cell }));
      return Number.NaN;
    }
    const fault = readingDomainFault(column.domain, value);
    if (fault === null) return value === 0 ? 0 : value;
    reader.error(fault.rule, place(name), domainMessage(column.domain, fault, cell, value, list));
    return Number.NaN;
  }

  return reader;
}

/** Cells over the limit, and rows that are not as long as the heading: such a row is not looked at any further. */
export function rowIsWhole(
  source: { readonly row: number; readonly cells: readonly string[] },
  headings: readonly string[],
  longest: number,
  list: ProblemList,
): boolean {
  const { row, cells } = source;
  let whole = true;
  cells.forEach((cell, index) => {
    if (cell.length <= longest) return;
    const column = headings[index]?.trim();
    const place = column === undefined ? { row, cell } : { row, column, cell };
    list.error("cell-too-long", place, list.words.cell.tooLong({ limit: formatFixed(longest, 0, list.locale) }));
    whole = false;
  });
  const counts = { cells: cells.length, headings: headings.length };
  if (cells.length < headings.length) {
    list.error("too-few-cells", { row }, list.words.file.tooFewCells(counts));
    whole = false;
  } else if (cells.slice(headings.length).some((cell) => cell.trim() !== "")) {
    list.error("too-many-cells", { row }, list.words.file.tooManyCells(counts));
    whole = false;
  }
  return whole;
}
