import type { GridColumnKind, GridColumnView, GridRowView } from "../../../app/contract/index.ts";
import {
  formatMean,
  type Locale,
  type Method,
  type QuantityEntry,
  type QuantityName,
  type Words,
} from "../../../core/index.ts";
import type { GridColumnSize } from "../../component/data-grid-row.tsx";
import { quantityHeading, shownValue } from "../../state/quantities.ts";

/** A column as the page shows it. */
export interface RunsColumn {
  readonly key: string;
  readonly heading: string;
  readonly group: GridColumnKind;
  readonly align: "text" | "number";
  readonly size: GridColumnSize;
  /** Its place among the cells of a row; null: the frozen column, of run and phase. */
  readonly at: number | null;
  /** Heading in the readings file: what stands there was written down and can be changed. */
  readonly reading: string | null;
  readonly quantity: QuantityEntry | null;
  /** Its place among a row's uncertainties; null: there are none, or they are not shown. */
  readonly uncertaintyAt: number | null;
  /** The other method's formula on these readings. */
  readonly formulaOnly: boolean;
  readonly isEmpty: boolean;
}

interface Knowledge {
  readonly words: Words["screens"];
  readonly locale: Locale;
  readonly quantities: ReadonlyMap<QuantityName, QuantityEntry>;
  readonly method: Method;
  /** Results are shown with their uncertainty. */
  readonly withUncertainty: boolean;
}

/** Results that are looked at first; of each only what the method has. */
const keyQuantities = new Set<QuantityName>([
  "fuelConsumedMoist",
  "fuelConsumedDryEquivalent",
  "thermalEfficiency",
  "firepower",
  "timeToBoil",
  "isoEfficiencyWithChar",
  "isoFirepower",
  "taskFuel5L",
  "taskTime",
  "highPowerThermalEfficiency",
  "turnDownRatio",
  "meanIsoEfficiencyWithChar",
]);
/** Of the run itself: what says which run it is. */
const keyOfRun = new Set(["variant", "date", "operator"]);

/** The columns with their names, the frozen one first. Run and phase stand in that one alone. */
export function runsColumns(views: readonly GridColumnView[], known: Knowledge): RunsColumn[] {
  const frozen: RunsColumn = {
    key: views.find(({ column }) => column === "run")?.key ?? "run.run",
    heading: known.words.grid.runAndPhase,
    group: "run",
    align: "text",
    size: "first",
    at: null,
    reading: "run",
    quantity: null,
    uncertaintyAt: null,
    formulaOnly: false,
    isEmpty: false,
  };
  const results = new Map(views.filter(({ quantity }) => quantity !== null).map(({ key }, at) => [key, at]));
  const others = views
    .map((view, at) => runsColumn(view, at, known.withUncertainty ? (results.get(view.key) ?? null) : null, known))
    .filter(({ key, reading }) => key !== frozen.key && key !== "run.phase" && reading !== "phase");
  return [frozen, ...others];
}

function runsColumn(
  view: GridColumnView,
  at: number,
  uncertaintyAt: number | null,
  { words, quantities, method }: Knowledge,
): RunsColumn {
  const quantity = view.quantity === null ? null : (quantities.get(view.quantity) ?? null);
  const heading = headingOf(view, quantity, words);
  return {
    key: view.key,
    heading,
    group: view.kind,
    align: view.isNumber ? "number" : "text",
    size: sizeOf(view, heading, uncertaintyAt !== null),
    at,
    // Why a run is left out is given on the run, with its button.
    reading: view.column === "excluded" ? null : view.column,
    quantity,
    uncertaintyAt,
    formulaOnly: quantity !== null && quantity.method !== "both" && quantity.method !== method,
    isEmpty: view.isEmpty,
  };
}

/** Texts that are never long. */
const isShortText = /^(?:date|start|end|boiled_at|order|block|lid|wind)$/;
const isLongText = /^(?:variant|note|deviation|excluded)$/;

function sizeOf({ isNumber, column }: GridColumnView, heading: string, isUncertain: boolean): GridColumnSize {
  if (isNumber) return heading.length > 24 ? "middle" : isUncertain ? "uncertain" : "narrow";
  if (isLongText.test(column ?? "")) return "wide";
  return isShortText.test(column ?? "") ? "narrow" : "middle";
}

