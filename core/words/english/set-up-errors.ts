import { count } from "./screens/count.ts";

/** The fields of an error that is entered by itself, and of the Monte Carlo part: what each is, how to find it, what it is for. */
export const errorFields = {
  errorOf: {
    name: "error of",
    what: "Which instrument or value may be off. An instrument that is the same as another has that one's errors. Hydrogen and calorific values of fuels are listed once the fuel has them; an instrument need not be set up before.",
  },
  errorName: {
    name: "name",
    what: "A name for this one error: resolution, gain, offset, repeatability, the certificate. The budget of the uncertainty lists it under this name.",
  },
  errorSize: {
    name: "size",
    what: "How large the error may be: the number of the certificate, the data sheet or half a digit of the display. The next two columns say what number it is.",
  },
  errorIn: {
    name: "in",
    what: "Whether the size is in its unit, that of the reading (g, °C, kJ/kg), the same at every reading, or in per cent of the reading, growing with it. A balance's resolution is in g; its gain is in per cent.",
  },
  errorGiven: {
    name: "given as",
    what: "Half-width: the error lies within ± this, as a tolerance or half a digit of a display. Standard uncertainty: as wide as a standard deviation. Expanded uncertainty: what a calibration certificate gives, with its coverage factor k.",
  },
  coverageFactor: {
    name: "k",
    what: "The coverage factor of an expanded uncertainty, as the certificate says; mostly 2. The standard uncertainty is the size divided by k. Empty for the others.",
  },
  distribution: {
    name: "distribution",
    what: "Normal: small errors are likelier than large ones, as with a certificate. Rectangular: all within the half-width are alike, as with a display's rounding or a tolerance. Triangular: within the half-width, and near the middle likelier.",
  },
  errorKind: {
    name: "kind",
    what: "Independent: new at each reading. A balance's resolution rounds each weighing anew, so many readings average it out. Shared: one for all readings. A balance's gain makes every weighing too heavy by the same share, in all runs; more runs do not help, but it cancels, in part or whole, between variants that were tested with it. Of a difference of two weighings, a shared error in g drops out altogether; a gain does not.",
  },
  degreesOfFreedom: {
    name: "degrees of freedom",
    what: "Of a standard uncertainty that came from few readings: their number less one. A normal error is then drawn as a scaled t, whose tails are longer; with the other distributions it counts in the effective degrees of freedom alone. Empty: known well, as a certificate or a display is.",
  },
  source: {
    name: "source",
    what: "Where the numbers are from: certificate, data sheet, standard, or what was tried. It is kept with the instrument.",
  },
  charSource: {
    name: "source",
    what: "Where the char's value and its uncertainty are from: an analysis of your own char, or the table.",
  },
  trials: {
    name: "trials",
    what: "How often the whole study is drawn anew to see how far its results scatter: 200000 is usual, 1000000 gives ends of intervals to a digit more, 0 leaves it out. With the stop when stable it is the most that is drawn (JCGM 101:2008, 7.2 and 7.9).",
  },
  seed: {
    name: "seed",
    what: "A whole number that the draws begin from: the same number gives the same draws, on every machine. Another one shows how much of a result is chance.",
  },
  adaptive: {
    name: "stop",
    what: "When drawing ends: after all trials, or as soon as mean, standard deviation and ends of the intervals are stable in their second digit (the adaptive procedure of JCGM 101:2008, 7.9).",
  },
};

/** What the service says of errors that are entered one by one, and of Monte Carlo. */
export const errorWork = {
  /** A value of a fuel, as that which an error is of. */
  calorificOf: (fuel: string) => `${fuel}: calorific value`,
  hydrogenOf: (fuel: string) => `${fuel}: hydrogen`,
  charCalorific: "char: calorific value",
  /** An error by its name and what it is of, where it is spoken of. */
  errorCalled: (name: string, of: string) => `${name}, ${of}`,
  sizeIn: { absolute: "its unit", relative: "% of reading" },
  sizeGiven: { halfWidth: "half-width", standardUncertainty: "standard", expandedUncertainty: "expanded" },
  distributions: { rectangular: "rectangular", triangular: "triangular", normal: "normal" },
  kinds: { independent: "independent", shared: "shared" },
  independentPart: (amount: string) => `new at each reading: ${amount}`,
  sharedPart: (amount: string) => `shared by all readings: ${amount}`,
  allIndependent: "all of it new at each reading",
  allShared: "all of it shared by all readings",
  amounts: (parts: readonly string[]) => parts.join(" and "),
  ofValue: (percent: string) => `${percent} % of the value`,
  scaled: (degrees: string, factor: string) =>
    `drawn as t with ${degrees} degrees of freedom, whose standard deviation is ${factor} times that`,
  scaledWithout: (degrees: string) =>
    `drawn as t with ${degrees} degrees of freedom, which has no finite standard deviation: its intervals are very wide`,
  normalHalfWidth:
    "A normal distribution has no half-width. Choose standard or expanded uncertainty first, or another distribution.",
  factorWithoutExpanded: "k belongs to an expanded uncertainty. Choose that under “given as” first, or leave k empty.",
  factorNeeded: "An expanded uncertainty needs its k, mostly 2: the certificate says it.",
  errorNameTaken: (of: string, name: string) => `There is an error “${name}” of ${of} already. Choose another name.`,
  errorSameAs: (role: string, other: string) =>
    `The ${role} is the same instrument as the ${other}. Enter the error for that one.`,
  adaptiveChoices: { no: "after all trials", yes: "when stable" },
  noMonteCarlo: "no Monte Carlo: uncertainties are of first order alone",
  allTrials: (trials: string) => `${trials} trials`,
  trialsAtMost: (trials: string) => `at most ${trials} trials, fewer where results are stable before`,
  fewTrials: (trials: string, least: string) =>
    `${trials} trials are too few for the ends of intervals at this confidence: ${least} or more are advised (JCGM 101:2008, 7.2)`,
  startingFor: "for",
  startingLabel: "instrument",
  startingErrors: "its errors",
  errors: (n: number) => count(n, "error", "errors"),
};
