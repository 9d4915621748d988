import * as v from "valibot";

/** Largest message the door takes, in bytes: a readings file at its own limit, in base64, with room to spare. */
export const requestByteLimit = 24 * 1024 * 1024;
/** Largest readings or settings file, in bytes. */
export const fileByteLimit = 16 * 1024 * 1024;

/** No NUL, which no name holds and files end at; no half of a character, which cannot be written down. */
const isPlain = (text: string) => !text.includes("\0") && text.isWellFormed();
const plainText = v.pipe(v.string(), v.check(isPlain));
const shortText = v.pipe(plainText, v.maxLength(500));
/** Names that people give (variants, runs, studies) and reasons: any text, up to 10,000 characters. */
const name = v.pipe(plainText, v.maxLength(10_000));
const givenName = v.pipe(name, v.trim(), v.minLength(1));
/** Who makes an edit: recorded, not authenticated. */
const who = v.pipe(plainText, v.trim(), v.minLength(1), v.maxLength(200));
/** An open study, as a reply named it; null: the one that the program opens by itself. */
const study = v.nullable(v.pipe(v.string(), v.regex(/^[A-Za-z0-9_-]{1,64}$/)));
/** A study or a backup of a list that was shown: a name of ours, never a path. */
const listed = v.pipe(v.string(), v.regex(/^[A-Za-z0-9][A-Za-z0-9_.-]{0,199}$/));
const runId = v.pipe(v.string(), v.regex(/^\d{1,15}$/));
const phaseName = v.picklist(["cold-start", "hot-start", "simmer", "high-power", "medium-power", "low-power"]);
const editNumber = v.pipe(v.number(), v.integer(), v.minValue(1));
const base64 = v.pipe(v.string(), v.maxLength(Math.ceil(fileByteLimit / 3) * 4 + 4), v.regex(/^[A-Za-z0-9+/]*={0,2}$/));
const uploadedFile = v.strictObject({ name: shortText, contentBase64: base64 });
const rowNumber = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(10_000_000));

/** Which comparison is looked at; null takes the study's own first choice. */
export const comparisonChoice = v.strictObject({
  quantity: v.nullable(shortText),
  variant: v.nullable(name),
  baseline: v.nullable(name),
});
export type ComparisonChoice = v.InferOutput<typeof comparisonChoice>;

/** Files that are made of readings and settings. */
export const outputKinds = [
  "report.pdf",
  "report.html",
  "readings.csv",
  "settings.json",
  "results.json",
  "runs.csv",
] as const;
export type OutputKind = (typeof outputKinds)[number];

/** Those, and what only a study file has: its record of edits (who changed what, when and why), and itself, as a copy. */
export const exportKinds = [...outputKinds, "record.csv", "study"] as const;
export type ExportKind = (typeof exportKinds)[number];

const cellTexts = {
  phase: v.nullable(phaseName),
  column: shortText,
  text: name,
  /** What stood there when it was changed: refused where it is no longer so. */
  was: name,
};
/** Most cells of one edit: a large range of a spreadsheet. */
export const cellLimit = 20_000;
/** A question that a view showed. */
const questionId = v.pipe(v.string(), v.regex(/^[a-f0-9]{32}$/));
/** What is set up once for a study. */
const setUpSubject = v.picklist([
  "variant",
  "fuel",
  "pot",
  "instrument",
  "error",
  "calibration",
  "place",
  "study",
  "monteCarlo",
]);
export type SetUpSubject = v.InferOutput<typeof setUpSubject>;
const setUpItem = v.pipe(v.string(), v.regex(/^[A-Za-z0-9/-]{1,64}$/));
const potCount = v.picklist([1, 2, 3, 4]);
/** Wood added during a phase, kindling, a second fuel: an entry of its own. */
const furtherEntry = v.strictObject({ phase: phaseName, entry: v.picklist([2, 3, 4]) });
export type FurtherEntry = v.InferOutput<typeof furtherEntry>;
/** Of which form the sheet of a run is. */
const benchForm = { pots: potCount, charAtHotStart: v.boolean(), emissions: v.boolean() };
const specimen = v.union([
  /** A meter's reading, %, as it was read. */
  v.strictObject({ reading: shortText }),
  /** Weighed before and after the oven, g; the dish in which it lay, where it was weighed with it. */
  v.strictObject({ before: shortText, after: shortText, dish: v.nullable(shortText) }),
]);

