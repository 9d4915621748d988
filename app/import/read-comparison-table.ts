import {
  type ComparedRow,
  type ComparedTable,
  defaultLocale,
  type Locale,
  type Problem,
  wordsFor,
} from "../../core/index.ts";
import { toNumber } from "./exact-decimal.ts";
import { longestCell } from "./limits.ts";
import { plainHeading, textOfCell } from "./match-headings.ts";
import { nearestName } from "./nearest-name.ts";
import { type ProblemList, problemList } from "./problem-list.ts";
import { type DecimalMark, decimalMarkOf, readNumber } from "./read-number.ts";
import { type ReadTable, readTable } from "./read-table.ts";
import { rowIsWhole } from "./row-reader.ts";
import { noReason } from "./run-values.ts";

/** Which columns of a table are compared, by their headings. */
export interface ComparedColumns {
  readonly value: string;
  readonly by: string;
  readonly block: string | null;
  readonly factors: readonly string[];
}

export interface ComparisonTableRead {
  /** Null while any error stands. */
  readonly table: ComparedTable | null;
  readonly problems: readonly Problem[];
  /** What was assumed in reading. */
  readonly notes: readonly string[];
}

const factorPrefix = /^factor\s*:\s*/i;
const leftOutHeadings: ReadonlySet<string> = new Set(["leftout", "excluded"]);

/** Nothing that is measured is larger, or smaller than its inverse; squares of such values are still numbers. */
const largestValue = 1e100;

/** How much a row looks like the headings that are wanted: those found, then its length, by which the mark between cells is told. */
function looksLike(wanted: readonly string[]) {
  const plain = new Set(wanted.map(plainHeading));
  return (cells: readonly string[]) =>
    cells.filter((cell) => plain.has(plainHeading(textOfCell(cell)))).length * 10_000 + Math.min(cells.length, 9_999);
}

/** Where a column stands; -1, and said, where there is none or it is not clear which. */
function columnIndex(column: string, headings: readonly string[], row: number, list: ProblemList): number {
  const words = wordsFor(list.locale).comparisonTable;
  const wanted = textOfCell(column);
  const forms = [wanted, `factor:${wanted}`];
  const ways: ((heading: string) => boolean)[] = [
    (heading) => heading === wanted,
    (heading) => plainHeading(heading) === plainHeading(wanted),
    (heading) => forms.some((form) => plainHeading(form) === plainHeading(heading)),
  ];
  for (const isMeant of ways) {
    const found = headings.flatMap((heading, index) => (isMeant(heading) ? [index] : []));
    if (found.length > 1) {
      list.error("column-twice", { row, column }, words.columnTwice({ column: wanted }));
      return -1;
    }
    const [index] = found;
    if (index !== undefined) return index;
  }
  const known = headings.filter((heading) => heading !== "");
  list.error(
    "column-missing",
    { row, column },
    words.columnMissing({ column, near: nearestName(wanted, known), known }),
  );
  return -1;
}

/** Semicolons or tabs leave the comma free: where more numbers of the column use it than use the point, it is the decimal mark. */
function decimalMark({ delimiter, rows }: ReadTable, index: number): DecimalMark {
  if (delimiter === ",") return ".";
  const marks = rows.map(({ cells }) => decimalMarkOf(cells[index] ?? ""));
  const count = (mark: DecimalMark) => marks.filter((one) => one === mark).length;
  return count(",") > count(".") ? "," : ".";
}

/**
 * A table of results as rows to compare: bytes to cells as readings are read, columns by their headings (capitals, blanks and
 * underscores make no difference; `factor:NAME` answers to NAME).
 *
 * Rows with a text under `leftOut` or `excluded` are named and not held; so are rows without a value. A row without a variant,
 * block or factor, or with a value that is no number, is an error.
 */
export function readComparisonTable(
  bytes: Uint8Array,
  fileName: string,
  columns: ComparedColumns,
  locale: Locale = defaultLocale,
): ComparisonTableRead {
  const wanted = [columns.value, columns.by, ...(columns.block === null ? [] : [columns.block]), ...columns.factors];
  const source = readTable(bytes, fileName, locale, looksLike([...wanted, ...leftOutHeadings, "run"]));
  if (source.problems.length > 0) return { table: null, problems: source.problems, notes: source.notes };
  const list = problemList(fileName, locale);
  const headings = source.headings.map(textOfCell);
  const indexes = wanted.map((column) => columnIndex(column, headings, source.headingRow, list));
  // The variants may be the levels of a factor.
  const apart = indexes.filter(
    (index, place) => place !== 1 || !indexes.slice(2 + Number(columns.block !== null)).includes(index),
  );
  const again = apart.find((index, place) => index !== -1 && apart.indexOf(index) !== place);
  if (again !== undefined) {
    const column = headings[again] ?? "";
    const message = wordsFor(locale).comparisonTable.sameColumn({ column });
    list.error("same-column", { row: source.headingRow, column }, message);
  }
  if (list.problems.length > 0) return { table: null, problems: list.problems, notes: source.notes };
  return rowsOf(source, headings, indexes, columns, list);
}

