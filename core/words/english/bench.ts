import type { FieldKind } from "../../procedure/field-kind.ts";
import type { PhaseName } from "../../readings/phase.ts";
import { shorten } from "../shorten.ts";
import { quantityWords } from "./quantities.ts";

const named = (text: string) => shorten(text, 60);

/** Names of fields in the line that says what a step holds; others say by themselves what they are. */
const shortName: Partial<Record<FieldKind, string>> = {
  run: "run",
  order: "order",
  block: "block",
  air: "air",
  boiling: "boiling",
  altitude: "altitude",
  humidity: "humidity",
  moisture: "moisture",
  fuelSize: "sticks",
  wind: "wind",
  lid: "lid",
  potEmpty: "pot empty",
  potBefore: "pot",
  potAfter: "pot",
  waterBefore: "water",
  waterAfter: "water",
  waterAtBoil: "water",
  fuelBefore: "wood",
  fuelAfter: "wood left",
  charContainer: "container",
  charWithContainer: "with char",
  charAtStart: "char in the stove",
  lit: "lit",
  begun: "begun",
  boiled: "boiled",
  over: "ended",
  carbonMonoxide: "CO",
  particulateMatter: "PM2.5",
};

/** What a result waits for, in few words: they stand in a narrow column. */
const awaitedName: Partial<Record<FieldKind, string>> = {
  air: "air",
  boiling: "boiling point",
  altitude: "altitude",
  fuel: "kind of wood",
  moisture: "moisture",
  potEmpty: "empty pot",
  potBefore: "full pot",
  potAfter: "pot",
  waterBefore: "cool water",
  waterAfter: "water",
  waterAtBoil: "hot water",
  fuelBefore: "wood",
  fuelAfter: "wood left",
  charContainer: "container",
  charWithContainer: "char",
  charAtStart: "char in bed",
  lit: "lighting",
  begun: "start",
  boiled: "boil",
  over: "end",
  carbonMonoxide: "CO",
  particulateMatter: "PM2.5",
};

