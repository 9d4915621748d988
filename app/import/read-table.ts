import Papa from "papaparse";
import { defaultLocale, formatFixed, type Locale, type Problem } from "../../core/index.ts";
import { decodeText } from "./decode-text.ts";
import { fewestHeadings, headingsIn, rowsSearched } from "./find-headings.ts";
import { largestFile, longestCell, mostColumns, mostRows } from "./limits.ts";
import { type ProblemList, problemList } from "./problem-list.ts";

export type Delimiter = "," | ";" | "\t";

/** How many cells of a row are headings that are looked for. */
export type HeadingCount = (cells: readonly string[]) => number;

/** A file as cells, before anybody asks what they mean. */
export interface ReadTable {
  readonly fileName: string;
  readonly delimiter: Delimiter;
  /** Row of the headings, as a spreadsheet counts. */
  readonly headingRow: number;
  readonly headings: readonly string[];
  /** Rows under the heading that hold anything, cells as written. */
  readonly rows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  /** Errors of the whole file. With any of them there are no rows. */
  readonly problems: readonly Problem[];
  /** What was assumed in reading. */
  readonly notes: readonly string[];
}

/** The line break that parts rows; mixed ones outside quotation marks are made alike first. */
function withOneLineBreak(text: string): { text: string; newline: "\n" | "\r\n" | "\r" } {
  if (!text.includes("\r")) return { text, newline: "\n" };
  const returns = text.match(/\r\n|\r|\n/g) ?? [];
  const [first = "\n"] = returns;
  if (returns.every((found) => found === first)) return { text, newline: first as "\n" | "\r\n" | "\r" };
  const parts = text.split('"');
  // Even parts stand outside quotation marks.
  return {
    text: parts.map((part, index) => (index % 2 === 0 ? part.replaceAll(/\r\n?/g, "\n") : part)).join('"'),
    newline: "\n",
  };
}

const parse = (text: string, delimiter: Delimiter, newline: "\n" | "\r\n" | "\r", preview: number) =>
  Papa.parse<string[]>(text, { delimiter, newline, preview });

const isBlank = (cells: readonly string[]) => cells.every((cell) => cell.trim() === "");

/**
 * The mark that parts the headings into most of the layout's columns; a comma where none does. Where the first row does not
 * look like headings, a title may stand above them.
 */
function findDelimiter(text: string, newline: "\n" | "\r\n" | "\r", headingsAmong: HeadingCount): Delimiter {
  const start = text.replace(/^\s+/, "").slice(0, 200_000);
  let best: Delimiter = ",";
  let bestCount = 0;
  for (const rows of [1, rowsSearched]) {
    for (const delimiter of [",", ";", "\t"] as const) {
      const first = parse(start, delimiter, newline, rows).data;
      const count = first.reduce((most, cells) => Math.max(most, headingsAmong(cells)), 0);
      if (count > bestCount) {
        best = delimiter;
        bestCount = count;
      }
    }
    if (bestCount >= fewestHeadings) break;
  }
  return best;
}

/** A first line by which some spreadsheets name the mark between cells: `sep=;`. Null where there is none. */
function statedDelimiter(text: string): Delimiter | null {
  const stated = /^\s*"?sep=([,;\t])"?[,;\t]*(?=[\r\n])/i.exec(text)?.[1];
  return stated === undefined ? null : (stated as Delimiter);
}