function rowsOf(
  source: ReadTable,
  headings: readonly string[],
  indexes: readonly number[],
  columns: ComparedColumns,
  list: ProblemList,
): ComparisonTableRead {
  const words = wordsFor(list.locale).comparisonTable;
  const [valueIndex = -1, byIndex = -1, ...others] = indexes;
  const blockIndex = columns.block === null ? -1 : (others[0] ?? -1);
  const factorIndexes = columns.block === null ? others : others.slice(1);
  const plain = headings.map(plainHeading);
  const orderIndex = plain.indexOf("order");
  const ownBlock = plain.indexOf("block");
  const mark = decimalMark(source, valueIndex);
  const rows: ComparedRow[] = [];
  const leftOut: { row: number; reason: string }[] = [];
  const withoutValue: number[] = [];
  const blocks = new Set<string>();

  for (const line of source.rows) {
    const { row, cells } = line;
    const cellAt = (index: number) => textOfCell(cells[index] ?? "");
    const place = (index: number) => ({ row, column: headings[index] ?? "", cell: cells[index] ?? "" });
    if (!rowIsWhole(line, headings, longestCell, list)) continue;
    const leftOutIndex = plain.findIndex((heading, index) => leftOutHeadings.has(heading) && cellAt(index) !== "");
    if (leftOutIndex !== -1) {
      const reason = cellAt(leftOutIndex);
      if (noReason.test(reason)) {
        list.error("not-a-reason", place(leftOutIndex), list.words.cell.notAReason({ cell: reason }));
      } else leftOut.push({ row, reason });
      continue;
    }
    const written = (cells[valueIndex] ?? "").trim();
    if (written === "") {
      withoutValue.push(row);
      continue;
    }
    const value = readNumber(written, mark);
    if (!value.ok) {
      const message =
        value.because === "other-mark"
          ? words.otherMark({ cell: written, asDecimal: value.asDecimal })
          : words.notANumber({ cell: written });
      list.error(value.because, place(valueIndex), message);
    }
    const named = (index: number): string => {
      const text = cellAt(index);
      if (text === "") {
        list.error("level-missing", place(index), words.levelMissing({ column: headings[index] ?? "" }));
      }
      return text;
    };
    const number = value.ok ? toNumber(value.value) : 0;
    if (number !== 0 && (Math.abs(number) > largestValue || Math.abs(number) < 1 / largestValue)) {
      list.error("not-finite", place(valueIndex), words.outOfRange({ cell: written }));
    }
    const level = named(byIndex);
    const block = blockIndex === -1 ? null : named(blockIndex);
    const factors = factorIndexes.map(named);
    if (ownBlock !== -1 && cellAt(ownBlock) !== "") blocks.add(cellAt(ownBlock));
    if (!value.ok) continue;
    const order = orderIndex === -1 ? null : readNumber(cellAt(orderIndex), mark);
    // No minus before a zero, which would show in results.
    rows.push({
      row,
      value: number === 0 ? 0 : number,
      level,
      block,
      factors,
      order: order?.ok === true ? toNumber(order.value) : null,
    });
  }
  if (list.problems.length === 0 && rows.length === 0) {
    const column = headings[valueIndex] ?? "";
    list.error("no-values", { column }, words.noRows({ column, leftOut: leftOut.length, empty: withoutValue.length }));
  }
  if (list.problems.length > 0) return { table: null, problems: list.problems, notes: source.notes };
  return {
    table: {
      value: headings[valueIndex] ?? "",
      by: headings[byIndex] ?? "",
      hasBlocks: blockIndex !== -1,
      factors: factorIndexes.map((index) => (headings[index] ?? "").replace(factorPrefix, "")),
      rows,
      leftOut,
      withoutValue,
      blocksIgnored: blockIndex === -1 && !indexes.includes(ownBlock) ? blocks.size : 0,
    },
    problems: [],
    notes: [...source.notes, ...(mark === "," ? [list.words.notes.decimalCommas()] : [])],
  };
}
