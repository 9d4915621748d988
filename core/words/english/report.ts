import { shorten } from "../shorten.ts";

const runs = (count: number) => (count === 1 ? "1 run" : `${count} runs`);
const quoted = (name: string) => `“${shorten(name)}”`;
/** What an interval holds beside run-to-run scatter. */
const holding = (withErrors: boolean) => (withErrors ? ", instruments’ errors included" : "");

/** The report's own words. Amounts and intervals come formatted. */
export const report = {
  kind: "Boil-test report",
  program: (version: string) => `Boilbench ${version}`,
  example: "Invented example: not real tests",
  subject: "Boil tests of a wood-burning stove",
  pageOf: (page: number, pages: number) => `${page} of ${pages}`,
  foot: (method: string, program: string, digest: string | null) =>
    [`Method: ${method}`, `analysis: ${program}`, ...(digest === null ? [] : [`readings SHA-256 ${digest}`])].join(
      " · ",
    ),

  questionPair: (label: string, variant: string, baseline: string) =>
    `Does ${quoted(variant)} differ from ${quoted(baseline)} in ${label}?`,
  questionSeveral: (label: string, baseline: string) => `Which variants differ from ${quoted(baseline)} in ${label}?`,
  questionOne: (label: string) => `What was found for ${label}?`,

  /** "The difference lies between …" is the finding itself where the runs cannot tell. */
  pairLead: (level: string, range: string, variant: number, baseline: number, withErrors: boolean) =>
    `The ${level} % interval is ${range}${holding(withErrors)}, from ${runs(variant)} against ${baseline}.`,
  pairLeadOpen: (level: string, variant: number, baseline: number, withErrors: boolean) =>
    `That is the ${level} % interval${holding(withErrors)}, from ${runs(variant)} against ${baseline}.`,
  pairLeadNoInterval: (variant: number, baseline: number, because: string) =>
    `From ${runs(variant)} against ${baseline}: ${because}.`,

  oneVariant: (variant: string, label: string, value: string) => `${quoted(variant)}: ${label} ${value}.`,
  oneVariantInterval: (level: string, range: string, count: number) =>
    `${level} % interval ${range}, from ${runs(count)}. With one variant there is nothing to compare.`,
  oneVariantNoInterval: (count: number) =>
    `From ${runs(count)}; no interval. With one variant there is nothing to compare.`,
  nothing: "These readings give no result that could be compared.",
  nothingLead: "The annex says of each run what is missing and why.",
  noRunsCount: "Every run was left out, so there is nothing to compare.",
  noRunsCountLead: "The annex says of each why.",

  /** "All 3 other variants used less wood for 5 litres than “A”." */
  severalAll: (count: number, phrase: string, baseline: string) =>
    `${count === 2 ? "Both" : `All ${count}`} other variants ${phrase} than ${quoted(baseline)}.`,
  severalNone: (count: number, label: string, baseline: string) =>
    `These runs cannot tell ${count === 2 ? "either of the other variants" : `any of the ${count} other variants`} from ${quoted(baseline)} in ${label}.`,
  /** "Of 3 other variants, 1 used less wood for 5 litres than “A”; 2 cannot be told from it." */
  severalMixed: (
    count: number,
    baseline: string,
    parts: readonly { count: number; phrase: string }[],
    open: number,
  ) => {
    const sure = parts.map((part) => `${part.count} ${part.phrase}`).join(" and ");
    const rest = open === 0 ? "" : `; ${open} cannot be told from it`;
    return `Of ${count} other variants, ${sure} than ${quoted(baseline)}${rest}.`;
  },

  severalLead: (items: string, level: string) => `${items}. All at ${level} % confidence, one by one.`,
  range: (lower: string, upper: string) => `${lower} to ${upper}`,

  chartCaption: (level: string, anyLeftOut: boolean) =>
    `Each shape is one run. Bars are means with ${level} % intervals${anyLeftOut ? "; runs that were left out are crossed and do not count" : ""}.`,
  variantsTable: "Variants",
  variantsNote: (level: string, withErrors: boolean, anySingle: boolean) =>
    withErrors
      ? `Mean ± half-width of the ${level} % interval, from run-to-run scatter and the errors that all runs share${anySingle ? "; of a single run from its readings’ errors alone" : ""}.`
      : `Mean ± half-width of the ${level} % interval, from run-to-run scatter. Without ±: one run, or no variation.`,
  changeColumn: "change",
  changeColumnIn: (unit: string) => `change, ${unit}`,
  variantColumn: "variant",
  /** Runs that have the quantity, of those that count. */
  runsOf: (having: number, all: number) => (having === all ? String(all) : `${having} of ${all}`),
  runsColumn: "runs",
  quantityColumn: "quantity",
  none: "–",

  before: "Before you rely on it",
  /** "1 run and 2 rows of the file were left out; 3 questions are open: see the annex."; null where there is nothing to say. */
  leftOutAndOpen: (runCount: number, rowCount: number, questions: number) => {
    const leftOut = [
      ...(runCount === 0 ? [] : [runs(runCount)]),
      ...(rowCount === 0 ? [] : [rowCount === 1 ? "1 row of the file" : `${rowCount} rows of the file`]),
    ];
    const parts = [
      ...(leftOut.length === 0
        ? []
        : [`${leftOut.join(" and ")} ${runCount + rowCount === 1 ? "was" : "were"} left out`]),
      ...(questions === 0
        ? []
        : [
            questions === 1
              ? `${leftOut.length === 0 ? "One" : "one"} question is open`
              : `${questions} questions are open`,
          ]),
    ];
    return parts.length === 0 ? null : `${parts.join("; ")}: see the annex.`;
  },
  notShown: "What this does not show",
  notShownText:
    "A boil test compares stoves under laboratory conditions. It does not predict how much wood a kitchen will save, and ratings here are not a certification.",
  cautions: "Cautions",
  cautionTexts: [
    "Burning fuel gives off carbon monoxide, which kills without warning: test outdoors or under an extraction hood with a CO alarm.",
    "Hot char re-ignites; boiling water and hot metal burn.",
    "Follow the laboratory’s safety rules, local codes and licensed practice.",
  ],

  everything: "Everything measured",
  everythingCaption: (part: number, parts: number) =>
    parts === 1 ? "Means of each variant" : `Means of each variant, part ${part} of ${parts}`,
  formulaOnlyMark: "formula only",
  notForRankingMark: "not for ranking",
  differencesCaption: (label: string, baseline: string) =>
    `Differences in ${label}: each variant against ${quoted(baseline)}`,
  differenceColumns: {
    difference: "difference (Welch)",
    ratio: "ratio of means (Fieller)",
    t: "t",
    degreesOfFreedom: "degrees of freedom",
    p: "p",
  },
  interval: (value: string, lower: string, upper: string) => `${value} (${lower} to ${upper})`,
  smallP: (limit: string) => `< ${limit}`,
  runByRun: "Run by run",
  runByRunCaption: "Every run, in the order of the readings",
  runColumn: "run",
  dateColumn: "date",
  blockColumn: "block",
  statusColumn: "counts",
  counts: "yes",
  doesNotCount: "left out",
  notFinished: "not finished",
  runByRunElsewhere: (count: number) =>
    `There are ${count} runs, too many to print here. The table of runs (runs.csv) and all results (results.json) hold each of them with every quantity.`,

  leftOut: "What was left out, and why",
  nothingLeftOut: "No run and no row was left out.",
  leftOutRun: (run: string, variant: string, reason: string) => `Run ${run} (${quoted(variant)}): ${reason}`,
  notFinishedRuns: (runs: string) => `Not finished, still on the Bench: ${runs}. They do not count yet.`,
  leftOutRow: (file: string, row: number, reasons: string) => `${file}, row ${row}: ${reasons}`,
  missing: "Results that could not be computed",
  missingOf: (run: string, items: string) => `${run}: ${items}`,
  missingItem: (labels: string, because: string) => `${labels} (${because})`,
  missingMore: (labels: string, more: number) => (more === 0 ? labels : `${labels} and ${more} more`),
  questions: "Questions",
  noQuestions: "No reading looked odd.",
  noOpenQuestions: "No question is open.",
  answeredQuestions: "Answered questions",
  answeredQuestion: (question: string, because: string, who: string, day: string) =>
    `${question} It is right, because: ${because} (${who}, ${day})`,
  questionOf: (where: string, message: string) => (where === "" ? message : `${where}: ${message}`),
  more: (count: number) => `and ${count} more, in results.json`,
  notes: "Notes",

  ratings: "Ratings",
  ratingsCaption: "Tiers of the mean, and of the unfavourable end of its interval",
  ratingColumns: {
    scheme: "scheme",
    tier: "tier",
    atLimit: "at the unfavourable end",
    probability: "probability of this tier",
  },
  probability: (percent: string) => `${percent} %`,

  method: "Method",
  methodTexts: {
    wbt: "Runs follow the Water Boiling Test protocol, version 4.2.3 (2014): cold start, hot start, simmer. Water remaining at the simmer is the sum over pots of what is left (from memory: editions differ).",
    iso: "Runs follow ISO 19867-1:2018: high, medium and low power. The specific heat is 4.18 kJ/(kg·K), the latent heat that of the local boiling point. That method asks for at least five replicates and 90 % confidence (from memory).",
  },
  statistics: (level: string) =>
    `Means have t intervals at ${level} % confidence. Two variants are compared by Welch’s method (variances not taken as equal); the ratio of means has Fieller’s interval with separate variances and Satterthwaite’s degrees of freedom at the estimate. The method follows from the design, not from a test on the data.`,
  boilingPoint:
    "The local boiling point is the one measured; else it follows from the pressure (IAPWS-IF97, region 4), or from the altitude through the standard atmosphere (ISO 2533). Latent heat at boiling: IAPWS-IF97, regions 1 and 2.",
  /** What the uncertainty of the headline is made of. */
  sure: {
    heading: "How sure, and why",
    difference: (variant: string, baseline: string) => `The difference, ${quoted(variant)} minus ${quoted(baseline)}`,
    leastSure: (variant: string, baseline: string) =>
      `The least sure of these differences, ${quoted(variant)} minus ${quoted(baseline)}`,
    mean: (variant: string) => `The mean of ${quoted(variant)}`,
    single: (variant: string) => `The one run of ${quoted(variant)}`,
    is: (what: string, value: string, coverage: string, withScatter: boolean) =>
      withScatter
        ? `${what}, is ${value} (${coverage}), run-to-run scatter and the stated errors of instruments and values taken together.`
        : `${what}, is ${value} (${coverage}), from the stated errors of instruments and values; how far single runs scatter is not in it.`,
    differenceOf: (label: string, variant: string, baseline: string) =>
      `${quoted(variant)} minus ${quoted(baseline)}, ${label}. Hatched: scatter of runs; filled: shared errors, as far as they do not cancel.`,
    meanOf: (label: string, variant: string) =>
      `${quoted(variant)}, ${label}. Hatched: scatter of runs; filled: errors of instruments and values.`,
    /** What holds for a mean, where it is not what holds for the difference. */
    alone: (variant: string, value: string, advice: string) => `${quoted(variant)} by itself, ${value}: ${advice}`,
    nothingLeft:
      "Nothing is left of the uncertainty of the difference: these runs do not scatter, and the errors that both share cancel.",
    hull: "Where scatter alone gives the wider interval (with few runs it can), findings and means keep that: counting a further error must not make anybody surer.",
    overview: (label: string, baseline: string, level: string) =>
      `Differences in ${label} from ${quoted(baseline)} with all that makes them unsure, at ${level} %`,
    withoutScatter: (variants: readonly string[]) =>
      `${variants.map(quoted).join(", ")}: with a single run on one side its scatter is not known and not included, so how sure this is cannot be said.`,
    moreDifferences: (count: number) => `${count} more are in results.json.`,
    columns: {
      part: "part",
      detail: "what it holds",
      share: "share",
      alone: "alone",
      halved: "if it were halved, the whole",
      difference: (unit: string) => (unit === "" ? "difference" : `difference, ${unit}`),
      scatter: "from scatter",
      shared: "from shared errors",
      shareOfScatter: "scatter’s share of the variance",
    },
  },
  runsNote: (level: string) => `±: expanded uncertainty of the run alone at ${level} %, first order.`,
  runsNoteMonteCarlo: "In brackets: Monte Carlo’s interval, where first order does not describe it.",
  runInterval: (value: string, lower: string, upper: string) => `${value} (${lower} to ${upper})`,
  scatterAlone: "From run-to-run scatter alone.",

  /** How uncertainties were worked out. */
  uncertaintyOfRuns:
    "Uncertainty of a run: each reading has the errors of its instrument, new at each reading or one and the same wherever it enters (a balance’s gain, a thermometer’s offset, a calorific value). Derivatives of the formulas below (automatic differentiation) combine them, with the correlations that shared errors make (JCGM 100:2008, 5.1.2, 5.2.2); degrees of freedom after Welch and Satterthwaite over independent sources (G.4.1), coverage factors from Student’s t (G.3.2).",
  uncertaintyOfMeans:
    "Of means, differences and ratios: run-to-run scatter, s²/n, which holds the errors new at each reading (counted apart for a single run only), and the shared errors with their signs, so that they cancel as far as they move both variants alike. The ratio has Fieller’s interval with their covariance. No interval that is shown is narrower than scatter alone makes it.",
  monteCarlo: (trials: string, seed: number) =>
    `Monte Carlo (JCGM 101:2008, clause 7): ${trials} trials of each run, seed ${seed}, shared errors drawn once a trial; probabilistically symmetric intervals.`,
  monteCarloAdaptive: (trials: string, seed: number) =>
    `Monte Carlo (JCGM 101:2008, clause 7): trials until the results of a run are stable to two digits (7.9), at most ${trials}, seed ${seed}, shared errors drawn once a trial; intervals are the probabilistically symmetric ones.`,
  /** Of the results of all runs how many agree with first order, do not, and are left open. */
  validation: (agree: string, differ: string, open: string) =>
    `Beside first order at one significant digit, at two where trials are stable to two (clause 8): ${agree} results of runs agree, ${differ} do not, ${open} are left open.`,
  notSimulated:
    "No Monte Carlo was run for this report: uncertainties of runs are first-order, and not validated by it (JCGM 101:2008, clause 8).",
  errorsNotStated:
    "No errors of instruments or calorific values are stated, so intervals say nothing of them. State them under Study, Set up (a balance, a thermometer, a meter, a calorific value: starting values are offered), or as “instruments”, “fuels” and “char” in the settings file: results, means and differences then carry them, and the report says which instrument matters.",
  constantsCaption: "Fixed by the procedures, or assumed",
  constantColumns: { constant: "constant", value: "value", source: "source" },
  constantNames: {
    specificHeatOfWaterWbt: "specific heat of water (WBT)",
    latentHeatInFuelMoisture: "latent heat of the wood’s moisture",
    latentHeatOfEvaporatedWater: "latent heat of water boiled off (WBT)",
    referenceTemperatureRise: "reference rise in temperature",
    taskVolume: "water of the task",
    densityOfWater: "density of water",
    specificHeatOfWaterIso: "specific heat of water (ISO)",
    latentHeatAsReceived: "latent heat, as received",
    latentHeatAt25C: "latent heat of water at 25 °C",
    waterFromHydrogen: "water from hydrogen",
    hydrogenOfWood: "hydrogen of wood, where not given",
    charNetCalorific: "net calorific value of char, where not given",
  },
  settings: "Fuels and settings",
  settingColumns: { what: "what", detail: "as stated" },
  formulasCaption: (source: string) => `Formulas of the quantities shown. Source, where none is named: ${source}`,
  formulaWithSource: (formula: string, source: string) => `${formula} (${source})`,
  formulaColumns: { quantity: "quantity", formula: "formula" },
  formulaSymbols:
    "fm: wood as fired, g; m: moisture, wet basis; d: dry basis; LHV: net calorific value of the dry wood, kJ/kg; LHVc: of char; dC: char formed, g; fd: equivalent dry wood, g; wv: water evaporated, g; wr: effective water boiled, or water remaining, g; Q: heat gained by the water; Q1: useful energy; t: duration, min; Ta: air, Tb: boiling, Tstart and Tend: water, °C; start, end, empty: pot, g; SC: specific fuel, SE: specific energy consumption.",
  inputsCaption: "Inputs: the files this report was made from",
  inputColumns: { file: "file", digest: "SHA-256" },
};

