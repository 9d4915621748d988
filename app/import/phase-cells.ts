import type { CsvCell, Phase, Run } from "../../core/index.ts";
import { isLayoutColumn, layoutColumns } from "./layout.ts";
import { fuelColumnNames } from "./read-fuels.ts";
import { potColumnNames } from "./read-pots.ts";
import { timeTexts } from "./write-times.ts";

/** One cell of a phase's row in the readings file. */
export interface PhaseCell {
  /** Heading of the column. */
  readonly column: string;
  /** What stands in the cell, to be shown. */
  readonly text: string;
  /** The same for a CSV file. */
  readonly cell: CsvCell;
}

/** Columns that belong to the whole run, and the phase's name: what a grid of readings shows once a run. */
export const runColumns: readonly string[] = [
  ...layoutColumns.filter(({ ofRun }) => ofRun).map(({ name }) => name),
  "phase",
];

const position: ReadonlyMap<string, number> = new Map(layoutColumns.map(({ name }, index) => [name, index]));

/** Orders headings as the layout has them; factors follow, then columns that the layout does not know. */
export function inLayoutOrder(columns: readonly string[]): string[] {
  const rank = (name: string) => position.get(name) ?? layoutColumns.length + (name.startsWith("factor:") ? 0 : 1);
  return columns.toSorted((left, right) => rank(left) - rank(right));
}

type Cells = Map<string, CsvCell>;

function addTimes(cells: Cells, run: Run, phase: Phase): void {
  const { timing } = phase;
  if (timing.kind === "duration") {
    cells.set("duration_min", timing.minutes.value);
    return;
  }
  const texts = timeTexts(run, phase, timing);
  if (texts.start !== "") cells.set("start", { verbatim: texts.start });
  if (texts.end !== "") cells.set("end", { verbatim: texts.end });
  if (texts.boiledAt !== null) cells.set("boiled_at", { verbatim: texts.boiledAt });
}

function addFuels(cells: Cells, phase: Phase): void {
  phase.fuels.forEach(({ fuel, massBefore, massAfter, moisture, calorific }, index) => {
    const names = fuelColumnNames[index];
    if (names === undefined) return;
    cells.set(names.fuel, fuel);
    cells.set(names.start, massBefore.value);
    cells.set(names.end, massAfter.value);
    if (moisture !== null) {
      cells.set(moisture.basis === "wet" ? names.moistureWet : names.moistureDry, moisture.percent.value);
    }
    if (calorific?.kind === "net") cells.set(names.net, calorific.value.value);
    else if (calorific?.kind === "gross") {
      cells.set(names.gross, calorific.value.value);
      cells.set(names.hydrogen, calorific.hydrogenPercent?.value ?? null);
    }
  });
}

function addPots(cells: Cells, phase: Phase): void {
  for (const { pot, masses, temperatureStart, temperatureEnd } of phase.pots) {
    const names = potColumnNames[pot - 1];
    if (names === undefined) continue;
    if (masses.kind === "weighed") {
      cells.set(names.empty, masses.empty.value);
      cells.set(names.start, masses.start.value);
      cells.set(names.end, masses.end.value);
    } else {
      cells.set(names.waterStart, masses.waterStart.value);
      cells.set(names.waterEnd, masses.waterEnd.value);
    }
    cells.set(names.temperatureStart, temperatureStart.value);
    cells.set(names.temperatureEnd, temperatureEnd.value);
  }
}

/** What one row of the readings file holds, in the order of the layout; empty cells are not listed. */
export function phaseCells(run: Run, phase: Phase): readonly PhaseCell[] {
  const cells: Cells = new Map();
  const { char, boilingPoint, conditions } = phase;
  cells.set("run", run.name);
  cells.set("variant", run.variant);
  cells.set("phase", phase.phase);
  cells.set("date", run.date === null ? null : { verbatim: run.date });
  cells.set("order", run.order);
  cells.set("block", run.block);
  cells.set("operator", run.operator);
  addTimes(cells, run, phase);
  addFuels(cells, phase);
  if (char?.kind === "weighed") {
    cells.set("char_container_g", char.container.value);
    cells.set("char_with_container_g", char.withContainer.value);
  } else if (char?.kind === "net") cells.set("char_g", char.mass.value);
  cells.set("char_at_start_g", phase.charAtStart?.value ?? null);
  cells.set("char_net_calorific_kJ_per_kg", phase.charCalorific?.value ?? null);
  cells.set("air_C", phase.airTemperature?.value ?? null);
  cells.set("boiling_C", boilingPoint.measured?.value ?? null);
  cells.set("pressure_kPa", boilingPoint.pressure?.value ?? null);
  cells.set("altitude_m", boilingPoint.altitude?.value ?? null);
  addPots(cells, phase);
  cells.set("co_g", phase.carbonMonoxide?.value ?? null);
  cells.set("pm25_mg", phase.particulateMatter?.value ?? null);
  cells.set("lid", conditions.lid);
  cells.set("wind", conditions.wind);
  cells.set("humidity_percent", conditions.humidityPercent);
  cells.set("fuel_size_mm", conditions.fuelSizeMillimetres);
  cells.set("deviation", conditions.deviation);
  cells.set("excluded", run.leftOut);
  cells.set("note", conditions.note);
  for (const [factor, level] of run.factors) cells.set(`factor:${factor}`, level);
  for (const { heading, text } of conditions.others) {
    // A cell of the layout that was kept as written goes back to its own column, where nothing else stands.
    if (!isLayoutColumn(heading)) cells.set(heading, text);
    else if (Number.isNaN(cells.get(heading) ?? Number.NaN)) cells.set(heading, { verbatim: text });
  }
  return inLayoutOrder([...cells.keys()]).flatMap((column) => {
    const cell = cells.get(column) ?? null;
    // A reading that a left-out run lacks is no number.
    if (typeof cell === "number" && Number.isNaN(cell)) return [];
    const text = cell === null ? "" : typeof cell === "object" ? cell.verbatim : String(cell);
    return text === "" ? [] : [{ column, text, cell }];
  });
}
