/** One cell: a text, a number, or nothing. */
export type CsvCell = string | number | null;

/** What a spreadsheet would take for a formula, or for its own mark that a text follows. */
const startsLikeFormula = /^[=+\-@\t\r']/;

/**
 * Comma-separated values after RFC 4180: lines end with CR LF, cells with comma, quote or line break are quoted. Numbers are
 * the shortest text that reads back as the same number, with a point, and never quoted; NaN and infinities, which no CSV
 * knows, are refused. A text that a spreadsheet would run as a formula, or that begins with an apostrophe, gets one
 * apostrophe in front; a reader takes one leading apostrophe off a text.
 * @throws RangeError for a number that is not finite
 */
export function writeCsv(rows: readonly (readonly CsvCell[])[]): string {
  return rows.map((row) => `${row.map(cellText).join(",")}\r\n`).join("");
}

function cellText(cell: CsvCell): string {
  if (cell === null) return "";
  if (typeof cell === "number") {
    if (!Number.isFinite(cell)) throw new RangeError(`a CSV cell cannot hold ${cell}`);
    return Object.is(cell, -0) ? "0" : String(cell);
  }
  const safe = startsLikeFormula.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
