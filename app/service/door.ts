import { createHash } from "node:crypto";
import * as v from "valibot";
import { defaultLocale, type Locale, type StudyResults, wordsFor } from "../../core/index.ts";
import {
  type ComparisonChoice,
  type Door,
  type ExportedFile,
  type Refusal,
  type Reply,
  type ReplyValues,
  type Request,
  type RequestKind,
  request as requestSchema,
} from "../contract/index.ts";
import { renderHtml } from "../report/index.ts";
import { StoreFault } from "../store/index.ts";
import { analyseFiles, flagsOf, type WorkOptions } from "./analyse-files.ts";
import { benchClock, benchView } from "./bench/index.ts";
import { compareTableFile } from "./compare-table.ts";
import { exampleFolder } from "./example.ts";
import { gridRow, gridView, readCellsAhead } from "./grid/index.ts";
import { Turn } from "./grid/turn.ts";
import { ImportDesk } from "./import-desk.ts";
import { exportedFile, outputFile, reportOf } from "./output-files.ts";
import { planView } from "./plan.ts";
import { questionsView } from "./questions/index.ts";
import { Refused } from "./refused.ts";
import { setUpView } from "./set-up/index.ts";
import { blankSheets } from "./sheets.ts";
import { fileNameFor, studyEnding } from "./shelf/file-name.ts";
import type { UserFolders } from "./shelf/user-folders.ts";
import { KnownSimulations } from "./simulation/known-simulations.ts";
import { limitsOfExport, mostTrialsOfCommand } from "./simulation/simulate-runs.ts";
import { cellHistoryOf } from "./study/cell-history.ts";
import { prepareEdit } from "./study/edit-changes.ts";
import { faultText } from "./study/fault-words.ts";
import { recordFile } from "./study/record-file.ts";
import { recordedView } from "./study/record-words.ts";
import { StudyDesk } from "./study/study-desk.ts";
import type { StudySession } from "./study/study-session.ts";
import { StudySessions } from "./study/study-sessions.ts";
import { comparisonBudget } from "./uncertainty/comparison-budget.ts";
import { resultBudget } from "./uncertainty/result-budget.ts";
import { RunChecks } from "./uncertainty/run-checks.ts";
import { workOutErrors } from "./uncertainty/work-out-errors.ts";
import { sourceFile } from "./uploaded-file.ts";
import { compareView, wholeChoice } from "./view/compare-view.ts";
import { runsView } from "./view/runs-view.ts";

export interface DoorOptions {
  /** Where studies, backups and the list of recent studies are kept. */
  readonly folders: UserFolders;
  readonly locale?: Locale;
  /** Whether studies that are opened are remembered for the next start; so unless said otherwise. */
  readonly remembers?: boolean;
  /** Folder of the example study; the sources' own unless said. */
  readonly exampleFolder?: string;
  /** A command that waits for its answer: it is told how far long work is, and may stop it. */
  readonly command?: WorkOptions;
}

/** How many report previews are kept: the one on screen, and a few behind it. */
const mostPreviews = 8;
/** How many edits of the record are shown at once. */
const recordPage = 50;

type Handlers = {
  [K in RequestKind]: (asked: Extract<Request, { kind: K }>) => ReplyValues[K] | Promise<ReplyValues[K]>;
};

