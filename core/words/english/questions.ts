import type { PhaseName } from "../../readings/phase.ts";
import { shorten } from "../shorten.ts";
import { quantityWords } from "./quantities.ts";

const phaseOf = (phase: PhaseName) => quantityWords.phase[phase];

/** A reading of the layout as a sentence names it. */
function reading(column: string): string {
  const [, pot, ofPot = ""] = /^pot(\d)_(.*)$/.exec(column) ?? [];
  if (pot !== undefined) return potReadings[ofPot]?.(pot) ?? column;
  const [, number, rest = ""] = /^fuel(\d?)_(.*)$/.exec(column) ?? [];
  const wood = number === undefined || number === "" ? "wood" : `wood of entry ${number}`;
  if (rest === "start_g") return `the ${wood} before`;
  if (rest === "end_g") return `the ${wood} left`;
  return otherReadings[column] ?? column;
}

const potReadings: Readonly<Record<string, (pot: string) => string>> = {
  empty_g: (pot) => `the mass of empty pot ${pot}`,
  start_g: (pot) => `pot ${pot} with water at the start`,
  end_g: (pot) => `pot ${pot} with water at the end`,
  water_start_g: (pot) => `the water of pot ${pot} at the start`,
  water_end_g: (pot) => `the water of pot ${pot} at the end`,
  start_C: (pot) => `the temperature of pot ${pot} at the start`,
  end_C: (pot) => `the temperature of pot ${pot} at the end`,
};

const otherReadings: Readonly<Record<string, string>> = {
  char_with_container_g: "the container with char",
  char_container_g: "the empty char container",
  char_g: "the char",
  char_at_start_g: "the char at the start",
  moisture_wet_percent: "the moisture",
  moisture_dry_percent: "the moisture",
  air_C: "the air temperature",
  boiling_C: "the boiling point",
  start: "the start",
  end: "the end",
  duration_min: "the duration",
};

/** What is compared with other runs, to begin a sentence with. */
const watched = {
  woodBefore: () => "The wood before the phase",
  woodAfter: () => "The wood left after the phase",
  woodBurned: () => "The wood burnt",
  waterAtStart: (pot: number) => `The water in pot ${pot} at the start`,
  waterLost: (pot: number) => `The water lost from pot ${pot}`,
  potGoesOn: (pot: number) => `From the end of the phase before to this start, pot ${pot} changed: the difference`,
  char: () => "The char",
  temperatureAtStart: (pot: number) => `The water of pot ${pot} at the start`,
  startInRun: (pot: number) => `The water of pot ${pot} at the start less that of the phase before`,
  endUnderBoiling: (pot: number) => `How far pot ${pot} ended under boiling`,
  endOfLevel: (pot: number) => `How far pot ${pot} ended under boiling`,
  air: () => "The air temperature",
  airInRun: () => "The air temperature less that of the run's other phases",
  boiling: () => "The boiling point",
  moisture: () => "The moisture (wet basis)",
  moistureInRun: () => "The moisture less that of the run's other phases",
  woodToBefore: () => "The wood burnt beside that of the phase before",
  duration: () => "The phase's length",
  durationToBefore: () => "The phase's length beside that of the phase before",
  pause: () => "The pause since the phase before",
  efficiency: () => "The thermal efficiency",
  firepower: () => "The firepower",
};

/** What may have been meant by a number, with the reading and the number that it would be. */
const meant = {
  kilograms: (what: string, value: string) => `Was it written in kilograms? Then ${what} is ${value} g.`,
  decimal: (what: string, value: string) => `With the decimal point moved, ${what} would be ${value}, as usual.`,
  exchanged: (what: string, value: string) =>
    `With two neighbouring digits exchanged, ${what} would be ${value}, as usual.`,
  missingDigit: (what: string, value: string) => `With one digit more, ${what} could be ${value}, as usual.`,
  extraDigit: (what: string, value: string) => `With one digit less, ${what} would be ${value}, as usual.`,
  neighbourDigit: (what: string, value: string) =>
    `Was the key beside the right one pressed? Then ${what} would be ${value}, as usual.`,
  fahrenheit: (what: string, value: string) => `Was it read in °F? Then ${what} is ${value} °C.`,
  kelvin: (what: string, value: string) => `Was it read in K? Then ${what} is ${value} °C.`,
  withoutPot: (what: string, value: string) =>
    `Was the pot's own mass taken off already? Then ${what} would be ${value} g.`,
  potTwice: (what: string, value: string) => `Was the pot's mass counted twice? Then ${what} would be ${value} g.`,
};

