import Papa from "papaparse";

/** What passes between the grid and a spreadsheet: rows of cells, parted by tabs. */

/** What a spreadsheet takes for the start of a formula, and an apostrophe itself: as in files that are exported. */
const needsApostrophe = /^[=+\-@'\s]/u;
const isPlainNumber = /^-?\d+(?:\.\d+)?$/;

/** The decimal sign of the system, which its spreadsheet reads. */
export function systemDecimalSign(language?: string): string {
  return new Intl.NumberFormat(language).formatToParts(0.5).find(({ type }) => type === "decimal")?.value ?? ".";
}

/** A cell as it is copied: plain numbers with the decimal sign; texts as data, never run as formulas. */
export function copiedCell(text: string, isNumber: boolean, decimalSign: string): string {
  if (isNumber && isPlainNumber.test(text)) return text.replace(".", decimalSign);
  return needsApostrophe.test(text) ? `'${text}` : text;
}

/** The text of a cell that was pasted: without the apostrophe that copying put in front. */
function pastedCell(text: string): string {
  return text.startsWith("'") && needsApostrophe.test(text.slice(1)) ? text.slice(1) : text;
}

/** Rows as spreadsheets read them: tabs between cells, quotes around cells that hold tabs, quotes or line breaks. */
export function tabbedText(rows: readonly (readonly string[])[]): string {
  return Papa.unparse(rows as string[][], { delimiter: "\t", newline: "\r\n", escapeFormulae: false });
}

/** Rows as a table, for programs that take that rather than text. */
export function tableMarkup(rows: readonly (readonly string[])[]): string {
  const table = document.createElement("table");
  for (const row of rows) {
    const line = table.insertRow();
    for (const text of row) line.insertCell().textContent = text;
  }
  return table.outerHTML;
}

/**
 * Reads what a spreadsheet copied. Rows as long as the longest, filled up with empty cells; the line break at the end is
 * none of a row. A quotation mark that is never closed is a character like any other.
 */
export function pastedRows(text: string): string[][] {
  const whole = text.replace(/\r?\n$|\r$/, "");
  const read = (quoteChar: string) =>
    Papa.parse<string[]>(whole, { delimiter: "\t", quoteChar, escapeChar: quoteChar, skipEmptyLines: false });
  const quoted = read('"');
  // What no text of a spreadsheet holds stands for "no quotation marks".
  const { data } = quoted.errors.length === 0 ? quoted : read("\u{f8ff}");
  const rows = data.length === 0 ? [[""]] : data;
  const width = Math.max(...rows.map((row) => row.length));
  return rows.map((row) => Array.from({ length: width }, (_, column) => pastedCell(row[column] ?? "")));
}