/** The service behind its one door. */
export function createDoor(options: DoorOptions): Door {
  const locale = options.locale ?? defaultLocale;
  const words = wordsFor(locale).service;
  const sessions = new StudySessions(options.folders, locale, options.remembers ?? true);
  const desk = new StudyDesk(sessions, options.exampleFolder ?? exampleFolder, locale);
  const imports = new ImportDesk(locale);
  const previews = new Map<string, { html: string; contentSecurityPolicy: string }>();
  const checks = new RunChecks(locale);
  const simulations = new KnownSimulations();
  const openOf = async (study: string | null) => (await desk.of(study)).open();
  /** Of means and differences the errors are wanted of many runs at once. */
  const openWithErrors = async (study: string | null) => {
    const session = await desk.of(study);
    const open = await session.open();
    await workOutErrors(session, open.results);
    return open;
  };
  const reportChoice = (results: StudyResults, choice: ComparisonChoice) => wholeChoice(results, choice);

  const handlers: Handlers = {
    "study.show": async ({ study }) => desk.view(await desk.of(study)),
    "study.state": async ({ study }) => (await desk.of(study)).state(),
    "shelf.show": () => sessions.shelf.view(),
    "study.open": async ({ place }) => desk.view(await desk.open(place)),
    "study.create": async ({ name, method, who }) => desk.view(await desk.create(name, method, who)),
    "study.receive": async ({ file }) => desk.view(await desk.receive(sourceFile(file, locale))),
    "study.openExample": async () => desk.view(await desk.example()),
    "study.saveCopy": async ({ study, name }) => ({ fileName: await desk.saveCopy(await desk.of(study), name) }),
    "edit.make": async ({ study, who, edit }) => {
      const session = await desk.toEdit(study);
      if (edit.kind === "cellsOfRuns") await readCellsAhead(session, edit, locale);
      if (edit.kind === "answer" || edit.kind === "reopen") await session.asked();
      let begun: string | null = null;
      const done = session.edit((database) => {
        const { note, changes, run = null } = prepareEdit(edit, { content: session.content, database, who, locale });
        begun = run;
        return { note: { ...note, who }, changes };
      });
      return desk.edited(session, done, done, begun);
    },
    "edit.undo": async ({ study, who, edit }) => stepped(await desk.toEdit(study), "undo", edit, who),
    "edit.redo": async ({ study, who, edit }) => stepped(await desk.toEdit(study), "redo", edit, who),
    "cell.history": async ({ study, run, phase, column }) =>
      cellHistoryOf(await desk.of(study), { run: Number(run), phase, column }, locale),
    "record.show": async ({ study, before }) => {
      const { database } = (await desk.of(study)).file;
      const edits = database.record(recordPage + 1, before ?? undefined);
      return {
        edits: edits.slice(0, recordPage).map((edit) => recordedView(edit, locale)),
        more: edits.length > recordPage,
      };
    },
    "backups.show": async ({ study }) => desk.backups(await desk.of(study)),
    "backups.make": async ({ study }) => desk.makeBackup(await desk.of(study)),
    "backups.goBack": async ({ study, backup, who }) => desk.view(await desk.goBack(await desk.of(study), backup, who)),
    "backups.ofPlace": ({ place }) => desk.backupsOfPlace(place),
    "backups.open": async ({ place, backup }) => desk.view(await desk.openBackup(place, backup)),
    "grid.show": async ({ study, choice, from, count }) => gridView(await desk.of(study), choice, from, count, locale),
    "grid.find": async ({ study, choice, run, phase }) => ({
      row: await gridRow(await desk.of(study), choice, Number(run), phase, locale),
    }),
    "questions.show": async ({ study }) => questionsView(await desk.of(study)),
    "bench.show": async ({ study, run, entries }) =>
      benchView(await desk.of(study), run === null ? null : Number(run), locale, entries ?? []),
    "bench.clock": async ({ study, run }) => benchClock(await desk.of(study), Number(run), locale),
    "setup.show": async ({ study }) => {
      const session = await desk.of(study);
      await session.asked();
      return setUpView(session, locale);
    },
    "runs.show": async ({ study }) => runsView((await openOf(study)).results),
    "import.check": ({ readings, settings }) =>
      imports.check(sourceFile(readings, locale), settings === null ? null : sourceFile(settings, locale)),
    "import.mend": ({ importId, cells, leaveOutRows }) => imports.mend(importId, cells, leaveOutRows),
    "import.accept": async ({ importId, into, who }) => {
      const { hasSettings, ...read } = imports.accept(importId, into.kind === "new" ? into.studyName : "");
      let session: StudySession;
      if (into.kind === "new") session = await desk.takeAsNew(read, who);
      else {
        session = await desk.toEdit(into.study);
        desk.takeInto(session, read, hasSettings, who);
      }
      imports.done(importId);
      return desk.view(session);
    },
    "compare.show": async ({ study, choice }) => {
      const { results } = await openWithErrors(study);
      return compareView(results, choice, new Turn(await desk.of(study)));
    },
    "budget.ofResult": async ({ study, ...asked }) => resultBudget(await desk.of(study), asked, locale),
    "budget.ofComparison": async ({ study, choice }) => comparisonBudget((await openWithErrors(study)).results, choice),
    "monteCarlo.show": async ({ study, ...asked }) => checks.show(await desk.of(study), asked),
    "monteCarlo.start": async ({ study, ...asked }) => checks.start(await desk.of(study), asked),
    "monteCarlo.cancel": async ({ study, ...asked }) => checks.cancel(await desk.of(study), asked),
    "report.prepare": async ({ study, choice }) => {
      const open = await openWithErrors(study);
      const document = reportOf(open, reportChoice(open.results, choice));
      const { html, contentSecurityPolicy } = renderHtml(document);
      const id = createHash("sha256").update(html).digest("hex").slice(0, 32);
      previews.delete(id);
      previews.set(id, { html, contentSecurityPolicy });
      for (const oldest of previews.keys()) {
        if (previews.size <= mostPreviews) break;
        previews.delete(oldest);
      }
      return { previewPath: `preview/${id}`, title: document.title, finding: document.finding };
    },
    "sheets.print": async (asked) => blankSheets((await desk.of(asked.study)).content, asked, locale),
    "files.analyse": (asked) => analyseFiles(asked, locale, options.command),
    "table.compare": (asked) => compareTableFile(asked, locale),
    "plan.runs": (asked) => planView(asked, locale),
    export: async ({ study, what, choice, ...flags }): Promise<ExportedFile> => {
      const session = await desk.of(study);
      if (what === "study") return studyCopy(session);
      if (what === "record.csv") {
        const content = Buffer.from(recordFile(session, locale));
        return { fileName: what, mediaType: "text/csv", contentBase64: content.toString("base64") };
      }
      const open = await openWithErrors(study);
      const whole = reportChoice(open.results, choice);
      const limits = options.command === undefined ? limitsOfExport : { mostInAll: mostTrialsOfCommand };
      // The report of a window is the one that it shows: nobody waits there for trials.
      const isSimulated = what === "results.json" || (options.command !== undefined && what.startsWith("report."));
      const simulation = isSimulated
        ? await simulations.of(open.results, { ...flagsOf(flags), ...limits, ...options.command })
        : null;
      return exportedFile(await outputFile(open, what, whole, simulation));
    },
  };

  function stepped(session: StudySession, way: "undo" | "redo", edit: number, who: string) {
    const { done, of } = session.step(way, edit, who);
    return desk.edited(session, done, of);
  }

  async function studyCopy(session: StudySession): Promise<ExportedFile> {
    const name = fileNameFor(session.content.head.name, wordsFor(locale).studyFile.fallbackName);
    return {
      fileName: `${name}${studyEnding}`,
      mediaType: "application/vnd.sqlite3",
      contentBase64: Buffer.from(await desk.copyAsBytes(session)).toString("base64"),
    };
  }

  async function answer<K extends RequestKind>(asked: Extract<Request, { kind: K }>): Promise<Reply<K>> {
    const handle = handlers[asked.kind] as (one: typeof asked) => ReplyValues[K] | Promise<ReplyValues[K]>;
    return { ok: true, value: await handle(asked) };
  }

  async function answered<T extends { readonly ok: true }>(work: () => Promise<T>): Promise<T | Refusal> {
    try {
      return await work();
    } catch (error) {
      if (error instanceof Refused) return refusal("refused", error.message, error.cells);
      if (options.command?.signal?.aborted === true) return refusal("refused", wordsFor(locale).uncertainty.givenUp);
      // Of a file or its disk, wherever it came up: the sentence says what to do.
      if (error instanceof StoreFault) return refusal("refused", faultText(error, null, locale));
      console.error(error);
      return refusal("failed", words.failed);
    }
  }

  return {
    async ask(message) {
      const parsed = v.safeParse(requestSchema, message, { abortEarly: true });
      if (!parsed.success) {
        const [issue] = parsed.issues;
        const path = issue === undefined ? "" : (v.getDotPath(issue) ?? "");
        return refusal("refused", words.badRequest(path === "" ? "kind" : path.slice(0, 200)));
      }
      return (await answered(() => answer(parsed.output) as Promise<Reply & { ok: true }>)) as Reply;
    },
    preview: (id) => previews.get(id) ?? null,
    openFile: (path) => answered(async () => ({ ok: true as const, study: (await sessions.openAt(path)).handle })),
    close: async () => {
      await Promise.all([checks.close(), sessions.close()]);
    },
  };
}

function refusal(reason: Refusal["reason"], message: string, cells: Refusal["cells"] = []): Refusal {
  return { ok: false, reason, message, ...(cells.length > 0 && { cells }) };
}
