import {
  defaultLocale,
  formatFixed,
  type Locale,
  type Method,
  methodOfPhase,
  type Phase,
  type Problem,
  phaseNames,
  type Run,
  type Settings,
  type Study,
} from "../../core/index.ts";
import { type FileColumns, fileColumns } from "./file-columns.ts";
import { headingsAreThere } from "./find-headings.ts";
import { layoutColumns } from "./layout.ts";
import { longestCell, mostProblems } from "./limits.ts";
import { textOfCell } from "./match-headings.ts";
import { problemList } from "./problem-list.ts";
import { type DecimalMark, decimalMarkOf } from "./read-number.ts";
import { draftRun, type NamedRow, phaseNamed, type RunSource } from "./read-run.ts";
import type { ReadTable } from "./read-table.ts";
import { type RowReader, rowIsWhole, rowReader } from "./row-reader.ts";
import { type SettingsFile, settingsFor } from "./settings-file.ts";
import { askAboutSimilarNames } from "./similar-names.ts";

export interface ReadingsInput {
  readonly table: ReadTable;
  readonly settings: SettingsFile | Settings;
  /** What the command line says; beats the settings. */
  readonly method?: Method | null;
  readonly leaveOutRows?: ReadonlySet<number>;
  readonly locale?: Locale;
}

/** A row that is not in the study, and why. */
export interface LeftOutRow {
  readonly file: string;
  readonly row: number;
  readonly run: string | null;
  readonly phase: string | null;
  readonly reasons: readonly string[];
}

export interface ReadingsRead {
  /** Null while any error stands. */
  readonly study: Study | null;
  /** Errors and questions, in order of row and column. */
  readonly problems: readonly Problem[];
  /** What was assumed, and columns that are kept as notes. */
  readonly notes: readonly string[];
  /** Rows that the person left out, and phases of left-out runs that lack needed readings; in order of row. */
  readonly leftOutRows: readonly LeftOutRow[];
}

/** Semicolons or tabs leave the comma free: where more numbers of the file use it than use the point, it is the decimal mark. */
function findDecimalMark(table: ReadTable, columns: FileColumns): DecimalMark {
  if (table.delimiter === ",") return ".";
  const indexes = layoutColumns.flatMap(({ name, content }) => {
    const column = columns.known.get(name);
    return content === "number" && column !== undefined ? [column.index] : [];
  });
  let commas = 0;
  let points = 0;
  for (const { cells } of table.rows) {
    for (const index of indexes) {
      const mark = decimalMarkOf(cells[index] ?? "");
      if (mark === ",") commas += 1;
      else if (mark === ".") points += 1;
    }
  }
  return commas > points ? "," : ".";
}

interface FileReading extends RunSource {
  readonly settings: Settings | SettingsFile;
  readonly file: string;
  readonly leftOutRows: LeftOutRow[];
  rowsWithDurationBeside: number;
}

/** One run from its rows; null where none of its phases can be taken. */
function readRun(name: string, allRows: readonly NamedRow[], reading: FileReading): Run | null {
  const { id, values, date, phases: drafts } = draftRun(name, allRows, reading);
  const phases: Phase[] = [];
  for (const { row, phase, durationBeside } of drafts) {
    if (durationBeside) reading.rowsWithDurationBeside += 1;
    if (row.missing.length > 0) {
      const reasons = [...(values.leftOut === null ? [] : [values.leftOut]), ...row.missing];
      reading.leftOutRows.push({ file: reading.file, row: row.row, run: name, phase: phase.phase, reasons });
    } else if (row.errors === 0) phases.push(phase);
  }
  const [first] = phases;
  if (first === undefined || values.variant === null) return null;
  const { variant, ...rest } = values;
  return { ...rest, date, id, name, variant, method: methodOfPhase(first.phase), phases };
}

/** Parts of files that were put together keep their headings. */
const isHeadingsAgain = (cells: readonly string[], headings: readonly string[]) =>
  headings.every((heading, index) => cells[index]?.trim() === heading.trim());

type SourceRow = ReadTable["rows"][number];

/** Rows under the heading by run, in order of first appearance; a row without a run stands alone. */
function rowsByRun({ table, leaveOutRows }: ReadingsInput, reading: FileReading): SourceRow[][] {
  const { columns, list } = reading;
  const runColumn = columns.known.get("run")?.index ?? -1;
  const runs = new Map<string, SourceRow[]>();
  for (const source of table.rows) {
    const leftOut = leaveOutRows?.has(source.row) ?? false;
    const judge = leftOut ? problemList(table.fileName, list.locale) : list;
    if (source.cells.length >= table.headings.length && isHeadingsAgain(source.cells, table.headings)) {
      const message = list.words.file.headingsRepeated({ headingRow: table.headingRow });
      judge.error("headings-repeated", { row: source.row }, message);
      if (leftOut) leaveOut(source.row, null, null, reading);
      continue;
    }
    if (!rowIsWhole(source, table.headings, longestCell, judge)) {
      if (leftOut) leaveOut(source.row, null, null, reading);
      continue;
    }
    const name = textOfCell(source.cells[runColumn] ?? "");
    const key = name === "" ? `row ${source.row}` : `run ${name}`;
    const rows = runs.get(key);
    if (rows === undefined) runs.set(key, [source]);
    else rows.push(source);
  }
  return [...runs.values()];
}

