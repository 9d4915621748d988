import { createHash } from "node:crypto";
import {
  analyseStudy,
  type InputFile,
  type LeftOutRow,
  type Locale,
  type Method,
  type PhaseName,
  type Problem,
  phaseNames,
  type Question,
  type Study,
  type StudyProvenance,
  type StudyResults,
} from "../../core/index.ts";
import {
  emptySettingsFile,
  type ReadingsInput,
  type ReadingsRead,
  type ReadTable,
  readLeavingOutBadRows,
  readReadings,
  readSettings,
  readTable,
  type SettingsFile,
} from "../import/index.ts";

/** A file as it came: its name and its bytes. */
export interface SourceFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A study that is open: its results and where they come from. */
export interface OpenStudy {
  readonly results: StudyResults;
  readonly provenance: StudyProvenance;
}

export interface StudyRequest {
  readonly table: ReadTable;
  readonly settings: SettingsFile;
  /** What the table gives under these settings without these rows, where it is known already. */
  readonly read?: ReadingsRead | null;
  readonly inputs: readonly InputFile[];
  /** A flag that beats the settings. */
  readonly method?: Method | null;
  /** Rows to leave out because a person said so. */
  readonly leaveOutRows?: ReadonlySet<number>;
  /** Leave out every row that has an error. */
  readonly leaveOutBadRows?: boolean;
  /** What was done to the file between reading and taking it: cells that were mended. */
  readonly furtherNotes?: readonly string[];
  readonly studyName?: string;
  readonly isExample?: boolean;
  readonly locale: Locale;
}

/** What a file gives: its readings, what arose in reading them, and where they come from. */
export interface ReadStudy {
  readonly study: Study;
  readonly questions: readonly Question[];
  readonly provenance: StudyProvenance;
}

type OrProblems<T> = (T & { readonly ok: true }) | { readonly ok: false; readonly problems: readonly Problem[] };

export type StudyRead = OrProblems<{ readonly open: OpenStudy }>;

/** Name and version of the program, as files and reports state them. */
export interface Program {
  readonly name: string;
  readonly version: string;
}

/** The digest by which an input file is known. */
export function inputFile({ name, bytes }: SourceFile): InputFile {
  return { file: name, sha256: createHash("sha256").update(bytes).digest("hex") };
}

function asQuestion(problem: Problem): Question {
  const phase = phaseNames.find((name): name is PhaseName => name === problem.phase) ?? null;
  return {
    rule: problem.rule,
    run: problem.run,
    variant: null,
    phase,
    column: problem.column,
    message: problem.message,
  };
}

/** Reads a table of readings into a study, or says everything that stands against it. */
export function readStudy(request: StudyRequest, program: Program): OrProblems<{ readonly read: ReadStudy }> {
  const { table, settings, locale } = request;
  const input = {
    table,
    settings,
    method: request.method ?? null,
    leaveOutRows: request.leaveOutRows ?? new Set<number>(),
    locale,
  };
  const read = request.leaveOutBadRows === true ? readLeavingOutBadRows(input) : (request.read ?? readReadings(input));
  if (read.study === null) return { ok: false, problems: read.problems };
  const questions = read.problems.filter(({ severity }) => severity === "question").map(asQuestion);
  const study = request.studyName === undefined ? read.study : { ...read.study, name: request.studyName };
  return {
    ok: true,
    read: {
      study,
      questions,
      provenance: {
        inputs: request.inputs,
        leftOutRows: withFaults(read.leftOutRows, input),
        readingNotes: [...read.notes, ...(request.furtherNotes ?? [])],
        isExample: request.isExample ?? false,
        program,
      },
    },
  };
}

/** Rows left out by hand, with the errors that stood in them: the reason why somebody did. */
function withFaults(rows: readonly LeftOutRow[], input: ReadingsInput): LeftOutRow[] {
  const byHand = input.leaveOutRows ?? new Set<number>();
  if (byHand.size === 0) return rows.map((row) => ({ ...row }));
  const { problems } = readReadings({ ...input, leaveOutRows: new Set() });
  const faults = Map.groupBy(
    problems.filter(({ severity, row }) => severity === "error" && row !== null && byHand.has(row)),
    ({ row }) => row,
  );
  return rows.map((row) => ({
    ...row,
    reasons: [...row.reasons, ...(faults.get(row.row) ?? []).map(({ message }) => message)],
  }));
}

export interface FilesRequest {
  readonly readings: SourceFile;
  readonly settings: SourceFile | null;
  readonly method?: Method | null;
  readonly leaveOutBadRows?: boolean;
  readonly studyName?: string;
  readonly isExample?: boolean;
  readonly locale: Locale;
}

/** Settings from a file, or what holds where there is none. */
export function settingsFrom(
  file: SourceFile | null,
  method: Method | null,
  locale: Locale,
): { readonly settings: SettingsFile | null; readonly problems: readonly Problem[] } {
  if (file === null) return { settings: emptySettingsFile(), problems: [] };
  return readSettings(file.bytes, file.name, { method }, locale);
}

/** Reads a study from its files, or says everything that stands against them. */
export function readFiles(request: FilesRequest, program: Program): OrProblems<{ readonly read: ReadStudy }> {
  const { readings, settings: settingsFile, locale } = request;
  const table = readTable(readings.bytes, readings.name, locale);
  const { settings, problems } = settingsFrom(settingsFile, request.method ?? null, locale);
  if (settings === null) {
    // The settings' problems and the readings', all at once.
    const others = readReadings({ table, settings: emptySettingsFile(), locale }).problems;
    return { ok: false, problems: [...problems, ...others.filter(({ severity }) => severity === "error")] };
  }
  const inputs = [inputFile(readings), ...(settingsFile === null ? [] : [inputFile(settingsFile)])];
  return readStudy({ ...request, table, settings, inputs }, program);
}

/** Opens a study from its files, without a study file: the way of the command line. */
export function openFiles(request: FilesRequest, program: Program): StudyRead {
  const answer = readFiles(request, program);
  if (!answer.ok) return answer;
  const { study, questions, provenance } = answer.read;
  return { ok: true, open: { results: analyseStudy(study, request.locale, questions), provenance } };
}