/** What the service says of runs on the Bench. */
export const benchWork = {
  /** Why a run that is being made does not count. */
  notFinished: "not finished: still on the Bench",
  notOnBench: (run: string) => `Run ${named(run)} is not on the Bench. Take it up again to go on with it.`,
  alreadyOnBench: (run: string) => `Run ${named(run)} is on the Bench already.`,
  alreadyAbandoned: (run: string) => `Run ${named(run)} was abandoned already. Take it up again to go on with it.`,
  counts: (run: string) =>
    `Run ${named(run)} is finished and counts. To leave it out, give the reason on the Runs page; to go on with it, take it up again.`,
  notAStep: (run: string) => `Run ${named(run)} has no such phase. Look at the run again.`,
  potsHaveReadings: (pot: number) =>
    `Pot ${pot} has readings in this run. Empty its fields first, or keep the sheet as it is.`,

  /** A needed reading lacks: "cold start: Pot with water is not recorded." */
  lacks: (field: string, phase: PhaseName | null) =>
    phase === null ? `${field} is not recorded.` : `${field}, ${quantityWords.phase[phase]}, is not recorded.`,
  nothingRead: "Nothing was weighed, read or timed yet.",
  cannotFinish: (run: string, lacks: readonly string[]) =>
    `Run ${named(run)} cannot be finished yet. ${lacks.join(" ")} Fill it in, or abandon the run with the reason.`,

  fromRun: (run: string) => `as in run ${named(run)}`,
  fromPhase: (phase: PhaseName) => `as in the ${quantityWords.phase[phase]}`,
  fromPhaseEnd: (phase: PhaseName) => `as the ${quantityWords.phase[phase]} ended`,
  fromSetUp: "as set up for the study",

  usualRange: (low: string, high: string, unit: string | null) =>
    `usual here ${low === high ? low : `${low} to ${high}`}${unit === null ? "" : ` ${unit}`}`,
  usualDuration: (low: string, high: string) => `usual here after ${low === high ? low : `${low} to ${high}`} min`,
  usualLoss: (before: string, low: string, high: string, unit: string) =>
    `was ${before} ${unit} before · usual loss here ${low === high ? low : `${low} to ${high}`} ${unit}`,
  usualGain: (container: string, low: string, high: string) =>
    `container ${container} g · usual char here ${low === high ? low : `${low} to ${high}`} g`,
  before: (before: string, unit: string) => `was ${before} ${unit} before`,
  containerWas: (mass: string) => `the container is ${mass} g`,
  boilingHere: (celsius: string) => `boiling here ${celsius} °C`,
  waterOf: (grams: string, pot: string | null) =>
    pot === null ? `about ${grams} g of water` : `about ${grams} g of water: ${pot} g with the pot`,
  minutesAfter: (minutes: string, time: string) => `${minutes} min after the start: ${time}`,

  sinceLit: "since it was lit",
  sinceBegun: "since it began",
  sinceBoiled: "since the water boiled",
  sinceEnded: "since the phase ended",
  untilOver: (minutes: number) => `until ${minutes} minutes are over`,
  timeWasSet: (seconds: string, forward: boolean) =>
    `The machine’s time was set ${forward ? "forward" : "back"} by ${seconds} meanwhile. The clock goes on as if it had not been.`,
  seconds: (seconds: number) => `${seconds} s`,
  minutes: (minutes: number) => `${minutes} min`,
  press: { lit: "Lit now", begun: "Begun now", boils: "Boiled now", ends: "Over now" },

  wholeRun: "The whole run",
  /** Waits for one reading: "after the char"; "after the simmer’s char" where it is not plain of which phase. */
  after: (kind: FieldKind, number: number | null, phase: PhaseName | null) => {
    const name = awaitedName[kind] ?? "one more reading";
    const what = number === null ? name : `${name} ${number}`;
    return phase === null ? `after the ${what}` : `after the ${quantityWords.phase[phase]}’s ${what}`;
  },
  /** "wood 1504 g" in the line of what a step holds. */
  summary: (name: string, text: string, unit: string | null) => {
    // A unit stays with its number.
    const what = `${text}${unit === null ? "" : `\u00a0${unit}`}`;
    return name === "" ? what : `${name} ${what}`;
  },
  shortOfPot: (name: string, pot: number) =>
    name.startsWith("pot") ? name.replace("pot", `pot ${pot}`) : `${name} ${pot}`,
  shortOfEntry: (name: string, entry: number) => `${name} ${entry}`,
  shortName,
  wet: "wet basis",
  dry: "dry basis",
  otherBasisHere: { wet: "on the wet basis", dry: "on the dry basis" },

  specimen: {
    meter: (readings: readonly string[]) => `meter: ${readings.join("; ")} %`,
    oven: (masses: readonly string[]) => `oven: ${masses.join("; ")}`,
    /** Before and after drying, with the dish that is in both. */
    dried: (before: string, after: string, dish: string | null) =>
      `${before} to ${after} g${dish === null ? "" : ` with a dish of ${dish} g`}`,
    mixed: "Give all specimens alike: either meter readings, or masses before and after the oven.",
    notANumber: (specimen: number, text: string) => `Specimen ${specimen}: “${shorten(text, 40)}” is no number.`,
    empty: (specimen: number) => `Specimen ${specimen} is empty. Fill it in, or take it away.`,
    wetRange: (specimen: number, text: string) =>
      `Specimen ${specimen}: ${text} % cannot be on the wet basis, which lies from 0 to under 100 %.`,
    dryRange: (specimen: number, text: string) =>
      `Specimen ${specimen}: ${text} % cannot be on the dry basis, which lies from 0 to 1000 %.`,
    notPositive: (specimen: number, text: string) => `Specimen ${specimen}: a mass of ${text} g is not possible.`,
    heavierAfter: (specimen: number, before: string, after: string) =>
      `Specimen ${specimen} weighs more after the oven (${after} g) than before (${before} g). Were they exchanged?`,
    dishTooHeavy: (specimen: number, dish: string, after: string) =>
      `Specimen ${specimen}: the dish (${dish} g) weighs as much as dish and dry wood together (${after} g), or more.`,
  },
};
