import { quoted } from "./readings-quoted.ts";

interface Cell {
  readonly cell: string;
}

const list = (names: readonly string[]) => names.map(quoted).join(", ");

/** What is wrong with a table of results that is to be compared, and what was done with its rows. */
export const comparisonTable = {
  columnMissing: ({ column, near, known }: { column: string; near: string | null; known: readonly string[] }) =>
    `There is no column ${quoted(column)}. ${
      near === null
        ? `The headings are: ${list(known.slice(0, 20))}${known.length > 20 ? ", …" : ""}. Name one of them.`
        : `Is ${quoted(near)} meant?`
    }`,
  columnTwice: ({ column }: { column: string }) =>
    `Two columns have the heading ${quoted(column)}. Rename one of them, so that it is clear which is meant.`,
  sameColumn: ({ column }: { column: string }) =>
    `${quoted(column)} is named for two purposes. Values, variants, blocks and factors each need a column of their own.`,
  levelMissing: ({ column }: { column: string }) =>
    `${quoted(column)} is empty, so it is not known what this run belongs to. Fill it in, or say in a column leftOut why the row does not count.`,
  notANumber: ({ cell }: Cell) =>
    `${quoted(cell)} is not a number that can be computed with. Write digits with one decimal mark and nothing between thousands, or say in a column leftOut why the row does not count.`,
  otherMark: ({ cell, asDecimal }: Cell & { asDecimal: string }) =>
    `${quoted(cell)} uses another decimal mark than the rest of the file. Write ${asDecimal}, with nothing between thousands.`,
  outOfRange: ({ cell }: Cell) =>
    `${quoted(cell)} is beyond what is computed with: sizes from 1e-100 to 1e100, and zero. Choose a unit in which the numbers are ordinary.`,
  noRows: ({ column, leftOut, empty }: { column: string; leftOut: number; empty: number }) =>
    `There is nothing to compare in ${quoted(column)}: ${
      empty === 0 && leftOut > 0
        ? `${leftOut === 1 ? "the only row is" : `all ${leftOut} rows are`} left out. Clear their cells under leftOut or excluded, if they are to count.`
        : leftOut === 0
          ? "no row has a value. Check that this is the column that is meant."
          : `rows left out: ${leftOut}; rows without a value: ${empty}. Check that this is the column that is meant.`
    }`,
  baselineMissing: ({ baseline, known, near }: { baseline: string; known: readonly string[]; near: string | null }) =>
    `There is no variant ${quoted(baseline)} among the rows that count. ${
      near === null ? `There are: ${list(known.slice(0, 20))}.` : `Is ${quoted(near)} meant?`
    }`,
  tooManyLevels: ({ count, limit }: { count: number; limit: number }) =>
    `The column parts the rows into ${count} variants; at most ${limit} are compared. Is it the column that is meant?`,
};