/** Most trials that are drawn of one run; as settings files have it. */
export const mostTrials = 10_000_000;
/** In place of what the settings say of Monte Carlo. */
const monteCarloFlags = {
  trials: v.optional(v.nullable(v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(mostTrials)))),
  seed: v.optional(v.nullable(v.pipe(v.number(), v.safeInteger(), v.minValue(0)))),
};

/** What a person changes. Each is one step of the record, and one undo. */
export const edit = v.variant("kind", [
  v.strictObject({ kind: v.literal("renameStudy"), name: givenName }),
  /** Texts of cells of one run, in the layout's units; `phase` null: a column of the whole run. All of them, or none. */
  v.strictObject({
    kind: v.literal("cells"),
    run: runId,
    cells: v.pipe(v.array(v.strictObject(cellTexts)), v.minLength(1), v.maxLength(1_000)),
    why: v.nullable(name),
  }),
  /** The same over many runs: what was pasted, filled down or emptied. All of them, or none; a refusal names the cells. */
  v.strictObject({
    kind: v.literal("cellsOfRuns"),
    way: v.picklist(["paste", "fillDown", "empty"]),
    cells: v.pipe(v.array(v.strictObject({ run: runId, ...cellTexts })), v.minLength(1), v.maxLength(cellLimit)),
  }),
  v.strictObject({ kind: v.literal("leaveOut"), run: runId, reason: givenName }),
  v.strictObject({ kind: v.literal("bringBack"), run: runId, reason: givenName }),
  /** "It is right, because …": closes a question, and is kept. */
  v.strictObject({ kind: v.literal("answer"), question: questionId, because: givenName }),
  /** Takes an answer back: the question is open again. */
  v.strictObject({ kind: v.literal("reopen"), question: questionId }),
  /** Begins a run on the Bench: left out until it is finished. */
  v.strictObject({ kind: v.literal("beginRun"), variant: givenName, ...benchForm }),
  v.strictObject({ kind: v.literal("benchForm"), run: runId, ...benchForm }),
  /** Writes the time of now into a clock cell; the service's clock counts, also where the machine slept or its time was changed. */
  v.strictObject({
    kind: v.literal("stamp"),
    run: runId,
    phase: phaseName,
    column: v.picklist(["start", "end", "boiled_at"]),
  }),
  /** The moisture of several specimens: their mean goes into the phase's cell, the specimens are kept as text. */
  v.strictObject({
    kind: v.literal("specimens"),
    run: runId,
    phase: phaseName,
    entry: v.picklist([1, 2, 3, 4]),
    basis: v.picklist(["wet", "dry"]),
    specimens: v.pipe(v.array(specimen), v.minLength(1), v.maxLength(50)),
  }),
  /** The run counts from now on; refused, naming it, while a needed reading lacks. */
  v.strictObject({ kind: v.literal("finishRun"), run: runId }),
  v.strictObject({ kind: v.literal("abandonRun"), run: runId, reason: givenName }),
  /** An abandoned run, or one that counts, is on the Bench again. */
  v.strictObject({ kind: v.literal("takeUpRun"), run: runId }),
  /** Fields of a variant, fuel, pot, …; `item` null: a new one. */
  v.strictObject({
    kind: v.literal("setUp"),
    subject: setUpSubject,
    item: v.nullable(setUpItem),
    fields: v.pipe(
      v.array(v.strictObject({ field: v.pipe(name, v.minLength(1)), text: name, was: name })),
      v.minLength(1),
      v.maxLength(100),
    ),
  }),
  v.strictObject({ kind: v.literal("removeSetUp"), subject: setUpSubject, item: setUpItem }),
]);
export type Edit = v.InferOutput<typeof edit>;

/** Which rows of the grid of readings and results, in which order. */
export const gridChoice = v.strictObject({
  /** A column of `GridView.columns` by its key; null: in the order of the study. */
  sort: v.nullable(v.strictObject({ column: name, falling: v.boolean() })),
  /** Rows in whose cells the text occurs; "": all. */
  find: name,
  variant: v.nullable(name),
  phase: v.nullable(phaseName),
  only: v.picklist(["all", "counting", "leftOut", "questions"]),
});
export type GridChoice = v.InferOutput<typeof gridChoice>;
/** Most rows of one answer. */
export const gridRowLimit = 500;

const finite = v.pipe(v.number(), v.finite());
const atLeastZero = v.pipe(finite, v.minValue(0));
const probability = v.pipe(finite, v.gtValue(0), v.ltValue(1));
const seed = v.pipe(v.number(), v.safeInteger(), v.minValue(0));
const wholeFrom = (least: number, most: number) =>
  v.pipe(v.number(), v.safeInteger(), v.minValue(least), v.maxValue(most));
