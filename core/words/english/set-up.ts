import type { CatalogueFuelName } from "../../fuel/fuel-catalogue.ts";
import { shorten } from "../shorten.ts";
import { count } from "./screens/count.ts";
import { errorFields, errorWork } from "./set-up-errors.ts";
import { assumedCharWords, startingValueWords } from "./starting-values.ts";

const quoted = (text: string) => `“${shorten(text, 60)}”`;
const runs = (n: number) => count(n, "run", "runs");

/** Names of fields, with their help: what it is, how to find it, what it is used for. */
const fields = {
  ...errorFields,
  variantName: {
    name: "variant",
    what: "What this form of the stove is called on sheets, in charts and in the report: “with skirt, gap 8 mm”. When it is renamed, its runs stay with it.",
  },
  variantOrder: {
    name: "place in the list",
    what: "Where the variant stands in this list and in the one on the Bench: 1 is first. Charts keep the order in which the variants were first run.",
  },
  factor: (factor: string) => ({
    name: factor,
    what: `The level of the design factor ${quoted(factor)}: a number in the unit that its name says, or a word such as “yes”. Runs of the variant have it unless their own row says otherwise. Comparisons show it; the report lists it.`,
  }),
  fuelName: {
    name: "fuel",
    what: "What the fuel is called on sheets: species, form, where it is from. A run's fuel of this name takes its calorific value from here, unless the run's row has one of its own. When it is renamed, it is renamed in the runs, too.",
  },
  fuelBasis: {
    name: "net or gross",
    what: "Net (lower): water leaves as steam; what a stove can use. Gross (higher): water is condensed; what a bomb calorimeter gives. A certificate says which. From gross, net is worked out with the hydrogen.",
  },
  fuelCalorific: {
    name: "calorific value, dry",
    what: "Energy of a kilogram of bone-dry fuel, in kJ/kg: 18400 for 18.4 MJ/kg. From a bomb calorimeter, a supplier's analysis, or the table of fuels. Efficiency, power and dry fuel rest on it.",
  },
  fuelHydrogen: {
    name: "hydrogen",
    what: "Hydrogen in per cent of the dry fuel, from an elemental analysis; wood has about 6. Needed to get the net from the gross value: left empty, 6 is taken and said in the report.",
  },
  fuelUncertainty: {
    name: "standard uncertainty",
    what: "How far the calorific value may be off, as a standard uncertainty in kJ/kg: half of a certificate's expanded uncertainty where k = 2. It is one error for all runs of the fuel.",
  },
  fuelSource: {
    name: "source",
    what: "Where the value is from: laboratory and number of the analysis, or the table. The report shows it beside the fuel.",
  },
  potName: { name: "pot", what: "What the pot is called in the laboratory: its size, its material, the number on it." },
  potEmpty: {
    name: "empty mass",
    what: "The pot empty, clean and dry, without its lid, in g. The Bench offers it, and a run whose pot 1 weighs something else is asked about.",
  },
  potVolume: {
    name: "volume",
    what: "What the pot holds to the brim, in litres. For the record; nothing is computed from it.",
  },
  resolution: {
    name: "resolution",
    what: "The smallest step of the display: 1 for a balance that shows whole grams. Each reading is off by up to half of it, anew each time. Who knows nothing else fills in this alone.",
  },
  standard: {
    name: "standard uncertainty",
    what: "What the certificate gives as uncertainty in the unit of the reading, divided by its coverage factor k (mostly 2). One error for all readings. For a balance it cancels between two weighings: what matters there stands in per cent.",
  },
  relative: {
    name: "of the reading",
    what: "The standard uncertainty in per cent of the reading: of a balance, the certificate's uncertainty near the usual load, divided by k and by the load. One error for all readings.",
  },
  sameAs: {
    name: "same as",
    what: "Where one instrument does two jobs, describe it once and name it here: its error is then the same in both.",
  },
  calibrationInstrument: {
    name: "instrument",
    what: "Which instrument was calibrated. It must be set up above; one that is the same as another is calibrated with it.",
  },
  calibrationFrom: {
    name: "from",
    what: "The day of the calibration, as year-month-day. Runs before it, where no other calibration is in force, are asked about.",
  },
  calibrationUntil: {
    name: "until",
    what: "The last day on which it is in force: the certificate's, or what the laboratory's rules say. Empty: no end.",
  },
  certificate: { name: "certificate", what: "Number of the certificate and the laboratory that gave it." },
  placeName: { name: "place", what: "Where the tests are made." },
  placeAltitude: {
    name: "altitude",
    what: "Metres above sea level, from a map or a phone. The boiling point is worked out from it through the standard atmosphere (ISO 2533). The Bench offers it; a run takes nothing from here by itself, its own row says where it boiled.",
  },
  placePressure: {
    name: "air pressure",
    what: "As it usually is at the place, in kPa (1 kPa = 10 hPa), from a barometer on the spot; not the weather report's, which is reduced to sea level. It counts before the altitude.",
  },
  method: {
    name: "method",
    what: "The procedure that the study follows. Runs say by the names of their phases which one they follow; those of the other method are worked out by their own formulas, and asked about.",
  },
  confidence: {
    name: "confidence",
    what: "How sure the intervals are to hold the true value, in per cent: 95 is usual, 90 for ISO 19867-1. A higher one makes all intervals wider, and a difference harder to show.",
  },
  charCalorific: {
    name: "calorific value of char",
    what: "Net, dry, in kJ/kg. The Water Boiling Test takes 29500 where nothing was measured (from memory). The energy of the char that is left is taken off the fuel's.",
  },
  charUncertainty: {
    name: "its standard uncertainty",
    what: "How far the char's value may be off, in kJ/kg: one error for all runs.",
  },
};

