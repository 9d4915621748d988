import { quoted } from "./readings-quoted.ts";

const list = (names: readonly string[]) => names.join(", ");

/** Errors of a whole readings file, its heading or its rows as such. */
export const fileProblems = {
  tooLarge: ({ megabytes, limit }: { megabytes: string; limit: string }) =>
    `The file has ${megabytes} MiB; at most ${limit} MiB are read. Split it by runs, or leave out what is not readings.`,
  workbook: () =>
    "The file is a workbook, not text. Open it in a spreadsheet and save the sheet as “CSV UTF-8 (comma delimited)”.",
  encoding: ({ line }: { line: number }) =>
    `The text is not UTF-8: line ${line} holds bytes that mean nothing in it. Save the file again as UTF-8 (in a spreadsheet: “CSV UTF-8”).`,
  encodingUtf16: () =>
    "The file says it is UTF-16, but its bytes are not valid UTF-16: it was cut off or damaged. Save it again, as UTF-8.",
  nul: ({ line }: { line: number }) =>
    `Line ${line} holds a zero character, which no text has: the file is damaged or not a text. Save it again as “CSV UTF-8”.`,
  empty: () =>
    "The file is empty. Check that it is the right one: a readings file has a heading row and one row for each phase of a run.",
  noRows: () => "There is a heading but no row of readings under it. Add one row for each phase of a run.",
  headingsUnknown: ({ row }: { row: number }) =>
    `Row ${row} should hold the headings, but names hardly any column of a readings file (run, variant, phase, …). Check that the heading row is there and that a comma, a semicolon or a tab parts the cells.`,
  headingsBelow: ({ row, found }: { row: number; found: number }) =>
    `Row ${row} should hold the headings, but they seem to be in row ${found}. Take away what stands above them.`,
  headingsRepeated: ({ headingRow }: { headingRow: number }) =>
    `This row holds the headings of row ${headingRow} again. Take it away.`,
  entryBeyond: ({ heading, what }: { heading: string; what: "pot" | "fuel" }) =>
    `${quoted(heading)} has cells, but only ${what === "pot" ? "pots" : "fuels"} 1 to 4 are read: its readings would be lost. ${
      what === "pot"
        ? "A test has at most four pots; correct the heading."
        : "Put two fuels of one kind into one entry, or correct the heading."
    }`,
  nearColumn: ({ heading, near }: { heading: string; near: string }) =>
    `${quoted(heading)} is not known, and its cells are kept as a note only. Is ${near} meant? Then rename it.`,
  tooManyRows: ({ limit }: { limit: string }) =>
    `The file has more than ${limit} rows. Split it by runs, or take out rows that hold no readings.`,
  tooManyProblems: ({ limit }: { limit: string }) =>
    `More than ${limit} problems were found, and the rest of the file was not looked at. Check that it is a readings file.`,
  tooManyColumns: ({ limit }: { limit: string }) =>
    `A row has more than ${limit} cells. Check that commas separate the cells and take out columns that hold no readings.`,
  unterminatedQuote: () =>
    'A cell that begins with a quotation mark (") is never closed, so everything after it runs together. Add the closing mark, or take the opening one away.',
  strayQuote: () =>
    'In this row a cell begins with a quotation mark (") but goes on after the closing one. Double a mark that belongs to the text ("") and close the cell with a single one.',
  columnMissing: ({ column, alternative, near }: { column: string; alternative: string | null; near: string | null }) =>
    `The column ${column} is missing${alternative === null ? "" : ` (or ${alternative} in its place)`}: without it no run can be computed. ${
      near === null ? "Add it to the heading row." : `If ${quoted(near)} is meant, rename it ${column}.`
    }`,
  columnTwice: ({ first, column }: { first: string; column: string }) =>
    `Two headings mean the same column: ${quoted(first)} and ${quoted(column)}. Capitals, blanks and underscores make no difference. Take one away or rename it.`,
  unitUnknown: ({ heading, unit, known }: { heading: string; unit: string; known: readonly string[] }) =>
    `The heading ${quoted(heading)} names the unit ${quoted(unit)}, which is not known for it. Known are: ${list(known)}. Convert the column, or correct the unit.`,
  unitMissing: ({ heading, column }: { heading: string; column: string }) =>
    `The heading ${quoted(heading)} names no unit. Write ${column}, or put the unit in brackets behind it.`,
  unitTwice: ({ heading }: { heading: string }) =>
    `The heading ${quoted(heading)} names two different units. Keep the one that the numbers are in.`,
  headingMissing: ({ column }: { column: string }) =>
    `Column ${column} of the spreadsheet has cells but no heading. Give it a heading, or empty it.`,
  headingTooLong: ({ limit }: { limit: string }) =>
    `A heading has more than ${limit} characters. Shorten it; a quotation mark that is never closed can be the cause.`,
  tooFewCells: ({ cells, headings }: { cells: number; headings: number }) =>
    `The row has ${cells} ${cells === 1 ? "cell" : "cells"}, the heading ${headings}: cells are missing and the others may have slipped. Write every comma, also for empty cells.`,
  tooManyCells: ({ cells, headings }: { cells: number; headings: number }) =>
    `The row has ${cells} cells, the heading ${headings}: cells may have slipped. A decimal comma or a comma in a text can be the cause. Write decimals with a point, and put quotation marks round a text with a comma.`,
  nothingLeft: () => "No row is left to analyse. Mend the rows that were left out.",
};

/** What was assumed in reading a file, said and not asked. */
export const importNotes = {
  byteOrderMark: () => "The file begins with a byte order mark; it was read as UTF-8.",
  utf16: ({ order, marked }: { order: "LE" | "BE"; marked: boolean }) =>
    `The file was read as UTF-16 ${order}${marked ? " (as its byte order mark says)" : " (from the pattern of its bytes)"}.`,
  semicolons: () => "Semicolons separate the cells.",
  tabs: () => "Tabs separate the cells.",
  decimalCommas: () => "The comma was read as the decimal mark: 1,5 is one and a half.",
  otherColumns: ({ headings }: { headings: readonly string[] }) =>
    `Columns that the layout does not know are kept as notes of their phase: ${list(headings.map(quoted))}.`,
  unitConverted: ({ heading, column }: { heading: string; column: string }) =>
    `${quoted(heading)} was converted to ${column}.`,
  durationBeside: ({ rows }: { rows: number }) =>
    `${rows === 1 ? "One row gives" : `${rows} rows give`} start, end and duration_min, which agree: start and end are used, the duration is kept as a note.`,
  leftOutByHand: () => "Left out by hand.",
};
