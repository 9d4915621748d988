import { shorten } from "../shorten.ts";

const quoted = (name: string) => `“${shorten(name)}”`;
const joined = (names: readonly string[]) =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
const sentence = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** What a result's uncertainty is made of, and what to do about it. Amounts come formatted, with their unit. */
export const uncertainty = {
  /** "at 95 %, coverage factor 2.0" */
  coverage: (level: string, factor: string) => `at ${level} %, coverage factor ${factor}`,
  expandedFrom: "from the errors of instruments and values",
  owners: {
    char: "calorific value of char",
    fuel: (name: string) => (name === "" ? "calorific value of the fuel" : `calorific value of ${quoted(name)}`),
    gross: (name: string) =>
      name === "" ? "gross calorific value of the fuel" : `gross calorific value of ${quoted(name)}`,
    hydrogen: (name: string) => (name === "" ? "hydrogen in the fuel" : `hydrogen in ${quoted(name)}`),
    scatter: "run-to-run scatter",
    readings: "errors new at each reading",
  },
  shared: (component: string) => `${component}, shared by all runs`,
  independent: (component: string) => `${component}, new at each reading`,
  scatterDetail: "what differs from fire to fire, the readings’ own errors among it",
  readingsDetail: "of one run, whose scatter is not known",
  share: (percent: string) => `${percent} %`,
  shareUnder: (percent: string) => `under ${percent} %`,
  plusMinus: (amount: string) => `± ${amount}`,
  becomes: (before: string, after: string) => `± ${before} would become ± ${after}`,
  shareTitle: "share of the variance, %",
  chartText: (label: string, parts: readonly string[]) =>
    `What the uncertainty of ${label} is made of: ${parts.join("; ")}.`,
  chartPart: (name: string, share: string) => `${name} ${share}`,
  exact: (roles: readonly string[]) =>
    `Not included: ${joined(roles)}. Nothing is stated of their errors, so their readings count as exact.`,
  nothingStated: "No errors are stated for instruments or calorific values: enter them under Study, Set up.",
  none: "Every reading that this comes from counts as exact.",

  /** Advice for a mean or a difference. `share`: of the variance. */
  moreRuns: (share: string) =>
    `${share} % of this uncertainty is run-to-run scatter: more runs would help, better instruments hardly.`,
  betterInstrument: (share: string, owner: string, ofOwner: string) =>
    `${share} % of this uncertainty is shared by all runs, so more runs would hardly help. The largest part, ${ofOwner} %, comes from the ${owner}: there is most to gain.`,
  both: (scatter: string, shared: string, owner: string) =>
    `Run-to-run scatter makes ${scatter} % of this uncertainty and errors shared by all runs ${shared} %: more runs help with the one, a better ${owner} with the other.`,
  largest: (owner: string, share: string, change: string) =>
    `${sentence(owner)} makes ${share} % of the variance. If it were halved, ${change}.`,
  cancels: (apart: string, together: string) =>
    `The errors that both share cancel in part or whole: taken as separate for each they would make ± ${apart}, together they make ± ${together}.`,
  tooLittleScatter:
    "The runs scatter less than the errors of their readings alone would make them: a few runs may by luck, or the errors are stated too large. This is less sure than it looks; further runs, or a check of the stated errors, would tell.",
  noReplicates: "No replicates: how much runs scatter is not known and not included.",

  /** Monte Carlo. */
  givenUp: "Stopped: nothing was written.",
  progress: (share: number) => `Monte Carlo: ${Math.floor(share * 100)} %`,
  trials: (count: string, seed: number) => `${count} trials, seed ${seed}`,
  validated: (label: string) => `${sentence(label)}: first order and Monte Carlo agree.`,
  notValidated: (label: string) =>
    `${sentence(label)} is so non-linear in its readings that first order does not describe it: the Monte Carlo interval is the one to use.`,
  leavesRange: (label: string, percent: string) =>
    `${sentence(label)}: in ${percent} % of the trials the errors lead outside what is physically possible (a negative mass, time or heat, or more heat in the water than the wood gave): the stated errors are large for these readings. The Monte Carlo interval is the one to use, and may itself reach beyond what can be.`,
  notFinite: (label: string, percent: string) =>
    `${sentence(label)} has no finite value in ${percent} % of the trials: no mean and no standard uncertainty can be given.`,
  /** The same of several quantities of one run, whose labels hold commas. */
  nonLinear: (labels: readonly string[]) =>
    `So non-linear in the readings that first order does not describe it, and the Monte Carlo interval is the one to use: ${labels.join("; ")}.`,
  notNormal: (labels: readonly string[]) =>
    `Not near enough to a normal distribution for first order to give the ends of its interval, so the Monte Carlo interval is the one to use: ${labels.join("; ")}.`,
  outside: (labels: readonly string[], percent: string) =>
    `In up to ${percent} % of the trials the errors lead outside what is physically possible (a negative mass, time or heat, or more heat in the water than the wood gave): the stated errors are large for these readings. The Monte Carlo interval is the one to use, and may itself reach beyond what can be: ${labels.join("; ")}.`,
  infinite: (labels: readonly string[], percent: string) =>
    `In up to ${percent} % of the trials there is no finite value, so no Monte Carlo mean and no standard uncertainty can be given: ${labels.join("; ")}.`,
  noSpread: (labels: readonly string[]) =>
    `An error known with 2 degrees of freedom or fewer has no standard deviation, and with 1 or fewer no mean, nor has what it enters: Monte Carlo’s are not given for ${labels.join("; ")}. The intervals hold.`,
  fewerTrials: (trials: string, wanted: string) =>
    `So many runs were simulated with ${trials} trials each rather than ${wanted}.`,
  notSimulated: "No Monte Carlo was asked for: intervals are from first order.",

  /** Notes of results.json. */
  file: {
    simulated: (trials: string, seed: number) =>
      `Of runs, standardUncertainty is first-order (JCGM 100:2008) and interval is Monte Carlo’s, probabilistically symmetric (JCGM 101:2008, clause 7): ${trials} trials of each run, seed ${seed}.`,
    adaptive: (trials: string, seed: number) =>
      `Of runs, standardUncertainty is first-order (JCGM 100:2008) and interval is Monte Carlo’s, probabilistically symmetric (JCGM 101:2008, clause 7): trials until all results of a run are stable to two digits (7.9), at most ${trials} of each run, seed ${seed}.`,
    notSimulated:
      "No Monte Carlo was run: of runs, interval is first-order, value ± t(effective degrees of freedom) × standardUncertainty (JCGM 100:2008, G.4).",
    combined:
      "Of variants and comparisons, interval, difference, ratio and logRatio come from run-to-run scatter alone; those named combined… hold the errors that all runs share as well, as far as the settings state them (JCGM 100:2008, G.4). Between variants tested with the same instruments and wood they cancel, in part or whole. Sentences are by the wider of the two.",
    tooFewForInterval: (sound: string) =>
      `So few trials have no interval at this confidence: interval is null. Ask for ${sound} trials or more, or for a lower confidence.`,
    tooFewToJudge: (least: string) =>
      `With fewer than ${least} trials it is left open whether they agree with first order: validates is null.`,
  },
};