function readCells(
  text: string,
  list: ProblemList,
  headingsAmong: HeadingCount,
): Pick<ReadTable, "delimiter" | "headingRow" | "headings" | "rows"> {
  const { words, locale } = list;
  const alike = withOneLineBreak(text);
  const stated = statedDelimiter(alike.text);
  const delimiter = stated ?? findDelimiter(alike.text, alike.newline, headingsAmong);
  const { data, errors } = parse(alike.text, delimiter, alike.newline, mostRows + 2);
  const nothing = { delimiter, headingRow: 1, headings: [], rows: [] };

  const quote = errors.find(({ type }) => type === "Quotes");
  if (quote !== undefined) {
    const row = (quote.row ?? 0) + 1;
    if (quote.code === "MissingQuotes") list.error("unterminated-quote", { row }, words.file.unterminatedQuote());
    else list.error("stray-quote", { row }, words.file.strayQuote());
    return nothing;
  }
  if (data.length > mostRows + 1) {
    list.error("too-many-rows", {}, words.file.tooManyRows({ limit: formatFixed(mostRows, 0, locale) }));
    return nothing;
  }
  const statedIndex = stated === null ? -1 : data.findIndex((cells) => !isBlank(cells));
  const headingIndex = data.findIndex((cells, index) => index > statedIndex && !isBlank(cells));
  if (headingIndex === -1) {
    list.error("empty-file", {}, words.file.empty());
    return nothing;
  }
  const written = data[headingIndex] ?? [];
  const lastHeading = written.findLastIndex((heading) => heading.trim() !== "");
  const headings = written.slice(0, lastHeading + 1);
  const headingRow = headingIndex + 1;
  if (headings.length > mostColumns) {
    list.error(
      "too-many-columns",
      { row: headingRow },
      words.file.tooManyColumns({ limit: formatFixed(mostColumns, 0, locale) }),
    );
    return nothing;
  }
  if (headings.some((heading) => heading.length > longestCell)) {
    list.error(
      "heading-too-long",
      { row: headingRow },
      words.file.headingTooLong({ limit: formatFixed(longestCell, 0, locale) }),
    );
    return nothing;
  }
  const rows = data.flatMap((cells, index) =>
    index > headingIndex && !isBlank(cells) ? [{ row: index + 1, cells }] : [],
  );
  if (rows.length === 0) list.error("no-rows", {}, words.file.noRows());
  return { delimiter, headingRow, headings, rows };
}

/**
 * A readings file as a table of cells: bytes to text, text to rows numbered as a spreadsheet counts (a cell with line breaks
 * is still in one row; blank lines count). Semicolons or tabs in place of commas are read, and said.
 *
 * @param headingsAmong for tables of another kind than readings: how much a row of cells looks like its headings
 */
export function readTable(
  bytes: Uint8Array,
  fileName: string,
  locale: Locale = defaultLocale,
  headingsAmong: HeadingCount = headingsIn,
): ReadTable {
  const list = problemList(fileName, locale);
  const { words } = list;
  const refused = (): ReadTable => ({
    fileName,
    delimiter: ",",
    headingRow: 1,
    headings: [],
    rows: [],
    problems: list.problems,
    notes: [],
  });
  const megabytes = (count: number) => formatFixed(count / 1024 / 1024, count % (1024 * 1024) === 0 ? 0 : 1, locale);

  const decoded = decodeText(bytes);
  if (!decoded.ok) {
    if (decoded.because === "too-large") {
      const sizes = { megabytes: megabytes(bytes.length), limit: megabytes(largestFile) };
      list.error("file-too-large", {}, words.file.tooLarge(sizes));
    } else if (decoded.because === "workbook") list.error("workbook", {}, words.file.workbook());
    else if (decoded.because === "nul") list.error("nul", {}, words.file.nul(decoded));
    else if (decoded.because === "encoding") list.error("encoding", {}, words.file.encoding(decoded));
    else list.error("encoding", {}, words.file.encodingUtf16());
    return refused();
  }
  const cells = readCells(decoded.text, list, headingsAmong);
  if (list.problems.length > 0) return { ...refused(), ...cells, rows: [] };

  const { encoding } = decoded;
  const notes: string[] = [];
  if (encoding.name === "UTF-16") notes.push(words.notes.utf16(encoding));
  else if (encoding.marked) notes.push(words.notes.byteOrderMark());
  if (cells.delimiter !== ",") notes.push(cells.delimiter === ";" ? words.notes.semicolons() : words.notes.tabs());
  return { fileName, ...cells, problems: [], notes };
}

/** The table with some cells changed; column from 0. A row gets longer where it has to. */
export function mendTable(
  table: ReadTable,
  changes: readonly { readonly row: number; readonly column: number; readonly text: string }[],
): ReadTable {
  const byRow = new Map<number, (typeof changes)[number][]>();
  for (const change of changes) byRow.set(change.row, [...(byRow.get(change.row) ?? []), change]);
  const mended = (cells: readonly string[], row: number): readonly string[] => {
    const here = byRow.get(row);
    if (here === undefined) return cells;
    const next = [...cells];
    for (const { column, text } of here) {
      if (column >= mostColumns) continue;
      while (next.length <= column) next.push("");
      next[column] = text;
    }
    return next;
  };
  return {
    ...table,
    headings: mended(table.headings, table.headingRow),
    rows: table.rows.map(({ row, cells }) => ({ row, cells: mended(cells, row) })),
  };
}
