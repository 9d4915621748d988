import { randomUUID } from "node:crypto";
import {
  calorificQuestions,
  type InputFile,
  type Locale,
  type Problem,
  runFacts,
  type Study,
  variantNames,
  visibleText,
  wordsFor,
} from "../../core/index.ts";
import type { ImportView } from "../contract/index.ts";
import {
  mendTable,
  type ReadingsRead,
  type ReadTable,
  readReadings,
  readTable,
  type SettingsFile,
} from "../import/index.ts";
import { inputFile, type ReadStudy, readStudy, type SourceFile, settingsFrom } from "./open-study.ts";
import { program } from "./program.ts";
import { refuse } from "./refused.ts";
import { isOrderKept } from "./stored/index.ts";

/** A file that was read and is not yet taken. */
interface WaitingFile {
  /** As it was read, before any cell was mended. */
  readonly asRead: ReadTable;
  readonly table: ReadTable;
  readonly settingsFile: string | null;
  readonly settings: SettingsFile | null;
  readonly settingsProblems: readonly Problem[];
  readonly inputs: readonly InputFile[];
  readonly leaveOutRows: ReadonlySet<number>;
}

/** A file with what its rows give, so that a large one is not read twice. */
interface HeldFile extends WaitingFile {
  /** Null where its settings could not be read. */
  readonly read: ReadingsRead | null;
}

/** How many files are kept at hand: a person mends one, and may have another window. */
const mostWaiting = 4;

/** The files on their way in. Nothing here touches the open study. */
export class ImportDesk {
  readonly #waiting = new Map<string, HeldFile>();
  readonly #locale: Locale;

  constructor(locale: Locale) {
    this.#locale = locale;
  }

  /** Reads a file and says what is wrong with it. */
  check(readings: SourceFile, settings: SourceFile | null): ImportView {
    const read = settingsFrom(settings, null, this.#locale);
    const table = readTable(readings.bytes, readings.name, this.#locale);
    return this.#keep(randomUUID(), {
      asRead: table,
      table,
      settingsFile: settings?.name ?? null,
      settings: read.settings,
      settingsProblems: read.problems,
      inputs: [inputFile(readings), ...(settings === null ? [] : [inputFile(settings)])],
      leaveOutRows: new Set(),
    });
  }

  /** Changes cells and rows to leave out; the digest of the inputs stays that of the file, and a note says cells were mended. */
  mend(
    importId: string,
    cells: readonly { readonly row: number; readonly column: number; readonly text: string }[],
    leaveOutRows: readonly number[],
  ): ImportView {
    const waiting = this.#find(importId);
    return this.#keep(importId, {
      ...waiting,
      table: mendTable(waiting.table, cells),
      leaveOutRows: new Set(leaveOutRows),
    });
  }

  /**
   * The waiting file as a study. Refused while errors stand. It waits on until it is {@link done}, so that nothing is lost where
   * it cannot be taken.
   */
  accept(importId: string, studyName: string): ReadStudy & { readonly hasSettings: boolean } {
    const waiting = this.#find(importId);
    const words = wordsFor(this.#locale).service;
    if (waiting.settings === null) refuse(words.importNotAcceptable);
    const answer = readStudy(
      {
        table: waiting.table,
        read: waiting.read,
        settings: waiting.settings,
        inputs: waiting.inputs,
        leaveOutRows: waiting.leaveOutRows,
        furtherNotes: mendedNotes(waiting, this.#locale),
        studyName: studyName.trim() || suggestedName(waiting.table.fileName),
        locale: this.#locale,
      },
      program,
    );
    if (!answer.ok) refuse(words.importNotAcceptable);
    const unkept = answer.read.study.runs.find((run) => !isOrderKept(run));
    if (unkept !== undefined) refuse(wordsFor(this.#locale).record.orderTooLarge(unkept.name));
    return { ...answer.read, hasSettings: waiting.settingsFile !== null };
  }

  /** The file was taken: it need not be kept at hand. */
  done(importId: string): void {
    this.#waiting.delete(importId);
  }

  #find(importId: string): HeldFile {
    return this.#waiting.get(importId) ?? refuse(wordsFor(this.#locale).service.importGone);
  }

  #keep(importId: string, waiting: WaitingFile): ImportView {
    const { table, settings, leaveOutRows } = waiting;
    const read = settings === null ? null : readReadings({ table, settings, leaveOutRows, locale: this.#locale });
    const held = { ...waiting, read };
    this.#waiting.delete(importId);
    this.#waiting.set(importId, held);
    for (const oldest of this.#waiting.keys()) {
      if (this.#waiting.size <= mostWaiting) break;
      this.#waiting.delete(oldest);
    }
    return importView(importId, held, this.#locale);
  }
}

/** One note for each cell that was mended: the digest in the report is of the file as it was read. */
function mendedNotes({ asRead, table }: WaitingFile, locale: Locale): string[] {
  const words = wordsFor(locale).service;
  const before = new Map(asRead.rows.map(({ row, cells }) => [row, cells]));
  return table.rows.flatMap(({ row, cells }) =>
    cells.flatMap((cell, column) => {
      const was = before.get(row)?.[column] ?? "";
      if (was === cell) return [];
      const place = visibleText(table.headings[column] ?? String(column + 1));
      return [words.mended(visibleText(table.fileName), row, place, visibleText(was), visibleText(cell))];
    }),
  );
}

function calorificOf({ runs, settings }: Study, locale: Locale) {
  return calorificQuestions(
    runs.map((run) => runFacts(run, settings)),
    settings,
    locale,
  );
}

function suggestedName(fileName: string): string {
  return fileName.replace(/\.(csv|txt|tsv)$/i, "");
}

function importView(importId: string, waiting: HeldFile, locale: Locale): ImportView {
  const { table, settingsProblems, leaveOutRows } = waiting;
  const read = waiting.read ?? { study: null, problems: table.problems, notes: table.notes };
  const { study } = read;
  const problems = [
    ...settingsProblems,
    ...read.problems,
    // Not of a row: what the settings that came with the file leave open.
    ...(study === null ? [] : calorificOf(study, locale)).map(
      ({ rule, message }): Problem => ({
        severity: "question",
        rule,
        file: table.fileName,
        row: null,
        column: null,
        cell: null,
        run: null,
        phase: null,
        message,
      }),
    ),
  ];
  return {
    importId,
    readingsFile: table.fileName,
    settingsFile: waiting.settingsFile,
    columns: table.headings,
    rows: table.rows.map(({ row, cells }) => ({ row, cells, leftOut: leaveOutRows.has(row) })),
    problems,
    notes: read.notes,
    summary:
      study === null
        ? null
        : {
            runs: study.runs.length,
            phases: study.runs.reduce((total, run) => total + run.phases.length, 0),
            variants: variantNames(study.runs).length,
          },
    acceptable: study !== null && !problems.some(({ severity }) => severity === "error"),
    suggestedName: suggestedName(table.fileName),
  };
}
