import { shorten } from "../shorten.ts";

const quoted = (name: string) => `“${shorten(name)}”`;
const list = (names: readonly string[]) => names.map(quoted).join(", ");
const runs = (count: number) => (count === 1 ? "1 run" : `${count} runs`);
const variants = (count: number) => (count === 2 ? "two variants" : `${count} variants`);
const pair = (variant: string, baseline: string) => `${quoted(variant)} against ${quoted(baseline)}`;

/** What is said of a table of results that is compared. Amounts come formatted. */
export const comparison = {
  /** Why an analysis leads. It goes into results as it stands. */
  because: {
    oneVariant: "one variant: nothing to compare it with",
    blocked: (count: number, blocks: number, factors: readonly string[]) =>
      `${variants(count)}, tested in blocks: ${blocks} blocks hold two or more of them${
        factors.length === 0 ? "" : "; the model of design factors stands beside it and ignores the blocks"
      }`,
    factors: (factors: readonly string[], blocks: string) =>
      `${factors.length === 1 ? "a design factor" : "design factors"} named (${factors.map((name) => shorten(name)).join(", ")}), ${blocks}`,
    variants: (count: number, blocks: string) => `${variants(count)}, ${blocks}`,
    noBlocks: "no blocks",
    blocksApart: "blocks recorded, but fewer than two of them hold more than one variant, so they cannot be taken out",
  },
  leads: {
    welch: "Welch’s t",
    gamesHowell: "Welch’s analysis of variance with Games and Howell’s intervals",
    blocked: "randomised-block analysis",
    factors: "linear model of the design factors",
  },
  leading: (method: string, because: string) => `Leading analysis: ${method} (${because}).`,
  warningsHeading: "What weakens this:",
  notesHeading: "Notes:",
  noLeading: (because: string) => `No analysis leads (${because}).`,

  group: (level: string, label: string, mean: string, confidence: string, range: string, count: number) =>
    `${quoted(level)} had a mean of ${mean} in ${label} (${confidence} % interval ${range}; ${runs(count)}).`,
  groupAlone: (level: string, label: string, mean: string, count: number, because: string) =>
    `${quoted(level)} had a mean of ${mean} in ${label} (${runs(count)}; ${because}).`,
  pIs: (number: string) => `p = ${number}`,
  pBelow: (number: string) => `p < ${number}`,
  powerOfTen: (exponent: number) => `× 10^${String(exponent).replace("-", "−")}`,
  withShare: (amount: string, percent: string) => `${amount} (${percent} %)`,
  range: (lower: string, upper: string) => `${lower} to ${upper}`,

  /** A phrase of any column, after the variant's name and before "than": "was 21 % lower in “wood, g”". */
  lower: (label: string, amount: string) => `was ${amount} lower in ${quoted(label)}`,
  higher: (label: string, amount: string) => `was ${amount} higher in ${quoted(label)}`,
  label: quoted,
  bracket: (parts: readonly string[]) => parts.join("; "),
  interval: (confidence: string, range: string | null) =>
    range === null ? `${confidence} % interval` : `${confidence} % interval ${range}`,
  runsOf: (variant: number, baseline: number) => `${runs(variant)} against ${baseline}`,
  withinBlocks: "within blocks, not widened for the number of pairs",
  forAllPairs: (count: number) => `made to hold for all ${count} pairs together`,

  together: (count: number, chance: string, method: string, f: string, df1: string, df2: string) =>
    `All ${count} variants taken together: ${chance} (${method}, F = ${f} with ${df1} and ${df2} degrees of freedom). The pairs tell which differ and by how much.`,
  chanceOfAll: {
    byChanceOnceIn: (tests: string) =>
      `if all were alike, means would lie this far apart about once in ${tests} such tests`,
    byChanceRarely: (tests: string) =>
      `if all were alike, means would lie this far apart less than once in ${tests} such tests`,
    byChanceOften: (times: string) =>
      `if all were alike, means would lie this far apart in about ${times} of 100 such tests`,
  },
  togetherUnknown: (count: number, method: string, because: string) =>
    `Whether the ${count} variants differ taken together cannot be said: ${method} is missing, ${because}.`,
  welchAnova: "Welch’s analysis of variance",
  blockedAnalysis: "analysis of variance within blocks",

  effect: (term: string, amount: string, isLess: boolean, label: string, ends: FactorEnds, bracket: string) =>
    `${quoted(term)}: ${label} was ${amount} ${isLess ? "lower" : "higher"} ${comparedBy(ends)} (${bracket}).`,
  effectOpen: (term: string, range: string, label: string, ends: FactorEnds, bracket: string) =>
    `${quoted(term)}: these runs cannot tell whether it matters for ${label}: the difference with ${sidesOf(ends).join(" against ")} lies ${range} (${bracket}).`,
  othersAtEqualWeight: "other factors at equal weight",
  effectUnsure: (term: string, amount: string, isLess: boolean, label: string, ends: FactorEnds, because: string) =>
    `${quoted(term)}: in these runs ${label} was ${amount} ${isLess ? "lower" : "higher"} ${comparedBy(ends)}, but how sure that is cannot be said: ${because}.`,

  beside: (name: string, parts: readonly string[]) => `${name} in other measures: ${parts.join("; ")}.`,
  pair,
  levels: (term: string, level: string, baseline: string) =>
    `${quoted(term)}, ${quoted(level)} against ${quoted(baseline)}`,
  ratioMeasure: (value: string, range: string | null) =>
    range === null ? `ratio of the means ${value}` : `ratio of the means ${value} (${range})`,
  geometricMeasure: (value: string, range: string) => `of the geometric means ${value} (${range})`,
  sizeMeasure: (value: string, range: string) => `${value} times the scatter of single runs (Hedges’ g, ${range})`,
  ranksMeasure: (p: string) => `${p} by ranks alone (Mann–Whitney)`,

  equivalent: (name: string, margin: string, confidence: string) =>
    `${name}: alike for practical purposes at ${confidence} % confidence, if ${margin} either way does not matter (two one-sided tests).`,
  notEquivalent: (name: string, margin: string, confidence: string) =>
    `${name}: these runs do not show at ${confidence} % confidence that the two are alike to within ${margin} either way; that is no proof that they differ.`,

  warnings: {
    noVariation: (level: string) =>
      `The runs of ${quoted(level)} do not vary at all: check that they were measured one by one and not copied.`,
    unequalSpread: (p: string, most: string, mostDeviation: string, least: string, leastDeviation: string) =>
      `The variants do not scatter alike (Brown–Forsythe ${p}; standard deviation ${mostDeviation} in ${quoted(most)}, ${leastDeviation} in ${quoted(least)}). Analyses that take the scatter as common (classical analysis of variance, Tukey, blocks, factors, Hedges’ g) lean on what does not hold.`,
    suspect: (level: string, row: number, value: string, p: string) =>
      `Row ${row} of ${quoted(level)} (${value}) lies far from its other runs (Grubbs ${p}). It counts all the same: look at its sheet, and leave it out only for a reason that you can write down.`,
    suspectAlone: (level: string, row: number, value: string) =>
      `Row ${row} of ${quoted(level)} (${value}) is the only one that differs from its other runs, which are all alike. Look at its sheet.`,
    notNormal: (level: string, p: string) =>
      `The runs of ${quoted(level)} do not look normally distributed (Shapiro–Wilk ${p}): intervals from so few runs lean on that.`,
    /** One run decides; `alsoRows` do so too, each by itself. */
    influential: ({ what, all, row, level, value, without, wasSure, alsoRows }: InfluentialRunWords) =>
      `${what}: that the difference is ${wasSure ? "clear" : "not clear"} of zero hangs on ${alsoRows.length === 0 ? "one run" : "single runs"}. All runs together: ${all}; without row ${row} of ${quoted(level)} (${value}): ${without}.${
        alsoRows.length === 0
          ? ""
          : ` Leaving out ${alsoRows.length === 1 ? `row ${alsoRows[0]}` : `one of rows ${alsoRows.slice(0, 20).join(", ")}${alsoRows.length > 20 ? ", …" : ""}`} instead changes it too.`
      } All count; take it with caution, and make more runs.`,
    influentialElsewhere: (pairs: readonly { readonly name: string; readonly row: number }[]) =>
      `Whether the difference is clear of zero hangs on a single run in ${pairs.length === 1 ? "one more pair" : `${pairs.length} more pairs`} too: ${pairs
        .slice(0, 20)
        .map(({ name, row }) => `${name} (row ${row})`)
        .join(", ")}${pairs.length > 20 ? ", …" : ""}.`,
    withInterval: (amount: string, confidence: string, range: string) =>
      `${amount} (${confidence} % interval ${range})`,
    drift: (isRise: boolean, slope: string, p: string) =>
      `Results ${isRise ? "rose" : "fell"} by about ${slope} from each run to the next in the order they were made (${p}): what changed meanwhile may be taken for a difference of variants. A randomised order guards against it.`,
    blocksIgnored: (blocks: number) =>
      `The table tells ${blocks} blocks apart in its column “block”, and they are ignored here. Name the column with --block to take them out.`,
    blocksApart:
      "The blocks could not be taken out: a difference between blocks is taken for one between variants, or hides it.",
    factorsIgnoreBlocks: "The model of design factors ignores the blocks.",
    oneLevel: (factor: string) =>
      `The factor ${quoted(factor)} has one level only: it has no effect that could be told.`,
    fewForBootstrap: (levels: readonly string[], most: number) =>
      `Fewer than ${most} runs are too few to rely on a bootstrap interval: ${list(levels)}.`,
    unboundedRatio: (name: string, lower: string, upper: string) =>
      `The ratio of ${name} has no interval with two ends: the mean below the line may be zero, so that all ratios but those from ${lower} to ${upper} agree with the runs. The difference says more.`,
    anyRatio: (name: string) =>
      `The ratio of ${name} has no interval: both means may be zero, so that every ratio agrees with the runs. The difference says more.`,
    oneSidedRatio: (name: string) =>
      `The ratio of ${name} has an interval with one end only. The difference says more.`,
    unadjusted: (pairs: number) =>
      `${pairs} pairs are compared: of so many, one or another looks different by chance now and then. holmP and the intervals of Games and Howell allow for that, difference, welch and the differences within blocks do not.`,
    confounded: (term: string, others: readonly string[]) =>
      `The effect of ${quoted(term)} cannot be told from ${list(others)}, taken to have none.`,
    similarLevels: (one: string, other: string) =>
      `${quoted(one)} and ${quoted(other)} differ in capitals or blanks alone and count as two variants. If they are one, write them the same.`,
  },

  notes: {
    leftOut: (row: number, reason: string) => `Row ${row} was skipped, as it is left out: ${shorten(reason, 200)}`,
    withoutValue: (rows: readonly number[], column: string) =>
      `${rows.length === 1 ? `Row ${rows[0]} was` : `Rows ${rows.slice(0, 50).join(", ")}${rows.length > 50 ? ", …" : ""} were`} skipped: no value in ${quoted(column)}.`,
    oneRun: (level: string) =>
      `${quoted(level)} has one run: no interval, no scatter, no outlier or normality told, no bootstrap`,
    group: (level: string, what: readonly string[], because: string) =>
      `${quoted(level)}: no ${what.join(", no ")}: ${because}`,
    pair: (name: string, what: readonly string[], because: string) => `${name}: no ${what.join(", no ")}: ${because}`,
    several: (what: string, because: string) => `No ${what}: ${because}`,
    ties: (pairs: readonly { readonly name: string; readonly count: number }[]) =>
      `Values that share their rank take the mean of their ranks, and the rank test’s p is still that of all arrangements of these runs: ${pairs.map(({ name, count }) => `${name} (${count} values)`).join(", ")}.`,
    ranksApproximate: (names: readonly string[]) =>
      `The rank test’s p is that of a normal distribution, corrected for ties and continuity: ${names.join(", ")}.`,
    smallestP: (first: number, second: number, p: string, names: readonly string[]) =>
      `With ${runs(first)} against ${second} the rank test’s p cannot be below ${p}, whatever the runs show: ${names.join(", ")}.`,
    bootstrapExtreme: (level: string) =>
      `${quoted(level)}: a limit of the bootstrap interval is the outermost resample; more resamples might go further.`,
    marginZero:
      "A margin of zero asks whether two means are exactly equal, which no number of runs can show: no equivalence. State the largest difference that would not matter.",
    uninformativeBlocks: (blocks: readonly string[]) =>
      `Blocks with one variant only say nothing on a difference: ${list(blocks.slice(0, 20))}${blocks.length > 20 ? ", …" : ""}`,
    holm: (pairs: number) => `holmP is adjusted for the ${pairs} pairs listed.`,
    sentencesForBaseline: (baseline: string) =>
      `Sentences are given for the pairs with ${quoted(baseline)}; “pairs” holds all.`,
    factorTerms: (terms: readonly string[], because: string) =>
      `No complete answer on the effect of ${list([...new Set(terms)])}: ${because}`,
    factorTests:
      "factorTests: F of a factor or an interaction is what it accounts for beyond all the others, with codes that add to zero (type III). Where the combinations have unequal numbers of runs, analyses that take the factors one after the other (type I) give other figures.",
  },
  what: {
    interval: "interval of the mean",
    coefficientOfVariation: "coefficient of variation",
    grubbs: "Grubbs test",
    shapiroWilk: "Shapiro–Wilk test",
    bootstrap: "bootstrap interval",
    welch: "Welch comparison",
    fieller: "bounded interval of the ratio",
    logWelch: "ratio of geometric means with interval",
    hedgesG: "Hedges’ g with interval",
    mannWhitney: "rank test",
    equivalence: "equivalence test",
    brownForsythe: "Brown–Forsythe test",
    anova: "classical analysis of variance",
    welchAnova: "Welch’s analysis of variance",
    tukey: "Tukey interval",
    gamesHowell: "Games–Howell interval",
    blocked: "analysis within blocks",
    blockedPair: "difference within blocks with interval",
    factors: "model of design factors",
    drift: "test of drift",
  },
  reasons: {
    /** Of Brown and Forsythe's test alone. */
    "distances-alike": "the distances from the medians do not vary, or no variant has three runs",
    "no-values": "a variant has no run",
    "one-value": "a variant has one run, which shows no scatter",
    "one-group": "there is one variant only",
    "no-scatter": "the runs do not vary",
    "mean-not-positive": "the mean is not above zero",
    "baseline-mean-not-positive": "the baseline’s mean is not above zero",
    "value-not-positive": "a value is not above zero",
    "baseline-indistinct-from-zero": "the baseline’s mean may be zero",
    "both-means-indistinct-from-zero": "both means may be zero",
    "unbounded-above": "it has no upper end",
    "unbounded-below": "it has no lower end",
    "too-large": "it is beyond the range of numbers",
    "margin-not-positive": "the margin is not above zero",
    "too-few-values": "there are too few runs",
    "fewer-than-three": "it needs three runs",
    "more-than-5000": "it is made for at most 5000 runs",
    "others-equal": "all other runs are alike",
    "never-together": "no block joins the variants",
    "no-degrees-of-freedom": "as many numbers are sought as there are runs",
    "orders-equal": "the order of the runs is not told",
    "too-few-resamples": "there are too few resamples",
    "one-level": "a factor has one level only",
    "not-separable": "the combinations that were run cannot tell it from another effect",
  },
};

interface InfluentialRunWords {
  /** Of which difference: a pair, or a factor. */
  readonly what: string;
  /** The difference by all runs and without the one, with intervals. */
  readonly all: string;
  readonly without: string;
  readonly row: number;
  readonly level: string;
  readonly value: string;
  /** Whether the interval of all runs is clear of zero. */
  readonly wasSure: boolean;
  readonly alsoRows: readonly number[];
}

/** Levels of two factors, combined in two ways. */
type Combinations = readonly (readonly [string, string])[];

/** Between which levels an effect is told; of an interaction, between which combinations. */
type FactorEnds =
  | { readonly from: string; readonly to: string }
  | { readonly alike: Combinations; readonly mixed: Combinations };

/** With which levels an effect is told, against which. */
function sidesOf(ends: FactorEnds): readonly [string, string] {
  if (!("alike" in ends)) return [quoted(ends.to), quoted(ends.from)];
  const both = (cells: Combinations) => cells.map((levels) => levels.map(quoted).join(" and ")).join(" or ");
  return [both(ends.alike), both(ends.mixed)];
}

const comparedBy = (ends: FactorEnds) => `with ${sidesOf(ends).join(" than with ")}`;
