import { isBoilingPhase, isHoldingPhase, type PhaseName, type PotNumber } from "../../readings/phase.ts";
import { type PhaseNumbers, waterOf, wetPercent } from "../run-numbers.ts";
import { type NumberedRun, phaseOf } from "./numbered-run.ts";

/** What is compared with the other runs. */
export type WatchedName =
  | "woodBefore"
  | "woodAfter"
  | "woodBurned"
  | "waterAtStart"
  | "waterLost"
  | "potGoesOn"
  | "char"
  | "temperatureAtStart"
  | "startInRun"
  | "endUnderBoiling"
  | "endOfLevel"
  | "air"
  | "airInRun"
  | "boiling"
  | "moisture"
  | "moistureInRun"
  | "woodToBefore"
  | "duration"
  | "durationToBefore"
  | "pause"
  | "efficiency"
  | "firepower";

export interface Watched {
  readonly name: WatchedName;
  readonly pot: PotNumber;
  /** Compared with the runs of the variant, or with all of the study. */
  readonly among: "variant" | "study";
  /**
   * Least scatter that is reckoned with, as a standard deviation: in the unit, or as a share of the usual value. It stands for
   * what instruments and fires do where few runs have shown it. Common practice, no source.
   */
  readonly least: { readonly absolute: number; readonly share: number };
  of(phase: PhaseNumbers, run: NumberedRun): number;
}

const before: Partial<Record<PhaseName, PhaseName>> = {
  "hot-start": "cold-start",
  simmer: "hot-start",
  "medium-power": "high-power",
  "low-power": "medium-power",
};

