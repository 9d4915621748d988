import { moistureWetFromDry } from "../fuel/moisture.ts";
import { plainNumbers } from "../numeric/arithmetic.ts";
import { type Phase, type PhaseName, type PotNumber, phaseNames } from "../readings/phase.ts";
import { localBoilingPoint } from "../readings/rules/local-boiling-point.ts";
import type { Run } from "../readings/study.ts";
import type { RunResults } from "./run-results.ts";

/** One fuel entry's numbers: g, and per cent as written with its basis. NaN where nothing stands. */
export interface WoodNumbers {
  readonly before: number;
  readonly after: number;
  readonly percent: number;
  readonly isDryBasis: boolean;
}

/** One pot's numbers: g and °C. `empty` is NaN where the water was noted net, and where the pot was not weighed empty yet. */
export interface PotNumbers {
  readonly pot: PotNumber;
  /** The water was noted without the pot. */
  readonly isNet: boolean;
  readonly empty: number;
  readonly start: number;
  readonly end: number;
  readonly from: number;
  readonly to: number;
}

/** The numbers of one phase that questions compare between phases and runs. NaN stands for what is not there. */
export interface PhaseNumbers {
  readonly phase: PhaseName;
  /** Minutes after midnight of the run's first day. */
  readonly start: number;
  readonly end: number;
  readonly minutes: number;
  /** Written as bare times, which are taken to go on past midnight. */
  readonly isBareTime: boolean;
  readonly container: number;
  readonly withContainer: number;
  /** Net, g. */
  readonly char: number;
  readonly charAtStart: number;
  readonly air: number;
  /** As measured, °C. */
  readonly boiling: number;
  /** As measured, or from pressure or altitude, °C. */
  readonly boilingHere: number;
  /** Fraction. */
  readonly efficiency: number;
  /** W. */
  readonly firepower: number;
  readonly woods: readonly WoodNumbers[];
  readonly pots: readonly PotNumbers[];
}

/** A run's numbers in one row, phase after phase: {@link unpackRun} has them by name. */
export type PackedNumbers = readonly number[];

const fixedSlots = 17;
const woodSlots = 4;
const potSlots = 6;

/** The empty container of a phase whose char was not weighed, or not yet: kept as it was written. */
function containerAlone({ conditions }: Phase): number {
  const written = conditions.others.find(({ heading }) => heading === "char_container_g")?.text;
  return written === undefined ? Number.NaN : Number(written);
}

/** No pot weighs that: one with water in it that was not weighed empty yet. */
const notWeighedEmpty = -1;
const packedEmpty = (empty: number) => (Number.isNaN(empty) ? notWeighedEmpty : empty);

function packPhase(phase: Phase, results: RunResults | null, into: number[]): void {
  const { timing, char, charAtStart, airTemperature, boilingPoint, fuels, pots } = phase;
  const isClock = timing.kind === "clock";
  const ofPhase = results?.phases.find((one) => one.phase === phase.phase)?.values;
  const [container, withContainer] =
    char?.kind === "weighed" ? [char.container.value, char.withContainer.value] : [containerAlone(phase), Number.NaN];
  into.push(
    phaseNames.indexOf(phase.phase),
    isClock ? timing.start.value : Number.NaN,
    isClock ? timing.end.value : Number.NaN,
    isClock ? timing.end.value - timing.start.value : timing.minutes.value,
    isClock && timing.written === "time" ? 1 : 0,
    container,
    withContainer,
    char === null ? Number.NaN : char.kind === "net" ? char.mass.value : withContainer - container,
    charAtStart?.value ?? Number.NaN,
    airTemperature?.value ?? Number.NaN,
    boilingPoint.measured?.value ?? Number.NaN,
    boilingPoint.pressure?.value ?? Number.NaN,
    boilingPoint.altitude?.value ?? Number.NaN,
    ofPhase?.get(results?.run.method === "iso" ? "isoEfficiencyWithoutChar" : "thermalEfficiency") ?? Number.NaN,
    ofPhase?.get(results?.run.method === "iso" ? "isoFirepower" : "firepower") ?? Number.NaN,
    fuels.length,
    pots.length,
  );
  for (const { massBefore, massAfter, moisture } of fuels) {
    into.push(massBefore.value, massAfter.value, moisture?.percent.value ?? Number.NaN);
    into.push(moisture?.basis === "dry" ? 1 : 0);
  }
  for (const { pot, masses, temperatureStart, temperatureEnd } of pots) {
    if (masses.kind === "net") into.push(pot, Number.NaN, masses.waterStart.value, masses.waterEnd.value);
    else into.push(pot, packedEmpty(masses.empty.value), masses.start.value, masses.end.value);
    into.push(temperatureStart.value, temperatureEnd.value);
  }
}

