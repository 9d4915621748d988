import { shorten } from "../shorten.ts";

const runs = (count: number) => (count === 1 ? "1 run" : `${count} runs`);
const moreRuns = (count: number) => (count === 1 ? "1 more run" : `${count} more runs`);
const quoted = (name: string) => `“${shorten(name)}”`;
const outOf = (variant: number, baseline: number) => `${runs(variant)} against ${baseline}`;
/** What an interval holds beside run-to-run scatter. */
const holding = (withErrors: boolean) => (withErrors ? ", instruments’ errors included" : "");
/** "an 80 %", "a 90 %". */
const chance = (percent: number) => `${/^(8|11|18)/.test(String(percent)) ? "an" : "a"} ${percent} % chance`;

/** The parts of a finding. Amounts come formatted, with their unit: "21 %", "3.0 percentage points". */
export const findings = {
  percent: (number: string) => `${number} %`,
  percentagePoints: (number: string) => `${number} percentage ${number === "1" ? "point" : "points"}`,
  inUnit: (number: string, unit: string) => `${number} ${unit}`,
  quoted,
  runs,
  plusMinus: (mean: string, half: string) => `${mean} ± ${half}`,

  lower: (amount: string) => `${amount} less`,
  higher: (amount: string) => `${amount} more`,
  bothLower: (small: string, large: string) => `${small} to ${large} less`,
  bothHigher: (small: string, large: string) => `${small} to ${large} more`,
  across: (less: string, more: string) => `between ${less} less and ${more} more`,
  /** Where the end on one side is zero as written. */
  acrossFromZero: (more: string) => `between 0 and ${more} more`,
  acrossToZero: (less: string) => `between ${less} less and 0`,
  /** In place of a number that would be written as zero although it is not. */
  justOverZero: "just over 0",
  noChange: "no change",

  differs: (variant: string, phrase: string, baseline: string) =>
    `${quoted(variant)} ${phrase} than ${quoted(baseline)}`,
  differsUnsure: (variant: string, phrase: string, baseline: string) =>
    `In these runs ${quoted(variant)} ${phrase} than ${quoted(baseline)}, but how sure that is cannot be said`,
  equal: (variant: string, baseline: string, label: string) =>
    `In these runs ${quoted(variant)} and ${quoted(baseline)} did not differ in ${label}, but how sure that is cannot be said`,
  cannotTell: (variant: string, baseline: string, label: string, range: string) =>
    `These runs cannot tell ${quoted(variant)} from ${quoted(baseline)} in ${label}: the difference lies ${range}`,

  /** `withErrors`: the interval holds the stated errors of instruments and values. */
  bracket: (level: string, range: string, variant: number, baseline: number, withErrors: boolean) =>
    `${level} % interval ${range}${holding(withErrors)}; ${outOf(variant, baseline)}`,
  bracketOpen: (level: string, variant: number, baseline: number, withErrors: boolean) =>
    `${level} % interval${holding(withErrors)}; ${outOf(variant, baseline)}`,
  bracketNoInterval: (variant: number, baseline: number, because: string) => `${outOf(variant, baseline)}; ${because}`,
  oneRun: "one run gives no interval",
  noScatter: "runs without any variation give no interval",
  blocksIgnored: "Days (or other blocks) in which the runs were made are ignored here.",

  detail: (level: string, range: string, variant: number, baseline: number, withErrors: boolean) =>
    `${level} % interval ${range}${holding(withErrors)} · ${outOf(variant, baseline)}`,
  detailOpen: (level: string, variant: number, baseline: number, withErrors: boolean) =>
    `${level} % interval${holding(withErrors)} · ${outOf(variant, baseline)}`,
  detailNoInterval: (variant: number, baseline: number, because: string) => `${outOf(variant, baseline)} · ${because}`,
  byChanceOnceIn: (tests: string) =>
    `if the two were alike, runs would differ this much about once in ${tests} such tests`,
  byChanceRarely: (tests: string) =>
    `if the two were alike, runs would differ this much less than once in ${tests} such tests`,
  byChanceOften: (times: string) =>
    `if the two were alike, runs would differ this much in about ${times} of 100 such tests`,

  withMoreRuns: (count: number, percent: number, amount: string) =>
    `With ${moreRuns(count)} of each there would be ${chance(percent)} of showing a difference of ${amount}.`,
  withRunsOfEach: (count: number, percent: number, amount: string) =>
    `With ${runs(count)} of each there would be ${chance(percent)} of showing a difference of ${amount}.`,
  enoughRuns: (percent: number, amount: string) =>
    `These are enough runs for ${chance(percent)} of showing a difference of ${amount}; a smaller one needs more.`,
  tooManyRuns: (most: number, amount: string) =>
    `The runs scatter so much that even ${most} of each would hardly show a difference of ${amount}: look first for what makes them scatter.`,
  narrower: (count: number, before: string, after: string) =>
    `${moreRuns(count)} of each would narrow the interval from about ± ${before} to about ± ${after}, if they scatter as these do.`,
  needsRuns: "At least two runs of each give an interval; three or more are wanted.",

  fewRuns: (name: string, count: number) =>
    `${quoted(name)} has ${runs(count)}: an interval from so few depends heavily on chance.`,
  oneRunOf: (name: string) => `${quoted(name)} has one run: nothing can be said about its scatter.`,
  decidedByOneRun: (
    { run, variant, others }: { readonly run: string; readonly variant: string; readonly others: number },
    pair: { readonly variant: string; readonly baseline: string },
    wasSure: boolean,
  ) => {
    const hangs = `Whether ${quoted(pair.variant)} differs from ${quoted(pair.baseline)} hangs on ${others === 0 ? "one run" : "single runs"}`;
    const without = `without run ${quoted(run)} of ${quoted(variant)}${others === 0 ? "" : ` (or ${others === 1 ? "one other" : `one of ${others} others`} instead)`}`;
    return wasSure
      ? `${hangs}: ${without} the runs could not tell. All runs count; take it with caution, and make more.`
      : `${hangs}: ${without} the difference would be clear of zero. All runs count; make more.`;
  },
  notAdjusted: (variants: number, baseline: string) =>
    `${variants} variants are compared with ${quoted(baseline)}. The intervals are not widened for that: now and then one looks different by chance.`,
  ratioUnbounded: (baseline: string) =>
    `The mean of ${quoted(baseline)} is not clearly above zero, so no percentage is given.`,
  ratioIntervalUnbounded: (label: string) =>
    `The interval of the ratio in ${label} has no end on at least one side: the baseline’s mean is not clearly above zero.`,
  /** Where the settings state no errors; else the next. */
  sharedErrors:
    "Intervals come from run-to-run scatter alone. Errors that all runs share (one balance, one thermometer, one calorific value) are not in them; between variants tested with the same instruments and wood they cancel, in part or whole.",
  sharedErrorsIncluded:
    "Intervals hold run-to-run scatter and, as far as the settings state them, the errors that all runs share (one balance, one thermometer, one calorific value). Between variants tested with the same instruments and wood these cancel, in part or whole.",

  better: "better",
  worse: "worse",
  lowerVerdict: "lower",
  higherVerdict: "higher",
  cannotTellVerdict: (range: string) => `cannot tell: ${range}`,
  noIntervalVerdict: "no interval",

  severalItem: (variant: string, range: string, directed: string) => `${quoted(variant)} ${directed} (${range})`,
  severalCannotTell: (variant: string, range: string) => `${quoted(variant)} cannot be told apart (${range})`,
  severalNoInterval: (variant: string, directed: string) => `${quoted(variant)} ${directed} (no interval)`,
  listJoin: (items: readonly string[]) => items.join("; "),
};
