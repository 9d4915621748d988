/** One cell of a table that is written as CSV: a text, a number, or digits (a time, a date) that are written as they stand. */
export type CsvCell = string | number | null | { readonly verbatim: string };

/** What a spreadsheet takes for the start of a formula, an apostrophe itself, and blanks that reading would take away. */
const needsApostrophe = /^[=+\-@'\s]/u;

/** A text as a cell: one apostrophe in front where a spreadsheet would run it, and that reading takes away again. */
export function neutralText(text: string): string {
  return needsApostrophe.test(text) ? `'${text}` : text;
}

/** A cell's content before quoting. Numbers in the shortest form that reads back to the same number. */
function cellContent(cell: CsvCell): string {
  if (cell === null) return "";
  if (typeof cell === "number") return Number.isFinite(cell) ? String(cell) : "";
  return typeof cell === "string" ? neutralText(cell) : cell.verbatim;
}

function quotedWhereNeeded(content: string): string {
  return /[",\r\n]/.test(content) ? `"${content.replaceAll('"', '""')}"` : content;
}

/**
 * A table as comma-separated text (RFC 4180), lines ended by CR LF.
 *
 * Texts are data and are never run as formulas: one that begins with `=`, `+`, `-`, `@`, an apostrophe or a blank (tab and
 * return among them) gets one apostrophe in front. Numbers are left alone; one that is not finite leaves its cell empty.
 */
export function csvText(rows: readonly (readonly CsvCell[])[]): string {
  return rows.map((row) => `${row.map((cell) => quotedWhereNeeded(cellContent(cell))).join(",")}\r\n`).join("");
}