/** What the service says of what is set up for a study. */
export const setUpWork = {
  ...errorWork,
  fields,
  startingValues: startingValueWords,
  assumedChar: assumedCharWords,
  /** As the record of edits names them, in front of a name. */
  subjects: {
    variant: "variant",
    fuel: "fuel",
    pot: "pot",
    instrument: "instrument",
    error: "error",
    calibration: "calibration of",
    place: "place",
  },
  sections: {
    variant: {
      title: "Variants",
      sentence: "The forms of the stove that are compared, and what sets them apart.",
      add: "Add a variant",
      addField: "Add a design factor",
    },
    fuel: {
      title: "Fuels",
      sentence:
        "What is burnt, with its calorific value. Values of the table are estimates: an analysis of your own is better.",
      add: "Add a fuel",
    },
    pot: { title: "Pots", sentence: "The pots that are used, with their mass when empty.", add: "Add a pot" },
    instrument: {
      title: "Instruments",
      sentence:
        "What was measured with, and how far it may be off: a resolution is enough to begin with, and usual errors can be taken over below. Where nothing is given, its readings count as exact. Calibration certificates and other errors are entered one by one under Errors.",
    },
    error: {
      title: "Errors",
      sentence:
        "Everything that makes instruments, calorific values and hydrogen uncertain, one by one: what stands above in short, and whatever a certificate says besides. Errors that are new at each reading average out over runs; those that all readings share do not.",
      add: "Add an error",
    },
    calibration: {
      title: "Calibrations",
      sentence: "When each instrument was calibrated. A run on a day on which none was in force is asked about.",
      add: "Add a calibration",
    },
    place: { title: "Place", sentence: "Where the tests are made, and where water boils there." },
    study: { title: "Method", sentence: "What the results are worked out by." },
    monteCarlo: {
      title: "Monte Carlo",
      sentence:
        "Uncertainties are worked out in first order, and by drawing all errors many times over: where the two differ, the draws count.",
    },
  },
  factorSuggestions: ["gap mm", "skirt mm"],
  catalogueFuels: {
    broadLeafWood: "broad-leaved wood",
    coniferousWood: "coniferous wood",
    eucalyptus: "eucalyptus",
    acacia: "acacia",
    blackLocust: "black locust (robinia)",
    poplar: "poplar",
    willow: "willow",
    bamboo: "bamboo",
    maizeStalks: "maize stalks",
    wheatStraw: "wheat straw",
    bagasse: "sugar cane bagasse",
    hullsAndShells: "hulls and nut shells",
    riceHusk: "rice husk",
    cattleDung: "cattle dung, dried",
    charcoal: "charcoal",
  } satisfies Record<CatalogueFuelName, string>,
  bases: { net: "net", gross: "gross" },
  percentUnit: "%",
  litre: "L",
  roleIn: (role: string, unit: string) => `${role}, ${unit}`,
  none: "no other",

  usedIn: (n: number) => (n === 0 ? "no runs yet" : `used in ${runs(n)}`),
  runsOf: (n: number) => (n === 0 ? "planned: no runs yet" : runs(n)),
  levelDiffers: (factor: string, n: number) => `${runs(n)} with a level of ${quoted(factor)} of their own`,
  notCounted: "runs are still being counted",
  standard: (value: string, unit: string) => `standard uncertainty ${value} ${unit}`,
  standardOf: (parts: readonly string[]) => `standard uncertainty ${parts.join(" and ")}`,
  amount: (value: string, unit: string) => `${value} ${unit}`,
  ofReading: (percent: string) => `${percent} % of the reading`,
  share: (percent: string) => `${percent} % of the value`,
  noUncertainty: "no uncertainty given: it counts as exact",
  further: (components: string) => `further errors, under Errors: ${components}`,
  sameAs: (role: string) => `the same instrument as: ${role}`,
  notSetUp: "not set up: its readings count as exact",
  calibrations: (n: number) => count(n, "calibration", "calibrations"),
  offered: "offered on the Bench",
  onItsDays: (n: number) => (n === 0 ? "no runs on its days" : `${runs(n)} on its days`),
  ofChar: (uncertainty: string) => `char: ${uncertainty}`,
  calibrateOther: (role: string, other: string) =>
    `The ${role} is the same instrument as the ${other}. Enter the calibration for that one.`,
  boils: (celsius: string) => `water boils at ${celsius} °C`,
  fromPressure: "by the air pressure, which counts before the altitude",
  noBoilingPoint: "no altitude or pressure yet: the boiling point is not known",
  otherMethod: (n: number, other: string) => `${runs(n)} of ${other}: asked about`,

  /** What is wrong with what was typed, behind the name of its field. */
  at: (field: string, message: string) => `${field}: ${message}`,
  empty: (field: string) => `${field} cannot be empty. Fill it in.`,
  nameTaken: (what: string, name: string) => `There is a ${what} ${quoted(name)} already. Choose another name.`,
  notAChoice: (field: string) => `${field}: this cannot be chosen. Look at the list again.`,
  noSuchField: "This cannot be set up here. Look at the page again.",
  gone: "It is not there any more: it was removed in another window, or by an undo. Look at the page again.",
  percentRange: "Expected was a per cent value above 0 and below 100: write 0,1 or 0.1 for one in a thousand.",
  confidenceRange:
    "The confidence lies from 50 to under 100 %: write 95 for intervals that hold the true value 95 times in a hundred.",
  orderRange: (last: string) => `Expected was a whole number from 1 to ${last}.`,
  untilBeforeFrom: "It ends before it begins. Correct one of the two days.",
  isSameAs: (role: string, other: string) =>
    `The ${role} is the same instrument as the ${other}: change it there, or first empty “same as”.`,
  sameAsItself: "An instrument cannot be the same as itself. Choose another one.",
  sameAsMissing: (other: string) =>
    `The ${other} is not set up yet, so nothing can be the same as it. Set it up first.`,
  sameAsChain: (role: string, other: string) =>
    `The ${other} is the same instrument as the ${role} already. Describe one of the two, and let the other name it.`,
  sameAsCalibrated: (role: string) =>
    `The ${role} has calibrations of its own, which would be lost. Remove them first, or enter them for the other one.`,

  variantUsed: (name: string, n: number, where: string) =>
    `The variant ${quoted(name)} has ${runs(n)} (${where}). Move them to another variant in Runs first; a run that should not count is left out there.`,
  fuelUsed: (name: string, n: number, where: string) =>
    `The fuel ${quoted(name)} is named in ${runs(n)} (${where}), which would lose their calorific value. Name another fuel there first.`,
  fuelNamedInRuns: (name: string, n: number, where: string) =>
    `${runs(n)} (${where}) ${n === 1 ? "names" : "name"} a fuel ${quoted(name)} already, and would be mixed with these. Choose another name.`,
  instrumentUsed: (role: string, other: string) =>
    `The ${other} is the same instrument as the ${role}. Describe the ${other} first, or choose another one for it.`,
  and: (names: readonly string[], more: number) => `${names.join(", ")}${more > 0 ? `, and ${more} more` : ""}`,
};
