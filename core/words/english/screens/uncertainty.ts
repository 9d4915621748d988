/** The uncertainty of results: beside them in Runs, and in the panels of what it is made of. */
export const uncertainty = {
  shown: "± uncertainty",
  shownHint: "Shows each result with its expanded uncertainty",
  /** Beside a number, for those who hear it. */
  plusMinus: (half: string) => `± ${half}`,
  open: "What its uncertainty is made of",
  openKey: "Enter",
  title: "What the uncertainty is made of",
  close: "Close",
  closeKey: "Escape",
  noResult: (run: string) => `Run “${run}” has no such result now. The Runs page says why.`,
  difference: "the difference",
  source: "where it comes from",
  share: "share",
  alone: "alone",
  halved: "if it were halved",
  table: "The parts, the largest first",
  tableOf: (title: string) => `The parts, the largest first: ${title}`,
  notStated: {
    anywhere: "Nothing is stated about the errors of instruments or calorific values, so nothing can be said here.",
    here: "Nothing is stated about the errors of what this result comes from.",
  },
  toSetUp: "State errors in Set up",
  ofComparison: "What the uncertainty is made of",
  noBudget: "There is no interval to take apart here.",
  wider: (shown: string, here: string) =>
    `Above stands ± ${shown}, not ± ${here}: beside a mean no interval is shown that is narrower than scatter alone makes it.`,

  monteCarloTitle: "Monte Carlo",
  monteCarlo: "Check by Monte Carlo",
  begun: "The drawing has begun.",
  monteCarloLead: (trials: string) =>
    `Draws every error at random, ${trials}, and works the run out anew each time: no straight line is laid through the formulas.`,
  running: (percent: string) => `Drawing: ${percent} % done`,
  cancel: "Stop",
  again: "Try again",
  stopped: "Stopped. Nothing was kept.",
  noTrials: "The set-up asks for no Monte Carlo: give it a number of trials there.",
  noErrors: "No errors are stated: there is nothing to draw.",
  failed: "The drawing broke off. Try again.",
  figureIn: (unit: string) => (unit === "" ? "figure" : `figure, ${unit}`),
  byMonteCarlo: "Monte Carlo",
  byFirstOrder: "first order",
  mean: "mean",
  standardUncertainty: "standard uncertainty",
  symmetric: (level: string) => `${level} % interval, as many trials below as above`,
  shortest: (level: string) => `${level} % interval, the shortest`,
  range: (lower: string, upper: string) => `${lower} to ${upper}`,
  none: "none",
  notNormal: (label: string) =>
    `The distribution of ${label} is not near enough to a normal one for first order to give the ends of its interval: the Monte Carlo interval is the one to use.`,
  leftOpen: "The trials are too few to be set against first order: whether they agree is left open.",
  scaledT:
    "An error whose size is known from few readings is drawn from a t distribution, which is wider than its first-order uncertainty by design.",
  noSpread: (hasMean: boolean) =>
    `An error known with so few degrees of freedom has no standard deviation${hasMean ? "" : " and no mean"}, nor has what it enters: none is given. The intervals hold.`,
  results: "Monte Carlo beside first order",
};
