import type { PhaseName } from "../../readings/phase.ts";
import { shorten } from "../shorten.ts";
import { quantityWords } from "./quantities.ts";

const phaseOf = (phase: PhaseName) => quantityWords.phase[phase];

/** Questions: readings that look odd. What is odd, with the arithmetic, and what to look at. Numbers come formatted. */
export const questions = {
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
  warmStart: (temperature: string) => `The water began at ${temperature} °C, above 35 °C. Was it fresh water?`,
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