const ofRun = ["variant", "order", "date", "block", "operator"] as const;

function headingOf(view: GridColumnView, quantity: QuantityEntry | null, words: Words["screens"]): string {
  if (quantity !== null) return quantityHeading(quantity);
  const name = view.column ?? view.key.slice(view.key.indexOf(".") + 1);
  const own = ofRun.find((one) => one === name);
  if (own !== undefined) return words.runs[own];
  if (name === "excluded" || name === "leftOut") return words.grid.excluded;
  return name.startsWith("factor:") ? name.slice("factor:".length) : words.reading(name);
}

/** Whether a column is shown where nobody has chosen. */
export function isShownAtFirst(column: RunsColumn): boolean {
  if (column.at === null) return true;
  if (column.isEmpty || column.formulaOnly) return false;
  if (column.quantity !== null) return keyQuantities.has(column.quantity.name);
  return column.group === "reading" || keyOfRun.has(column.reading ?? "");
}

/** What stands in a cell, as the service writes it; null where there is nothing. */
export const rawCell = (row: GridRowView, column: RunsColumn): string | number | null =>
  column.at === null ? row.run : (row.cells[column.at] ?? null);

/** The text of a reading: what an edit says that it found. */
export function readingOf(row: GridRowView, column: RunsColumn): string {
  const raw = rawCell(row, column);
  return raw === null ? "" : String(raw);
}

/** A cell as it is shown. */
export function shownText(row: GridRowView, column: RunsColumn, locale: Locale): string {
  const raw = rawCell(row, column);
  if (raw === null) return "";
  if (typeof raw === "string") return raw;
  return column.quantity === null ? String(raw) : shownValue(column.quantity, raw, locale);
}

/** A result beside its expanded uncertainty, both cut where the uncertainty has two digits. */
export interface UncertainText {
  readonly value: string;
  /** The part of the value from the decimal sign on; "" where it is whole. */
  readonly fraction: string;
  readonly half: string;
}

/** A result with its uncertainty; null where the cell is no result, none is known, or it is not shown. */
export function uncertainText(row: GridRowView, column: RunsColumn, locale: Locale): UncertainText | null {
  const { quantity, uncertaintyAt } = column;
  const raw = rawCell(row, column);
  const half = uncertaintyAt === null ? null : (row.expanded[uncertaintyAt] ?? null);
  if (quantity === null || half === null || typeof raw !== "number") return null;
  const texts = formatMean(raw, { lower: raw - half, upper: raw + half }, quantity, locale);
  const whole = /^[^.,]*/.exec(texts.mean)?.[0] ?? texts.mean;
  return { value: texts.mean, fraction: texts.mean.slice(whole.length), half: texts.half ?? "" };
}

/** A result's key as questions to the service name it; null where a cell is no result of this row. */
export function quantityKeyOf(row: GridRowView, column: RunsColumn): string | null {
  if (column.quantity === null || typeof rawCell(row, column) !== "number") return null;
  return column.group === "runResult" ? column.quantity.name : `${row.phase}.${column.quantity.name}`;
}

/** A cell as a spreadsheet is to have it: plain digits, in the unit that is shown. */
export function plainText(row: GridRowView, column: RunsColumn, words: Words["screens"]): string {
  if (column.at === null) return `${row.run} ${words.phase(row.phase)}`;
  const raw = rawCell(row, column);
  if (raw === null) return "";
  if (typeof raw === "string") return raw;
  // Twelve digits are more than any reading bears, and leave out what binary arithmetic adds at the end.
  return column.quantity === null ? String(raw) : String(Number((raw * column.quantity.shownFactor).toPrecision(12)));
}

/** Why a result is missing; null where it is there, or belongs to another row of its run. */
export function missingIn(row: GridRowView, column: RunsColumn): string | null {
  return row.missing.find(({ key }) => key === column.key)?.because ?? null;
}

/** Open questions about a cell; those that no shown cell has, about the first one. */
export function questionsIn(row: GridRowView, column: RunsColumn, shown: ReadonlySet<string>) {
  if (row.questions.length === 0) return row.questions;
  return row.questions.filter((question) =>
    question.column !== null && question.column !== "run" && shown.has(question.column)
      ? question.column === column.reading
      : column.at === null,
  );
}