function outside(of: {
  readonly what: string;
  readonly arithmetic: string | null;
  readonly here: string;
  readonly low: string;
  readonly high: string;
  readonly unit: string;
  readonly others: number;
  readonly variant: string | null;
  readonly hint: string | null;
  readonly look: string;
}): string {
  const { what, arithmetic, here, low, high, unit, others, variant, hint, look } = of;
  const sum = arithmetic === null ? "" : `${arithmetic} = `;
  const runs = `the other ${others} runs${variant === null ? "" : ` of “${shorten(variant)}”`}`;
  const between =
    low === high ? `in ${runs} it is ${low} ${unit}` : `in ${runs} it lies between ${low} and ${high} ${unit}`;
  return `${what} is ${sum}${here} ${unit}; ${between}. ${hint === null ? "" : `${hint} `}${look}`;
}

/** Questions: readings that look odd. What is odd, with the arithmetic, and what to look at. Numbers come formatted. */
export const questions = {
  reading,
  watched,
  meant,
  outside,
  lookAt: (what: string) => `Check ${what}.`,
  lookAtPhase: (phase: PhaseName) => `Check the weighings and times of the ${phaseOf(phase)}.`,
  moreMasses: (n: number) =>
    n === 1 ? "Another mass of this phase looks the same." : `${n} more masses of this phase look the same.`,
  endBelowBoiling: (end: string, boiling: string) =>
    `The water of pot 1 ended at ${end} °C, more than 2 K under boiling (${boiling} °C). Did it boil? Check the thermometer and the boiling point.`,
  simmerFarBelowBoiling: (end: string, boiling: string) =>
    `The simmer ended at ${end} °C, more than 6 K under boiling (${boiling} °C): it fell out of the simmering range. Check the temperature; if it is right, the fire was too low.`,
  efficiencyHigh: (efficiency: string) =>
    `The thermal efficiency comes out at ${efficiency} %, above 60 %: no open wood fire does that. Check the weighings of wood, char and pot.`,
  efficiencyLow: (efficiency: string) =>
    `The thermal efficiency comes out at ${efficiency} %, below 3 %. Check the weighings of wood and pot, and their units.`,
  muchChar: (char: string, dryFuel: string, share: string) =>
    `${char} g of char from ${dryFuel} g of dry wood is ${share} %, above 35 %. Was the container taken off, and the char dry?`,
  moistureHigh: (moisture: string, givenWet: boolean) =>
    `The moisture is ${moisture} % on the wet basis, above 35 %: such wood hardly burns. ${givenWet ? "Is the number on the dry basis?" : "Check it."}`,
  moistureLow: (moisture: string) =>
    `The moisture is ${moisture} %, less than any wood keeps in air. Is it a fraction? Then write (fraction) in the heading.`,
  hydrogenLow: (hydrogen: string) =>
    `The hydrogen of the dry fuel is ${hydrogen} %, and wood has about 6 %. Is it a fraction? Then write (fraction) in the heading.`,
  shortPhase: (minutes: string) =>
    `The phase lasted ${minutes} min, too short for a pot of water. Are these hours, or were start and end misread?`,
  muchMonoxide: (grams: string, fuel: string) =>
    `${grams} g of carbon monoxide from ${fuel} g of fuel is more than a fire gives. Are these milligrams? Then write (mg) in the heading.`,
  muchParticles: (milligrams: string, fuel: string) =>
    `${milligrams} mg of fine particles from ${fuel} g of fuel is more than a fire gives. Are these micrograms? Then write (µg) in the heading.`,
  moistureZero: "The moisture is zero: wood from outside an oven is never quite dry. Was it measured?",
  boilingPointOff: (measured: string, computed: string) =>
    `The measured boiling point, ${measured} °C, is more than 1 K from the one computed from the pressure or altitude, ${computed} °C. The measured one is used. Check the thermometer in boiling water.`,
  simmerDuration: (minutes: string) =>
    `The simmer lasted ${minutes} min, not 45 ± 1 min as the procedure has it. Check start and end.`,
  warmStart: (temperature: string, celsius: string | null = null) =>
    `The water began at ${temperature} °C, above 35 °C. ${celsius === null ? "Was it fresh water?" : `Was it read in °F? Then it is ${celsius} °C.`}`,
  muchWaterLost: (lost: string, start: string, minutes: string | null) =>
    `${lost} of water lost of ${start}${minutes === null ? "" : ` in ${minutes} minutes`}: more than a cooking stove makes into steam. Check the pot at the start and at the end.`,
  muchWood: (wood: string, minutes: string, rate: string) =>
    `${wood} g of wood in ${minutes} minutes is ${rate} g/min, more than a stove for a pot burns. Check the wood before and left, and the times.`,
  littleWood: (wood: string, minutes: string, rate: string) =>
    `${wood} g of wood in ${minutes} minutes is ${rate} g/min: no fire is so small. Check the wood before and left, and the times.`,
  longBoil: (minutes: string) => `It took ${minutes} min to boil, more than two and a half hours. Check start and end.`,
  noChar: (withContainer: string, container: string) =>
    `${withContainer} − ${container} g leaves hardly any char after a wood fire. Was the container weighed with the char in it?`,
  emptyMass: (what: string, here: string, usual: string, runs: number, hint: string | null) =>
    `This run has ${here} g for ${what}; most of the other ${runs} runs have ${usual} g. ${hint === null ? "" : `${hint} `}Was it another one, or is a digit wrong? Weigh it empty.`,
  emptyMassInRun: (what: string, here: string, there: string) =>
    `Here ${what} is ${here} g, elsewhere ${there} g: the same thing has one mass. Check both numbers.`,
  potsSwapped: (pot: string, here: string, other: string, usual: string) =>
    `Pot ${pot} is ${here} g empty here, which is what pot ${other} has in the other runs; pot ${pot} has ${usual} g there. Were the pots swapped?`,
  moistureBasis: (percent: string, isDry: boolean, usual: string) =>
    isDry
      ? `A moisture of ${percent} % on the dry basis; the same wood has ${usual} % on the wet basis elsewhere, the same number. Is this one on the wet basis too?`
      : `A moisture of ${percent} % on the wet basis; the same wood has ${usual} % elsewhere, which is ${percent} % on the dry basis. Is this number on the dry basis? Then it belongs in moisture_dry_percent.`,
  moistureColumn: (percent: string, isDry: boolean) =>
    `The moisture, ${percent} %, stands under the ${isDry ? "dry" : "wet"} basis here and under the ${isDry ? "wet" : "dry"} basis in the other runs. Which basis is it on?`,
  phaseBeforePrevious: (previous: PhaseName, ended: string, began: string) =>
    `The phase began at ${began}, before the ${phaseOf(previous)} ended (${ended}). Check both times and their dates.`,
  longPause: (previous: PhaseName, ended: string, began: string, hours: string, isNextDay: boolean) =>
    `The ${phaseOf(previous)} ended at ${ended} and this phase began at ${began}: ${hours} hours ${isNextDay ? "later, on the next day" : "later"}. Phases follow one another at once. Check the hour of both times.`,
  overlap: (other: string, ended: string, began: string) =>
    `This run began at ${began}, while run ${shorten(other)} of the same operator went on until ${ended}. Check date and times of both.`,
  timeOfDay: (began: string, low: string, high: string, runs: number) =>
    `The run began at ${began}; the other ${runs} runs began between ${low} and ${high}. Is the hour right, morning or evening?`,
  dateFar: (date: string, nearest: string, days: number) =>
    `The run is of ${date}, ${days} days from the nearest other run (${nearest}). Check day, month and year.`,
  dateOfBlock: (date: string, block: string, usual: string) =>
    `The run is of ${date}, but the other runs of “${shorten(block)}” are of ${usual}. Check date and block.`,
  outOfOrder: (date: string, before: string | null, after: string | null) =>
    `By date and time (${date}) the run does not stand where its order puts it, ${[before === null ? null : `after ${shorten(before)}`, after === null ? null : `before ${shorten(after)}`].filter((part) => part !== null).join(" and ")}. Check date, times and order.`,
  woodRepeated: (before: string, left: string, previous: PhaseName) =>
    `The wood, ${before} g before and ${left} g left, is the same as in the ${phaseOf(previous)}. Was it carried over? Look at the sheet.`,
  oneWoodRepeated: (what: string, value: string, previous: PhaseName) =>
    `Here ${what} is ${value} g, the same as in the ${phaseOf(previous)}, and the wood burnt is not as usual. Was it carried over? Look at the sheet.`,
  woodGoesOn: (before: string, previous: PhaseName) =>
    `The wood before, ${before} g, is what the ${phaseOf(previous)} left; other runs weigh anew here. Was it carried over, or was wood added that was not weighed?`,
  woodAnew: (before: string, left: string, previous: PhaseName) =>
    `The wood before is ${before} g; the ${phaseOf(previous)} left ${left} g, and other runs go on from there. Was wood added, or is one of the two wrong?`,
  unusualVolume: (start: string, empty: string, water: string, hint: string) =>
    `Less the empty pot, pot 1 began with ${start} − ${empty} = ${water} g of water, not about 5 L or 2.5 L. ${hint} Check the masses of the pot.`,
  volumeMeant: {
    water: (_: string, water: string) => `${water} g by itself would be: was the pot's own mass taken off already?`,
    twice: (_: string, water: string) => `Less the empty pot twice, ${water} g, it would be: was its mass added?`,
    swapped: (other: string, water: string) =>
      `Less pot 2's ${other} g, ${water} g, it would be: were the pots swapped?`,
    exchanged: (empty: string, water: string) =>
      `With two neighbouring digits exchanged, the empty pot would be ${empty} g and the water ${water} g.`,
  },
  otherWater: (pot: number, here: string, there: string, previous: PhaseName) =>
    `Pot ${pot} began with ${here} g of water, and with ${there} g in the ${phaseOf(previous)}: both begin with the same. Check pot ${pot}, empty and with water, in both.`,
  otherWaterGoingOn: (pot: number, here: string, there: string, previous: PhaseName) =>
    `Pot ${pot} began with ${here} g of water; the ${phaseOf(previous)} left ${there} g, and the pot goes on from there. Check pot ${pot}, empty and with water, in both.`,
  otherStart: (pot: number, here: string, there: string, previous: PhaseName) =>
    `The water of pot ${pot} began at ${here} °C, and at ${there} °C in the ${phaseOf(previous)}. Was it fresh water both times? Check both temperatures.`,
  otherWood: (here: string, there: string, previous: PhaseName, goesOn: boolean) =>
    `${here} g of wood were burnt here and ${there} g in the ${phaseOf(previous)}, ${goesOn ? `and the wood before is what the ${phaseOf(previous)} left. Was it carried over, or was wood added that was not weighed?` : "seldom so far apart on one stove. Check the wood before and left in both."}`,
  otherLength: (here: string, there: string, previous: PhaseName) =>
    `The phase lasted ${here} min, and the ${phaseOf(previous)} ${there} min: seldom so far apart on one stove. Check the times of both.`,
  severalEqual: (what: readonly string[], run: string, phase: PhaseName) =>
    `${what.length} readings equal those of run ${shorten(run)}, ${phaseOf(phase)}: ${what.join(", ")}. Was a row copied?`,
  exchanged: (
    one: { readonly what: string; readonly phase: PhaseName; readonly value: string },
    other: { readonly what: string; readonly phase: PhaseName; readonly value: string },
  ) =>
    `${one.value} (${one.what}, ${phaseOf(one.phase)}) and ${other.value} (${other.what}, ${phaseOf(other.phase)}) would both be usual in each other's place. Were they exchanged?`,
  factorOfVariant: (factor: string, level: string, variant: string, usual: string) =>
    `The run has ${shorten(factor)} “${shorten(level)}”, the other runs of “${shorten(variant)}” have “${shorten(usual)}”. Is it of another variant?`,
  variantTwiceInBlock: (block: string, variant: string, lacking: string) =>
    `“${shorten(block)}” has two runs of “${shorten(variant)}” and none of “${shorten(lacking)}”, and of the two this one is nearer to “${shorten(lacking)}”. Is it of that variant?`,
  likeOtherVariant: (variant: string, like: string, results: number) =>
    `${results} results of this run lie outside what “${shorten(variant)}” does, and all are usual for “${shorten(like)}”. Is it of that variant?`,
  waterAtStart: (litres: string) =>
    `Pot 1 did not begin every boiling phase with 5 L or 2.5 L (± 5 %), as the procedure has it: ${litres}. Results for the 5-litre task are scaled from there.`,
  waterAtStartOf: (run: string, phase: PhaseName, litres: string) => `${run}, ${phaseOf(phase)}: ${litres} L`,
  andMore: (count: number) => `and ${count} more`,
  charAtStartEmpty:
    "The simmer's char at its start was not noted, though the hot start's char was weighed: the hot start's is taken. If the bed was cleared, write 0.",
  charAtStartDiffers: (here: string, there: string) =>
    `The simmer began with ${here} g of char, but the hot start ended with ${there} g. Was char added, lost or weighed again?`,
  sameReadings: (run: string, phase: PhaseName) =>
    `All weighings and temperatures of this phase equal those of run ${run}, ${phaseOf(phase)}. Was a row copied?`,
  calibration: (instrument: string, from: string, to: string, runs: number, names: readonly string[]) =>
    `The ${instrument} was in no calibration ${from === to ? `on ${from}` : `on days from ${from} to ${to}`} (${runs === 1 ? "1 run" : `${runs} runs`}: ${names.map((name) => shorten(name, 40)).join(", ")}${runs > names.length ? ", …" : ""}). Was a calibration not entered? Add it under Set up; if there was none, check the instrument before relying on these runs.`,
  calibrationNow: (instrument: string, date: string) =>
    `The ${instrument} is in no calibration on ${date}. Take one that is, or add its calibration under Set up; is the date right?`,
  balanceWithoutGain: (balances: readonly string[]) =>
    `The ${balances.join(" and the ")} ${balances.length === 1 ? "has" : "(one instrument) has"} an error in grams that all weighings share, and none in per cent. The first cancels in every difference of two weighings, and all masses of wood, water and char are such differences: it changes no result. What counts is the balance's gain, a fraction of the reading: the calibration certificate's uncertainty near the usual load, divided by that load. Enter it under Set up, Instruments, as “of the reading”.`,
  clockErrorOfReading:
    "The clock has an error in per cent that is new at each reading. The reading of a clock is a time of day: at 10:00 that would be a share of ten hours, not of how long the phase took. A clock that runs fast or slow has one rate for all readings: enter it as shared by all. What is new at each reading is a matter of seconds: enter it so, under Set up, Instruments.",
  potNotSetUp: (here: string, name: string, usual: string, pots: number) =>
    `Pot 1 is ${here} g empty here; ${pots === 1 ? "the pot that is set up" : `of ${pots} pots that are set up the nearest`}, “${shorten(name)}”, has ${usual} g. Was it another pot, or is a digit wrong? Weigh it empty.`,
  potsNotSetUp: (low: string, high: string, runs: number, names: readonly string[]) =>
    `Pot 1 is ${low === high ? `${low} g` : `${low} to ${high} g`} empty in ${runs} runs (${names.map((name) => shorten(name, 40)).join(", ")}, …), and no pot that is set up has that mass. Is a pot missing there? Add it under Set up, or check the weighing.`,
  otherMethod: (method: string, other: string, runs: number, example: string) =>
    `The study's method is ${method}, but ${runs === 1 ? "1 run has" : `${runs} runs have`} phases of ${other} (${example}, for one). ${runs === 1 ? "It is" : "They are"} worked out by ${other}; the method of the settings then decides the confidence level only. Check the method, or part the runs into two studies.`,
  noCalorific: (fuel: string | null, runs: number, alike: string | null = null) =>
    `No calorific value of ${fuel === null ? "the fuel" : `“${shorten(fuel)}”`} is known (${runs === 1 ? "1 run" : `${runs} runs`}), so efficiency, power and wood per litre cannot be computed. Give one in the column net_calorific_kJ_per_kg${fuel === null ? "" : ", or under the fuel's name in the settings file"}.${alike === null ? "" : ` The settings have one of “${shorten(alike)}”: the same fuel? Then write the name alike.`}`,
  fewRuns: (variant: string, runs: number) =>
    `“${shorten(variant)}” has ${runs === 1 ? "one run" : `${runs} runs`} that ${runs === 1 ? "counts" : "count"}: fewer than three say little about scatter. Make at least three.`,
};

/** Notes of a run: what was taken for what, and what was assumed. */
export const notes = {
  charStandsIn: "Hot start: no char was weighed; the cold start's char stands in for it.",
  charAtStartStandsIn: "Simmer: the char at its start is taken from the end of the hot start.",
  hydrogenAssumed: (fuel: string | null, percent: string) =>
    `Hydrogen of ${fuel === null ? "the fuel" : `“${fuel}”`} was not given: ${percent} % of the dry fuel is taken to get the net from the gross calorific value.`,
};
