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
    `The errors that both share cancel in part: taken as separate for each they would make ± ${apart}, together they make ± ${together}.`,
  noReplicates: "No replicates: how much runs scatter is not known and not included.",

  /** Monte Carlo. */
  trials: (count: string, seed: number) => `${count} trials, seed ${seed}`,
  validated: (label: string) => `${sentence(label)}: first order and Monte Carlo agree.`,
  notValidated: (label: string) =>
    `${sentence(label)} is so non-linear in its readings that first order does not describe it: the Monte Carlo interval is the one to use.`,
  leavesRange: (label: string, percent: string) =>
    `${sentence(label)}: in ${percent} % of the trials the errors lead outside what is physically possible, as where next to no fuel was burnt. Its mean and standard uncertainty mean little; the Monte Carlo interval is the one to use.`,
  notFinite: (label: string, percent: string) =>
    `${sentence(label)} has no finite value in ${percent} % of the trials: no mean and no standard uncertainty can be given.`,
  fewerTrials: (trials: string, wanted: string) =>
    `So many runs were simulated with ${trials} trials each rather than ${wanted}.`,
  notSimulated: "No Monte Carlo was asked for: intervals are from first order.",
};