/** What the settings say, in words. */
export const settingsWords = {
  netCalorific: (value: string) => `net calorific value ${value} kJ/kg, dry`,
  grossCalorific: (value: string) => `gross calorific value ${value} kJ/kg, dry`,
  hydrogen: (value: string) => `hydrogen ${value} % of the dry fuel`,
  char: "char",
  source: (text: string) => `source: ${text}`,
  fuelUnnamed: "fuel",
  fromReadings: "calorific value written in the readings",
  unknownCalorific: "no calorific value known",
  roles: {
    fuelBalance: "balance for fuel and char",
    potBalance: "balance for pots",
    thermometer: "thermometer",
    moistureMeter: "moisture meter",
    clock: "clock",
    barometer: "barometer",
    altitude: "altitude",
    hydrogen: "hydrogen",
    co: "carbon monoxide",
    pm25: "fine particles",
  },
  /** Unit of each instrument's errors. */
  units: {
    fuelBalance: "g",
    potBalance: "g",
    thermometer: "°C",
    moistureMeter: "percentage points",
    clock: "s",
    barometer: "kPa",
    altitude: "m",
    hydrogen: "percentage points",
    co: "g",
    pm25: "mg",
  },
  calorificUnit: "kJ/kg",
  hydrogenUnit: "percentage points",
  withUnit: (value: string, unit: string) => `${value} ${unit}`,
  sameAs: (role: string) => `the same instrument as: ${role}`,
  components: (names: string) => `errors: ${names}`,
  component: (name: string, size: string, kind: "independent" | "shared") =>
    `${size.startsWith(name) ? size : `${name} ${size}`} (${kind === "shared" ? "shared by all" : "new each time"})`,
  sizes: {
    standardUncertainty: (value: string) => `standard uncertainty ${value}`,
    relativeStandardUncertainty: (value: string) => `standard uncertainty ${value} of the reading`,
    halfWidth: (value: string) => `± ${value}`,
    relativeHalfWidth: (value: string) => `± ${value} of the reading`,
    expandedUncertainty: (value: string, factor: string) => `expanded uncertainty ${value}, k\u00a0=\u00a0${factor}`,
    relativeExpandedUncertainty: (value: string, factor: string) =>
      `expanded uncertainty ${value} of the reading, k\u00a0=\u00a0${factor}`,
  },
  exact: "no error stated",
};
