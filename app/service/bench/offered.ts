import {
  type Locale,
  type PhaseName,
  type ProcedureField,
  type Run,
  type RunFacts,
  waterAtAltitude,
  waterAtPressure,
  wordsFor,
} from "../../../core/index.ts";
import type { BenchFieldView } from "../../contract/index.ts";
import type { StudyContent } from "../study/study-content.ts";
import { cellsOf } from "./lasting-cells.ts";

export type Offered = NonNullable<BenchFieldView["offered"]>;

/** What is known before a field is filled: of the run itself, of the day's runs, of the study. */
export interface KnownValues {
  /** By phase: what stands in its row. */
  readonly cells: (phase: PhaseName) => ReadonlyMap<string, string>;
  /** The latest other run of the same day, with what stands in its first phase's row. */
  readonly sameDay: { readonly run: string; readonly cells: ReadonlyMap<string, string> } | null;
  /** What was set up for the study, by column. */
  readonly setUp: ReadonlyMap<string, string>;
}

/** Columns that hold all day. */
const ofDay =
  /^(air_C|boiling_C|altitude_m|moisture_wet_percent|moisture_dry_percent|fuel|fuel_size_mm|lid|wind|humidity_percent|char_container_g|pot[1-4]_empty_g)$/;

/** The difference of two cells as a person would write it: no digits that binary numbers add. */
function difference(whole: string, part: string): string | null {
  const [one, other] = [Number(whole), Number(part)];
  if (!Number.isFinite(one - other) || whole === "" || part === "" || one < other) return null;
  return String(Number((one - other).toFixed(6)));
}

/** What an empty field would be filled with on Enter; null where nothing is known. */
export function offeredFor(field: ProcedureField, known: KnownValues, locale: Locale): Offered | null {
  const words = wordsFor(locale).benchWork;
  const { begins, phase, column } = field;
  if (begins !== null && begins.phase !== null) {
    const cells = known.cells(begins.phase);
    const whole = cells.get(begins.column);
    if (whole === undefined) return null;
    const less = begins.less === null ? null : (cells.get(begins.less) ?? "");
    const text = less === null ? whole : difference(whole, less);
    if (text === null) return null;
    return { text, from: begins.column === column ? words.fromPhase(begins.phase) : words.fromPhaseEnd(begins.phase) };
  }
  if (phase === null || !ofDay.test(column)) return null;
  const { sameDay, setUp } = known;
  const there = sameDay?.cells.get(column);
  if (sameDay !== null && there !== undefined) return { text: there, from: words.fromRun(sameDay.run) };
  const settled = setUp.get(column);
  return settled === undefined ? null : { text: settled, from: words.fromSetUp };
}

/** What the study's set-up says of fields before the fire. */
export function setUpValues({ settings }: StudyContent): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  const [pressure, altitude] = [settings.place?.pressure ?? null, settings.place?.altitude ?? null];
  const water = pressure !== null ? waterAtPressure(pressure) : altitude !== null ? waterAtAltitude(altitude) : null;
  // As it is typed, to be taken as it stands.
  if (water?.ok) found.set("boiling_C", water.boilingPoint.toFixed(1));
  if (altitude !== null) found.set("altitude_m", String(altitude));
  const [fuel, ...otherFuels] = settings.fuels.keys();
  if (fuel !== undefined && otherFuels.length === 0) found.set("fuel", fuel);
  const [pot, ...otherPots] = settings.pots ?? [];
  if (pot !== undefined && otherPots.length === 0) found.set("pot1_empty_g", String(pot.emptyMass));
  return found;
}

/** The latest other run of a day that has readings. */
export function runOfSameDay(content: StudyContent, run: Run, facts: readonly RunFacts[]): KnownValues["sameDay"] {
  if (run.date === null) return null;
  const others = facts.filter(({ id, date, order }) => {
    return id !== run.id && date === run.date && (order === null || run.order === null || order < run.order);
  });
  for (const other of others.toSorted((one, two) => (two.order ?? 0) - (one.order ?? 0))) {
    const found = content.run(Number(other.id))?.run;
    const first = found?.phases[0];
    if (found === undefined || first === undefined) continue;
    const cells = cellsOf(found, first.phase);
    if ([...cells.keys()].some((column) => ofDay.test(column))) return { run: found.name, cells };
  }
  return null;
}
