import { formatFixed, formatSignificant } from "../format/number.ts";
import { detectableDifference } from "../statistics/detectable-difference.ts";
import { fewestReplicates, replicatesNeeded } from "../statistics/replicates-needed.ts";
import { type OrderedRun, randomisedRunOrder } from "../statistics/run-order.ts";
import { standardDeviationUpperLimit } from "../statistics/standard-deviation-limit.ts";
import { twoSamplePower } from "../statistics/two-sample-power.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { shortNumber } from "./short-number.ts";

/** What is planned. Standard deviation and difference are in one unit, whichever it is. */
export interface PlanRequest {
  /** Of single runs, common to all variants, 0 or more. */
  readonly standardDeviation: number;
  /** How many runs of one variant it was seen in, at least 2; null where it is simply assumed. */
  readonly standardDeviationRuns: number | null;
  /** The difference worth finding; null where only what given runs can detect is asked. */
  readonly difference: number | null;
  readonly power: number;
  readonly confidence: number;
  /** The baseline's number of runs, where it is fixed. */
  readonly baselineRuns: number | null;
  /** Runs of each variant (beside a fixed baseline: of the variant) of which is asked what they can detect. */
  readonly runs: number | null;
  /** Wanted where a run order is to be drawn. */
  readonly order: {
    /** The baseline first. */
    readonly variants: readonly string[];
    /** Null: as many as the rarest variant has runs, so that each block holds every variant. */
    readonly blocks: number | null;
    readonly seed: number;
  } | null;
  /** What is written behind numbers of that unit: "", "%". */
  readonly unit: "" | "%";
}

interface RunsNeeded {
  readonly runsPerVariant: number | null;
  readonly powerReached: number | null;
  readonly exact: number | null;
}

/** What `plan --json` writes. */
export interface PlanNumbers extends RunsNeeded {
  /** The same from the one-sided 80 % upper limit of the standard deviation; where the runs it was seen in are known. */
  readonly atUpperLimit?: RunsNeeded & { readonly standardDeviation: number };
  /** What the given runs can detect with the wanted power, and their power for the wanted difference. */
  readonly detectable?: { readonly runs: number; readonly difference: number | null; readonly power: number | null };
  readonly runOrder?: readonly OrderedRun[];
  /** What could not be computed, and why. */
  readonly notes: readonly string[];
}

export interface Plan {
  readonly numbers: PlanNumbers;
  readonly sentences: readonly string[];
}

/** Common practice in planning from a standard deviation that was itself estimated from a few runs. */
const upperLimitLevel = 0.8;
/** Beyond it no number of runs is an answer. */
const mostRuns = 1e9;
/** Longest order that is drawn. */
const mostOrderedRuns = 10_000;