/** Most runs of a variant that a plan is asked about, and most resamples of a bootstrap. */
export const plannedRunsLimit = 1_000_000_000;
export const resamplesLimit = 1_000_000;

/** Everything that a window may ask of the service. Unknown keys are refused. */
export const request = v.variant("kind", [
  v.strictObject({ kind: v.literal("study.show"), study }),
  /** How far a study is, in few bytes: for windows that look whether another one changed it. */
  v.strictObject({ kind: v.literal("study.state"), study }),
  /** The studies that can be opened: recent ones, and those of the studies folder. */
  v.strictObject({ kind: v.literal("shelf.show") }),
  v.strictObject({ kind: v.literal("study.open"), place: listed }),
  v.strictObject({ kind: v.literal("study.create"), name: givenName, method: v.picklist(["wbt", "iso"]), who }),
  /** Puts a study file into the studies folder, under a name that is free, and opens it. */
  v.strictObject({ kind: v.literal("study.receive"), file: uploadedFile }),
  /** Makes a fresh copy of the example study, to be tried and broken, and opens it. */
  v.strictObject({ kind: v.literal("study.openExample") }),
  /** Copies the study, with its record, into the studies folder under another name. */
  v.strictObject({ kind: v.literal("study.saveCopy"), study, name: givenName }),
  /** Confirmed only when it is on disk. */
  v.strictObject({ kind: v.literal("edit.make"), study, who, edit }),
  /** Undoes the edit that was shown as the last one; refused where another came since. */
  v.strictObject({ kind: v.literal("edit.undo"), study, who, edit: editNumber }),
  v.strictObject({ kind: v.literal("edit.redo"), study, who, edit: editNumber }),
  /** All that ever stood in one cell. */
  v.strictObject({
    kind: v.literal("cell.history"),
    study,
    run: runId,
    phase: v.nullable(phaseName),
    column: shortText,
  }),
  /** The record of edits, newest first, those before `before`. */
  v.strictObject({ kind: v.literal("record.show"), study, before: v.nullable(editNumber) }),
  v.strictObject({ kind: v.literal("backups.show"), study }),
  v.strictObject({ kind: v.literal("backups.make"), study }),
  /** The backups of a study of the list that cannot be opened: by where its file is, or was. */
  v.strictObject({ kind: v.literal("backups.ofPlace"), place: listed }),
  /** Puts such a backup into the studies folder as a study of its own, and opens it. */
  v.strictObject({ kind: v.literal("backups.open"), place: listed, backup: listed }),
  /** Makes the study what it was in a backup, as one edit that can be undone. */
  v.strictObject({ kind: v.literal("backups.goBack"), study, backup: listed, who }),
  v.strictObject({ kind: v.literal("runs.show"), study }),
  /** A part of the grid: `count` rows from `from` on, in the order of the choice. */
  v.strictObject({
    kind: v.literal("grid.show"),
    study,
    choice: gridChoice,
    from: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(10_000_000)),
    count: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(gridRowLimit)),
  }),
  /** Where a cell stands in that order: the row of a run's phase; null phase: its first row. */
  v.strictObject({ kind: v.literal("grid.find"), study, choice: gridChoice, run: runId, phase: v.nullable(phaseName) }),
  /** All questions, open and answered, in the order of the study. */
  v.strictObject({ kind: v.literal("questions.show"), study }),
  /** The Bench: the runs that are not finished, and one of them, step by step. */
  v.strictObject({
    kind: v.literal("bench.show"),
    study,
    run: v.nullable(runId),
    /** Further fuel entries whose fields are wanted although nothing was written into them yet. */
    entries: v.optional(v.pipe(v.array(furtherEntry), v.maxLength(20))),
  }),
  /** The run clock alone, in few bytes. */
  v.strictObject({ kind: v.literal("bench.clock"), study, run: runId }),
  /** What is set up for the study, as tables to fill in. */
  v.strictObject({ kind: v.literal("setup.show"), study }),
  /** Reads a file and says what is wrong with it; nothing of the open study changes. */
  v.strictObject({ kind: v.literal("import.check"), readings: uploadedFile, settings: v.nullable(uploadedFile) }),
  /**
   * Changes cells of, or leaves rows out of, a file that was checked; replies as `import.check`. Cells add up over requests;
   * `leaveOutRows` is the whole list each time.
   */
  v.strictObject({
    kind: v.literal("import.mend"),
    importId: shortText,
    /** Row as a spreadsheet counts (the heading is 1), column from 0. */
    cells: v.pipe(
      v.array(
        v.strictObject({
          row: rowNumber,
          column: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(2_000)),
          text: name,
        }),
      ),
      v.maxLength(100_000),
    ),
    leaveOutRows: v.pipe(v.array(rowNumber), v.maxLength(1_000_000)),
  }),
  /** Takes a checked file, in one step: as a new study of this name, or into an open one. Refused while errors stand. */
  v.strictObject({
    kind: v.literal("import.accept"),
    importId: shortText,
    into: v.variant("kind", [
      v.strictObject({ kind: v.literal("new"), studyName: name }),
      v.strictObject({ kind: v.literal("open"), study }),
    ]),
    who,
  }),
  v.strictObject({ kind: v.literal("compare.show"), study, choice: comparisonChoice }),
  /** What the uncertainty of a run's result is made of; `quantity`: text of its key. */
  v.strictObject({ kind: v.literal("budget.ofResult"), study, run: runId, quantity: shortText }),
  /** What the uncertainties of two means and of their difference are made of. */
  v.strictObject({ kind: v.literal("budget.ofComparison"), study, choice: comparisonChoice }),
  /** How far the Monte Carlo of a run is; the reply never waits for it. */
  v.strictObject({ kind: v.literal("monteCarlo.show"), study, run: runId, quantity: shortText }),
  /** Begins it, with the trials of the settings; where it is under way, or known, nothing is begun. */
  v.strictObject({ kind: v.literal("monteCarlo.start"), study, run: runId, quantity: shortText }),
  v.strictObject({ kind: v.literal("monteCarlo.cancel"), study, run: runId, quantity: shortText }),
  /** Makes the report; the reply gives the address of its preview. */
  v.strictObject({ kind: v.literal("report.prepare"), study, choice: comparisonChoice }),
  /** Blank sheets to print, one run each: the steps of the procedure as a form. */
  v.strictObject({
    kind: v.literal("sheets.print"),
    study,
    sheets: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(100)),
    /** Which variants are printed in, with the runs' names and order going on from the study's: none, each in turn, or one. */
    variants: v.variant("kind", [
      v.strictObject({ kind: v.literal("none") }),
      v.strictObject({ kind: v.literal("inTurn") }),
      v.strictObject({ kind: v.literal("one"), variant: name }),
    ]),
    ...benchForm,
  }),
  /** Files in, files out, without a study file: what the command line asks. Nothing is kept. */
  v.strictObject({
    kind: v.literal("files.analyse"),
    readings: uploadedFile,
    settings: v.nullable(uploadedFile),
    method: v.nullable(v.picklist(["wbt", "iso"])),
    baseline: v.nullable(name),
    leaveOutBadRows: v.boolean(),
    what: v.pipe(v.array(v.picklist(outputKinds)), v.maxLength(outputKinds.length)),
    ...monteCarloFlags,
  }),
  /** Compares the rows of a table of results, from this program or not. Nothing is kept. */
  v.strictObject({
    kind: v.literal("table.compare"),
    table: uploadedFile,
    /** Columns by their headings. */
    value: name,
    by: name,
    block: v.nullable(name),
    factors: v.pipe(v.array(name), v.maxLength(10)),
    /** Null: the first that appears. */
    baseline: v.nullable(name),
    /** In the unit of the values; null where equivalence is not asked. */
    margin: v.nullable(atLeastZero),
    confidence: probability,
    /** Of the bootstrap; 0 for none. */
    resamples: wholeFrom(0, resamplesLimit),
    seed,
  }),
  /** How many runs are needed, what given ones can detect, and in which order to make them. */
  v.strictObject({
    kind: v.literal("plan.runs"),
    standardDeviation: atLeastZero,
    standardDeviationRuns: v.nullable(wholeFrom(2, plannedRunsLimit)),
    difference: v.nullable(finite),
    power: probability,
    confidence: probability,
    baselineRuns: v.nullable(wholeFrom(1, plannedRunsLimit)),
    runs: v.nullable(wholeFrom(1, plannedRunsLimit)),
    order: v.nullable(
      v.strictObject({
        variants: v.pipe(v.array(givenName), v.minLength(2), v.maxLength(100)),
        blocks: v.nullable(wholeFrom(1, plannedRunsLimit)),
        seed,
      }),
    ),
    unit: v.picklist(["", "%"]),
  }),
  v.strictObject({
    kind: v.literal("export"),
    study,
    what: v.picklist(exportKinds),
    choice: comparisonChoice,
    ...monteCarloFlags,
  }),
]);
export type Request = v.InferOutput<typeof request>;
export type RequestKind = Request["kind"];
