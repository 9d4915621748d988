import * as v from "valibot";

/** Largest message the door takes, in bytes: a readings file at its own limit, in base64, with room to spare. */
export const requestByteLimit = 24 * 1024 * 1024;
/** Largest readings or settings file, in bytes. */
export const fileByteLimit = 16 * 1024 * 1024;

const shortText = v.pipe(v.string(), v.maxLength(500));
/** Names that people give (variants, runs, studies): any text, up to 10,000 characters. */
const name = v.pipe(v.string(), v.maxLength(10_000));
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

export const exportKinds = [
  "report.pdf",
  "report.html",
  "readings.csv",
  "settings.json",
  "results.json",
  "runs.csv",
] as const;
export type ExportKind = (typeof exportKinds)[number];

/** Everything that a window may ask of the service. Unknown keys are refused. */
export const request = v.variant("kind", [
  v.strictObject({ kind: v.literal("study.show") }),
  /** Opens a fresh copy of the example study in place of the open one. */
  v.strictObject({ kind: v.literal("study.openExample") }),
  v.strictObject({ kind: v.literal("runs.show") }),
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
  /** Takes a checked file as the open study, in one step. Refused while errors stand. */
  v.strictObject({ kind: v.literal("import.accept"), importId: shortText, studyName: name }),
  v.strictObject({ kind: v.literal("compare.show"), choice: comparisonChoice }),
  /** Makes the report; the reply gives the address of its preview. */
  v.strictObject({ kind: v.literal("report.prepare"), choice: comparisonChoice }),
  v.strictObject({ kind: v.literal("export"), what: v.picklist(exportKinds), choice: comparisonChoice }),
]);
export type Request = v.InferOutput<typeof request>;
export type RequestKind = Request["kind"];