/** Plans runs: numbers, and the same in words. A RangeError for arguments outside their domain. */
export function planRuns(request: PlanRequest, locale: Locale): Plan {
  const words = wordsFor(locale).planning;
  const notes: string[] = [];
  const sentences: string[] = [];
  const amount = (value: number) => words.inUnit(shortNumber(value, 4, locale), request.unit);
  const estimate = (value: number) => words.inUnit(formatSignificant(value, 3, locale), request.unit);
  const percent = (value: number) => percentText(value, locale);
  const { standardDeviation, standardDeviationRuns, difference, power, runs, baselineRuns } = request;

  const needed = neededFor(request, standardDeviation);
  const none: RunsNeeded = { runsPerVariant: null, powerReached: null, exact: null };
  if (difference !== null && needed !== null) {
    if (needed.runsPerVariant !== null) {
      const head =
        baselineRuns === null
          ? words.needed(count(needed.runsPerVariant))
          : words.neededBeside(count(needed.runsPerVariant), count(baselineRuns));
      sentences.push(
        words.forDifference(
          head,
          percent(power),
          amount(difference),
          amount(standardDeviation),
          percent(needed.powerReached),
        ),
      );
    } else notes.push(whyNone(needed));
  }

  let atUpperLimit: PlanNumbers["atUpperLimit"];
  if (standardDeviationRuns !== null && standardDeviation > 0) {
    const limit = standardDeviationUpperLimit(standardDeviation, standardDeviationRuns - 1, upperLimitLevel);
    if (limit === null) notes.push(words.noLimit);
    else {
      const most = neededFor(request, limit);
      atUpperLimit = { standardDeviation: limit, ...(most === null ? none : numbersOf(most)) };
      if (most?.runsPerVariant != null) {
        sentences.push(words.cautious(count(standardDeviationRuns), amount(limit), count(most.runsPerVariant)));
      } else if (most !== null) notes.push(words.atLimit(amount(limit), whyNone(most)));
    }
  }

  let detectable: PlanNumbers["detectable"];
  if (runs !== null) {
    const design = {
      standardDeviation,
      baselineRuns: baselineRuns ?? runs,
      variantRuns: runs,
      confidence: request.confidence,
    };
    const least = detectableDifference({ ...design, power });
    const knows = standardDeviation > 0 && design.baselineRuns + runs > 2;
    const reached = knows && difference !== null ? twoSamplePower({ ...design, difference }) : null;
    detectable = { runs, difference: least.value, power: reached };
    const these = baselineRuns === null ? words.ofEach(count(runs)) : words.against(count(runs), count(baselineRuns));
    if (least.value === null) notes.push(words.notDetectable(these, words.because[least.because]));
    else sentences.push(words.canDetect(these, percent(power), estimate(least.value)));
    if (reached !== null && difference !== null)
      sentences.push(words.powerOf(these, percent(reached), amount(difference)));
  }

  const runOrder = orderOf();
  return {
    numbers: {
      ...(needed === null ? none : numbersOf(needed)),
      ...(atUpperLimit && { atUpperLimit }),
      ...(detectable && { detectable }),
      ...(runOrder && { runOrder }),
      notes,
    },
    sentences,
  };

  function count(value: number): string {
    return formatFixed(value, 0, locale);
  }

  function whyNone(missing: Extract<Needed, { runsPerVariant: null }>): string {
    const { because, powerAtMaximum } = missing;
    if (because === "no-scatter" || because === "no-difference") return words.because[because];
    const reached = percent(powerAtMaximum ?? 0);
    return because === "baseline-too-few"
      ? words.baselineTooFew(count(baselineRuns ?? 0), reached, count(fewestBaseline() ?? 0))
      : words.beyondMaximum(count(mostRuns), reached);
  }

  /** With how many runs of each it would be reachable. */
  function fewestBaseline(): number | null {
    if (difference === null) return null;
    const { confidence } = request;
    return fewestReplicates({ standardDeviation, difference, power, confidence, maximum: mostRuns }).runsPerVariant;
  }

  function orderOf(): readonly OrderedRun[] | undefined {
    const { order } = request;
    if (order === null) return undefined;
    const each = runs ?? needed?.runsPerVariant ?? null;
    if (each === null) {
      notes.push(words.noOrder);
      return undefined;
    }
    const [baseline = "", ...others] = order.variants;
    const variants = [{ name: baseline, runs: baselineRuns ?? each }, ...others.map((name) => ({ name, runs: each }))];
    const total = variants.reduce((sum, one) => sum + one.runs, 0);
    const fewest = Math.min(...variants.map((one) => one.runs));
    if (total > mostOrderedRuns) notes.push(words.orderTooLong(count(total), count(mostOrderedRuns)));
    else if (order.blocks !== null && order.blocks > fewest)
      notes.push(words.tooManyBlocks(count(order.blocks), count(fewest)));
    else return randomisedRunOrder({ variants, blocks: order.blocks ?? fewest, seed: order.seed });
    return undefined;
  }
}

type Needed = ReturnType<typeof replicatesNeeded>;

function neededFor(request: PlanRequest, standardDeviation: number): Needed | null {
  const { difference, power, confidence, baselineRuns } = request;
  if (difference === null) return null;
  const question = { standardDeviation, difference, power, confidence, maximum: mostRuns };
  return replicatesNeeded(baselineRuns === null ? question : { ...question, baselineRuns });
}

function numbersOf({ runsPerVariant, powerReached, exact }: Needed): RunsNeeded {
  return { runsPerVariant, powerReached, exact };
}

/** A probability in per cent, never rounded to certainty. */
function percentText(probability: number, locale: Locale): string {
  const percent = probability * 100;
  const decimals = [0, 1, 2, 3].find((digits) => {
    const text = Number(percent.toFixed(digits));
    return Math.abs(text - percent) < 0.05 && text < 100 && text > 0;
  });
  if (decimals !== undefined) return formatFixed(percent, decimals, locale);
  return percent > 50 ? wordsFor(locale).planning.over("99.999") : wordsFor(locale).planning.under("0.001");
}