/** The numbers of a run that questions about the study need: some 30 a phase, in one array. */
export function packRun(run: Run, results: RunResults | null): PackedNumbers {
  const numbers: number[] = [];
  for (const phase of run.phases) packPhase(phase, results, numbers);
  // A copy has no room to spare.
  return numbers.slice();
}

/** Local boiling points, °C: worked out once for each pressure and altitude, of which a study has few. NaN where neither is known. */
export class BoilingPoints {
  readonly #known = new Map<string, number>();

  at(pressure: number, altitude: number): number {
    const key = `${pressure} ${altitude}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const reading = (value: number) => (Number.isNaN(value) ? null : { id: "", value });
    const found = localBoilingPoint({ measured: null, pressure: reading(pressure), altitude: reading(altitude) });
    this.#known.set(key, found ?? Number.NaN);
    return found ?? Number.NaN;
  }
}

/** The numbers of each phase by name, in the order of the run's phases. */
export function unpackRun(packed: PackedNumbers, boilingPoints: BoilingPoints): PhaseNumbers[] {
  const phases: PhaseNumbers[] = [];
  let at = 0;
  const next = () => packed[at++] ?? Number.NaN;
  while (at + fixedSlots <= packed.length) {
    const phase = phaseNames[next()] ?? "cold-start";
    const [start, end, minutes] = [next(), next(), next()];
    const isBareTime = next() === 1;
    const [container, withContainer, char, charAtStart] = [next(), next(), next(), next()];
    const [air, boiling, pressure, altitude] = [next(), next(), next(), next()];
    const boilingHere = Number.isNaN(boiling) ? boilingPoints.at(pressure, altitude) : boiling;
    const [efficiency, firepower] = [next(), next()];
    const [fuels, potCount] = [next(), next()];
    const woods: WoodNumbers[] = [];
    for (const last = at + fuels * woodSlots; at < last; ) {
      woods.push({ before: next(), after: next(), percent: next(), isDryBasis: next() === 1 });
    }
    const pots: PotNumbers[] = [];
    for (const last = at + potCount * potSlots; at < last; ) {
      const [pot, packed] = [next() as PotNumber, next()];
      const empty = packed === notWeighedEmpty ? Number.NaN : packed;
      const isNet = Number.isNaN(packed);
      pots.push({ pot, isNet, empty, start: next(), end: next(), from: next(), to: next() });
    }
    const masses = { container, withContainer, char, charAtStart };
    const others = { air, boiling, boilingHere, efficiency, firepower };
    phases.push({ phase, start, end, minutes, isBareTime, ...masses, ...others, woods, pots });
  }
  return phases;
}

/** Water in a pot, g: NaN where it is not known. */
export function waterOf(pot: PotNumbers, moment: "start" | "end"): number {
  return pot.isNet ? pot[moment] : pot[moment] - pot.empty;
}

/** Moisture on the wet basis, per cent. */
export function wetPercent({ percent, isDryBasis }: WoodNumbers): number {
  return isDryBasis ? moistureWetFromDry(plainNumbers, percent / 100) * 100 : percent;
}
