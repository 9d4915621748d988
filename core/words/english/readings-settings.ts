import { quoted } from "./readings-quoted.ts";

const list = (names: readonly string[]) => names.join(", ");

/** Errors of a settings file. The place is named beside the message, as a path: `instruments.potBalance`. */
export const settingsProblems = {
  notJson: () =>
    "The settings file is not valid JSON. A comma, a quotation mark or a bracket is missing or too many near this place. Correct it.",
  /** What stands there, in front of what was expected. */
  found: ({ text, message }: { text: string; message: string }) =>
    `Found was ${text.startsWith('"') ? `${quoted(text.slice(1, -1))} (a text)` : quoted(text)}. ${message}`,
  keyTwice: ({ key }: { key: string }) =>
    `${quoted(key)} stands here a second time, and only one of the two could count. Remove one.`,
  calorificValue: () =>
    "Expected was a calorific value in kJ/kg of dry fuel, from 5 000 to 150 000: write 18400 for 18.4 MJ/kg.",
  notAnObject: () => "Expected was an object in braces: { … }.",
  notAnArray: () => "Expected was a list in brackets: [ … ].",
  unknownKey: ({ key, near, known }: { key: string; near: string | null; known: readonly string[] }) =>
    `${quoted(key)} is not known here. ${near === null ? `Known are: ${list(known)}.` : `Is ${near} meant?`} Correct or remove it.`,
  missingKey: ({ key }: { key: string }) => `${key} is missing. Add it.`,
  notAText: () => "Expected was a text in quotation marks that is not empty.",
  notANumber: () => "Expected was a number, without quotation marks and with a point before decimals.",
  notPositive: () => "Expected was a number above zero, from 0.000000001 to 1 000 000 000.",
  notAFraction: () => "Expected was a fraction above 0 and below 1: write 0.02 for 2 %.",
  confidence: () => "The confidence lies from 0.5 to under 1: write 0.95 for 95 %, an error of 5 %.",
  hydrogen: () =>
    "Expected was hydrogen in per cent of the dry fuel, from 0 to 20: wood has about 6, so write 6, not 0.06.",
  trials: () => "Expected was a whole number of trials from 1 to 10 000 000, or 0 for no Monte Carlo.",
  adaptive: () => "Expected was true or false: with true, drawing stops as soon as the results are stable.",
  seed: () => "Expected was a whole number from 0 to 9 007 199 254 740 991.",
  date: () => "Expected was a day as year-month-day: 2026-03-14.",
  emptyMass: () => "Expected was the mass of the empty pot in g, above zero and up to 1 000 000: write 450 for 450 g.",
  volume: () => "Expected was what the pot holds in litres, above zero and up to 1 000.",
  altitude: () => "Expected was an altitude in m above sea level at which people cook, from -500 to 9 000.",
  pressure: () =>
    "Expected was the air pressure of the place in kPa, from 30 to 110, not reduced to sea level: write 89.9 for 899 hPa.",
  untilBeforeFrom: ({ from, until }: { from: string; until: string }) =>
    `The calibration ends (${until}) before it begins (${from}). Correct one of the two days.`,
  choice: ({ known }: { known: readonly string[] }) => `Expected was one of ${list(known)}.`,
  oneSize: ({ known }: { known: readonly string[] }) =>
    `A component has exactly one size: one of ${list(known)}. Give one and remove the others.`,
  coverageFactor: () =>
    "coverageFactor belongs to expandedUncertainty or relativeExpandedUncertainty, and these need it. Add it, or remove it.",
  normalHalfWidth: () =>
    "A normal distribution has no half-width. Give standardUncertainty, or expandedUncertainty with coverageFactor; or name the distribution rectangular or triangular.",
  shorthandBeside: () =>
    "resolution and standardUncertainty stand here in place of components, not beside them. Write all as components.",
  noComponents: () => "Expected was components, resolution or standardUncertainty.",
  netOrGross: () =>
    "A fuel has either netCalorific or grossCalorific (with hydrogenPercent where it is known): give one of the two.",
  aliasCircle: ({ role }: { role: string }) =>
    `${role} refers back to itself in the end. Describe the instrument once and let the other roles name that role.`,
  aliasNowhere: ({ role }: { role: string }) =>
    `It names ${role}, for which no instrument is described. Describe that instrument, or name another role.`,
};
