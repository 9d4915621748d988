const runs = (count: string) => (count === "1" ? "1 run" : `${count} runs`);

/** What a plan of runs says. Numbers come formatted. */
export const planning = {
  inUnit: (number: string, unit: "" | "%") => (unit === "" ? number : `${number} ${unit}`),
  over: (percent: string) => `more than ${percent}`,
  under: (percent: string) => `less than ${percent}`,
  ofEach: (count: string) => `${runs(count)} of each`,
  against: (variant: string, baseline: string) => `${runs(variant)} against ${baseline} of the baseline`,

  needed: (count: string) => `${runs(count)} of each variant are needed`,
  neededBeside: (count: string, baseline: string) =>
    `${runs(count)} of the variant are needed beside ${baseline} of the baseline`,
  forDifference: (head: string, wanted: string, difference: string, deviation: string, reached: string) =>
    `${head} for a chance of ${wanted} % of showing a difference of ${difference}, if single runs scatter with a standard deviation of ${deviation}; with so many the chance is ${reached} %.`,
  cautious: (seen: string, limit: string, count: string) =>
    `A standard deviation seen in only ${runs(seen)} may well be too small. With its one-sided 80 % upper limit, ${limit}, the number is ${count}.`,
  atLimit: (limit: string, because: string) =>
    `With the one-sided 80 % upper limit of the standard deviation, ${limit}: ${because}`,
  noLimit: "The upper limit of the standard deviation is beyond the range of numbers.",
  canDetect: (these: string, wanted: string, difference: string) =>
    `With ${these} there is a chance of ${wanted} % of showing a difference of ${difference}; a smaller one would more easily be missed.`,
  powerOf: (these: string, reached: string, difference: string) =>
    `With ${these} there is a chance of ${reached} % of showing a difference of ${difference}.`,
  notDetectable: (these: string, because: string) => `What ${these} can detect cannot be said: ${because}`,

  because: {
    "no-scatter":
      "A standard deviation of zero says that runs never differ, so there is nothing to plan with. Give the scatter that was seen in runs of one variant.",
    "no-difference": "A difference of zero cannot be shown by any number of runs. Give the smallest one that matters.",
    "too-few-runs": "They leave nothing to judge the scatter by. At least three runs in all are needed.",
    "too-large": "It lies beyond a thousand standard errors.",
  },
  baselineTooFew: (baseline: string, reached: string, ofEach: string) =>
    `However many runs the variant has, ${runs(baseline)} of the baseline keep the chance at ${reached} % or less. More runs of the baseline are needed: with equal numbers, ${ofEach} of each would do.`,
  beyondMaximum: (most: string, reached: string) =>
    `Even ${most} runs of each reach a chance of ${reached} % only: the difference is too small beside the scatter.`,
  noOrder: "There is no run order, because the number of runs is not known.",
  orderTooLong: (total: string, most: string) =>
    `There is no run order: it would hold ${total} runs, and at most ${most} are drawn.`,
  tooManyBlocks: (blocks: string, fewest: string) =>
    `There is no run order: ${blocks} blocks are more than the ${runs(fewest)} of the rarest variant, and some would lack it.`,
  orderHeading: "Run order (random within each block; a block is what is alike, such as one day):",
  orderLine: (order: number, block: number, variant: string) => `  ${order}. block ${block}: ${variant}`,
  nothingAsked: "plan needs --detect (how many runs?) or --runs (what can they detect?).",
};