/** A row as a reader, with the phase that it names. */
function namedRow(source: SourceRow, input: ReadingsInput, mark: DecimalMark, reading: FileReading): NamedRow {
  const { columns, list } = reading;
  const leftOut = input.leaveOutRows?.has(source.row) ?? false;
  const row = rowReader(source, columns, mark, list, leftOut);
  const written = row.text("phase");
  const phase = written === null ? null : phaseNamed(written);
  if (leftOut) leaveOut(source.row, row.run || null, phase ?? written, reading);
  if (row.run === "" && columns.known.has("run")) {
    row.error("reading-missing", row.place("run"), list.words.cell.missingName({ column: "run" }));
  }
  if (written === null && columns.known.has("phase")) {
    row.error("reading-missing", row.place("phase"), list.words.cell.missingName({ column: "phase" }));
  } else if (written !== null && phase === null) {
    row.error("unknown-phase", row.place("phase"), list.words.cell.unknownPhase({ cell: written, known: phaseNames }));
  }
  return { row, phase };
}

function leaveOut(
  row: number,
  run: string | null,
  phase: string | null,
  { list, file, leftOutRows }: FileReading,
): void {
  leftOutRows.push({ file, row, run, phase, reasons: [list.words.notes.leftOutByHand()] });
}

/** In order of row, and in a row in order of the file's columns; what is of the whole file first. */
function inOrder(problems: readonly Problem[], headings: readonly string[]): Problem[] {
  const position = new Map(headings.map((heading, index) => [heading.trim(), index]));
  const column = ({ column: name }: Problem) => (name === null ? -1 : (position.get(name) ?? headings.length));
  return problems.toSorted((left, right) => (left.row ?? 0) - (right.row ?? 0) || column(left) - column(right));
}

/** Name of a study from that of its file. */
function studyName(fileName: string): string {
  const base = fileName.split(/[\\/]/).at(-1) ?? fileName;
  return base.replace(/\.(csv|txt|tsv)$/i, "") || base;
}

/**
 * A table of cells as a study: everything that is wrong with it at once, each problem with its row, column and cell.
 * Values come out in the layout's units; decimals are scaled exactly.
 */
export function readReadings(input: ReadingsInput): ReadingsRead {
  const { table } = input;
  const list = problemList(table.fileName, input.locale ?? defaultLocale);
  if (table.problems.length > 0) return { study: null, problems: table.problems, notes: table.notes, leftOutRows: [] };

  if (!headingsAreThere(table, list)) {
    return { study: null, problems: list.problems, notes: table.notes, leftOutRows: [] };
  }
  const columns = fileColumns(table, list);
  const { settings } = input;
  const reading: FileReading = {
    columns,
    list,
    settings,
    file: table.fileName,
    leftOutRows: [],
    rowsWithDurationBeside: 0,
  };
  const runs: Run[] = [];
  const mark = findDecimalMark(table, columns);
  const allRows: RowReader[] = [];
  for (const sources of rowsByRun(input, reading)) {
    if (list.isFull) break;
    const rows = sources.map((source) => namedRow(source, input, mark, reading));
    for (const { row } of rows) allRows.push(row);
    const run = readRun(rows[0]?.row.run ?? "", rows, reading);
    if (run !== null) runs.push(run);
  }
  askAboutSimilarNames(
    allRows.toSorted((left, right) => left.row - right.row),
    columns,
    list,
  );
  const notes = [...table.notes, ...columns.notes];
  if (mark === ",") notes.push(list.words.notes.decimalCommas());
  if (reading.rowsWithDurationBeside > 0) {
    notes.push(list.words.notes.durationBeside({ rows: reading.rowsWithDurationBeside }));
  }
  if (list.isFull) {
    const limit = formatFixed(mostProblems, 0, list.locale);
    const full = problemList(table.fileName, list.locale);
    full.error("too-many-problems", {}, list.words.file.tooManyProblems({ limit }));
    return {
      study: null,
      problems: [...full.problems, ...inOrder(list.problems, table.headings)],
      notes,
      leftOutRows: [],
    };
  }
  const hasErrors = () => list.problems.some(({ severity }) => severity === "error");
  if (runs.length === 0 && !hasErrors()) list.error("nothing-left", {}, list.words.file.nothingLeft());
  return {
    study: hasErrors()
      ? null
      : { name: studyName(table.fileName), settings: settingsFor(settings, runs, input.method ?? null), runs },
    problems: inOrder(list.problems, table.headings),
    notes,
    leftOutRows: reading.leftOutRows.toSorted((left, right) => left.row - right.row),
  };
}