/** The phase that this one follows, where the run has it. */
export function phaseBefore(phase: PhaseNumbers, run: NumberedRun): PhaseNumbers | undefined {
  const name = before[phase.phase];
  return name === undefined ? undefined : phaseOf(run, name);
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const potOf = (phase: PhaseNumbers | undefined, number: PotNumber) => phase?.pots.find(({ pot }) => pot === number);

/** How far a value lies from the nearest of the run's other phases; NaN where there are not two others to tell. */
function fromOtherPhases(phase: PhaseNumbers, run: NumberedRun, value: (phase: PhaseNumbers) => number): number {
  const own = value(phase);
  const away = run.phases.flatMap((other) => {
    const difference = own - value(other);
    return other !== phase && Number.isFinite(difference) ? [difference] : [];
  });
  if (away.length < 2) return Number.NaN;
  return away.reduce((nearest, one) => (Math.abs(one) < Math.abs(nearest) ? one : nearest));
}

const moistureOf = ({ woods: [wood] }: PhaseNumbers) => (wood === undefined ? Number.NaN : wetPercent(wood));

/** Wood burnt in a phase, of all its entries, g. */
export function woodBurned(phase: PhaseNumbers | undefined): number {
  return phase === undefined ? Number.NaN : sum(phase.woods.map((wood) => wood.before - wood.after));
}

const wholePhase: readonly Omit<Watched, "pot">[] = [
  {
    name: "woodBefore",
    among: "study",
    least: { absolute: 20, share: 0.08 },
    of: ({ woods }) => woods[0]?.before ?? Number.NaN,
  },
  {
    name: "woodAfter",
    among: "variant",
    least: { absolute: 20, share: 0.12 },
    of: ({ woods }) => woods[0]?.after ?? Number.NaN,
  },
  {
    name: "woodBurned",
    among: "variant",
    least: { absolute: 10, share: 0.05 },
    of: woodBurned,
  },
  {
    name: "woodToBefore",
    among: "study",
    least: { absolute: 0, share: 0.09 },
    of: (phase, run) => woodBurned(phase) / woodBurned(phaseBefore(phase, run)),
  },
  { name: "char", among: "variant", least: { absolute: 3, share: 0.08 }, of: ({ char }) => char },
  { name: "air", among: "study", least: { absolute: 2, share: 0 }, of: ({ air }) => air },
  {
    name: "airInRun",
    among: "study",
    least: { absolute: 1, share: 0 },
    of: (phase, run) => fromOtherPhases(phase, run, ({ air }) => air),
  },
  { name: "boiling", among: "study", least: { absolute: 0.15, share: 0 }, of: ({ boiling }) => boiling },
  { name: "moisture", among: "study", least: { absolute: 0.5, share: 0 }, of: moistureOf },
  {
    name: "moistureInRun",
    among: "study",
    least: { absolute: 0.2, share: 0 },
    of: (phase, run) => fromOtherPhases(phase, run, moistureOf),
  },
  {
    name: "duration",
    among: "variant",
    least: { absolute: 1, share: 0.055 },
    // A simmer's length has a question of its own.
    of: ({ phase, minutes }) => (isHoldingPhase(phase) ? Number.NaN : minutes),
  },
  {
    name: "durationToBefore",
    among: "study",
    least: { absolute: 0, share: 0.09 },
    of: (phase, run) =>
      isHoldingPhase(phase.phase) ? Number.NaN : phase.minutes / (phaseBefore(phase, run)?.minutes ?? Number.NaN),
  },
  {
    name: "pause",
    among: "study",
    least: { absolute: 2, share: 0.1 },
    of: (phase, run) => phase.start - (phaseBefore(phase, run)?.end ?? Number.NaN),
  },
  { name: "efficiency", among: "variant", least: { absolute: 0, share: 0.05 }, of: ({ efficiency }) => efficiency },
  { name: "firepower", among: "variant", least: { absolute: 0, share: 0.05 }, of: ({ firepower }) => firepower },
];

const ofPot = (pot: PotNumber): Watched[] => [
  {
    name: "waterAtStart",
    pot,
    among: "study",
    least: { absolute: 6, share: 0.003 },
    of: (phase) => waterOf(potOf(phase, pot) ?? none, "start"),
  },
  {
    name: "waterLost",
    pot,
    among: "variant",
    least: { absolute: 6, share: 0.075 },
    of: (phase) => {
      const one = potOf(phase, pot);
      return one === undefined ? Number.NaN : one.start - one.end;
    },
  },
  {
    name: "potGoesOn",
    pot,
    among: "study",
    least: { absolute: 3, share: 0 },
    of: (phase, run) => {
      if (!isHoldingPhase(phase.phase)) return Number.NaN;
      return waterOf(potOf(phase, pot) ?? none, "start") - waterOf(potOf(phaseBefore(phase, run), pot) ?? none, "end");
    },
  },
  {
    name: "temperatureAtStart",
    pot,
    among: "study",
    least: { absolute: pot === 1 ? 1.2 : 2, share: 0 },
    of: (phase) => potOf(phase, pot)?.from ?? Number.NaN,
  },
  {
    name: "startInRun",
    pot,
    among: "study",
    least: { absolute: 1, share: 0 },
    // Fresh water of one day: a simmer goes on with hot.
    of: (phase, run) =>
      isHoldingPhase(phase.phase)
        ? Number.NaN
        : (potOf(phase, pot)?.from ?? Number.NaN) - (potOf(phaseBefore(phase, run), pot)?.from ?? Number.NaN),
  },
  {
    name: "endUnderBoiling",
    pot,
    among: "study",
    // The water of a second pot need not boil, and ends where it ends.
    least: { absolute: pot === 1 ? 0.5 : 3, share: 0 },
    of: (phase) => (needBoil(phase) ? underBoiling(phase, pot) : Number.NaN),
  },
  {
    name: "endOfLevel",
    pot,
    among: "study",
    // Water of an ISO level need not boil, but does much the same from run to run.
    least: { absolute: pot === 1 ? 1 : 3, share: 0 },
    of: (phase) => (needBoil(phase) ? Number.NaN : underBoiling(phase, pot)),
  },
];

const needBoil = ({ phase }: PhaseNumbers) => isBoilingPhase(phase) || isHoldingPhase(phase);

function underBoiling(phase: PhaseNumbers, pot: PotNumber): number {
  return phase.boilingHere - (potOf(phase, pot)?.to ?? Number.NaN);
}

const none = {
  pot: 1,
  isNet: true,
  empty: Number.NaN,
  start: Number.NaN,
  end: Number.NaN,
  from: Number.NaN,
  to: Number.NaN,
} as const;

/** Everything that is compared, for stoves of up to so many pots. */
export function watchedOf(pots: number): Watched[] {
  const numbers = ([1, 2, 3, 4] as const).slice(0, Math.max(1, pots));
  return [...wholePhase.map((one) => ({ ...one, pot: 1 as const })), ...numbers.flatMap(ofPot)];
}
