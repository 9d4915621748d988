import { describe, expect, it } from "vitest";
import { atOnce } from "../../../core/numeric/in-steps.ts";
import { AdaptiveTrials, sequenceTrials } from "../../../core/uncertainty/monte-carlo/adaptive.ts";
import { adaptiveMonteCarlo, monteCarlo } from "../../../core/uncertainty/monte-carlo/monte-carlo.ts";
import { numericalTolerance } from "../../../core/uncertainty/monte-carlo/numerical-tolerance.ts";
import { runTrials } from "../../../core/uncertainty/monte-carlo/run-trials.ts";
import { type OutputTrials, summarise } from "../../../core/uncertainty/monte-carlo/summarise.ts";
import { validateFirstOrder } from "../../../core/uncertainty/monte-carlo/validation.ts";
import { expectNumber } from "../../numbers.ts";
import { independentModel, normal, rectangle, scaledT } from "./models.ts";

const request = { trials: 1_000_000, seed: 11, confidence: 0.95 };
const product = () =>
  independentModel([normal(10, 1), rectangle(2, 4)], (a, inputs) => {
    const [x, y] = [inputs[0] as never, inputs[1] as never];
    return [a.multiply(x, y), x, a.constant(7)];
  });

describe("adaptive procedure", () => {
  it.each([
    [0.95, 10_000],
    [0.9, 10_000],
    [0.99, 10_000],
    [0.995, 20_000],
    [0.997, 33_334],
  ])("level %d: %d trials in a sequence (JCGM 101:2008, 7.9.4 b)", (confidence, trials) => {
    expect(sequenceTrials(confidence)).toBe(trials);
  });

  it.each([1, 2] as const)("stops where 7.9.4 says, at %d digits, with the figures of all trials", (digits) => {
    const model = product();
    const found = atOnce(adaptiveMonteCarlo(model, { ...request, digits }));
    // The rule once more, in plain steps, over sequences that are run by themselves.
    const sequences: OutputTrials[][] = [];
    let stopped = false;
    while (!stopped) {
      const from = sequences.length * 10_000;
      const part = atOnce(runTrials(model, request, { from, to: from + 10_000 }));
      sequences.push(summarise(model, { ...request, trials: 10_000 }, [part]) as OutputTrials[]);
      const h = sequences.length;
      if (h === 1) continue;
      const all = atOnce(monteCarlo(model, { ...request, trials: h * 10_000 })).outputs;
      stopped = [0, 1].every((output) => {
        const tolerance = numericalTolerance(all[output]?.standardUncertainty as number, digits) as number;
        const figures: ((one: OutputTrials) => number)[] = [
          (one) => one.mean as number,
          (one) => one.standardUncertainty as number,
          (one) => one.symmetricInterval?.lower as number,
          (one) => one.symmetricInterval?.upper as number,
        ];
        return figures.every((figure) => {
          const values = sequences.map((one) => figure(one[output] as OutputTrials));
          const mean = values.reduce((sum, value) => sum + value, 0) / h;
          const s = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (h * (h - 1)));
          return 2 * s <= tolerance;
        });
      });
    }
    expect(found.trials).toBe(sequences.length * 10_000);
    expect(found.isStable).toEqual([true, true, true]);
    // More than two sequences, or the stop would not have been tried.
    if (digits === 2) expect(sequences.length).toBeGreaterThan(3);
    expect(found.outputs).toEqual(atOnce(monteCarlo(model, { ...request, trials: found.trials })).outputs);
  });

  it("draws no more than is allowed, and says what has not become stable", () => {
    const model = independentModel([scaledT(0, 1, 1), normal(0, 1)], (_, inputs) => inputs);
    const found = atOnce(adaptiveMonteCarlo(model, { ...request, trials: 65_000, digits: 1 }));
    expect(found.trials).toBe(60_000);
    expect(found.isStable).toEqual([false, true]);
  });

  it("watches the outputs that it is asked to watch", () => {
    const model = independentModel([scaledT(0, 1, 1), normal(0, 1)], (_, inputs) => inputs);
    const found = atOnce(adaptiveMonteCarlo(model, { ...request, digits: 1, watched: [1] }));
    expect(found.trials).toBeLessThan(100_000);
    expect(found.isStable[1]).toBe(true);
  });

  it("takes too few trials for two sequences as they are, and calls nothing stable", () => {
    const model = product();
    const found = atOnce(adaptiveMonteCarlo(model, { ...request, trials: 15_000, digits: 1 }));
    expect(found.trials).toBe(15_000);
    expect(found.isStable).toEqual([false, false, false]);
  });

  it("does not take a sequence of which too few values were kept", () => {
    const model = independentModel([normal(0, 1)], (_, inputs) => inputs);
    const adaptive = new AdaptiveTrials(model, { ...request, digits: 1 });
    const stretch = { from: 0, to: 10_000 };
    expect(adaptive.add(atOnce(runTrials(model, request, { ...stretch, limits: [{ low: -3, high: 3 }] })))).toBe(false);
    expect(adaptive.sequences).toBe(0);
    expect(adaptive.add(atOnce(runTrials(model, request, stretch)))).toBe(true);
  });
});

describe("numerical tolerance (JCGM 101:2008, 7.9.2)", () => {
  // The clause's two examples, from memory: 100.021 47 g with u = 0.000 35 g to two digits; one digit of it.
  it.each([
    [0.00035, 2, 0.000005],
    [0.00035, 1, 0.00005],
    [2, 1, 0.5],
    [2, 2, 0.05],
    [35, 2, 0.5],
    [0.0997, 1, 0.05],
    [0.0997, 2, 0.005],
    [9.96, 2, 0.5],
    [1234, 1, 500],
  ] as const)("u = %d to %d digits: %d", (u, digits, expected) => {
    expectNumber(numericalTolerance(u, digits), expected);
  });

  it("is none where there is no uncertainty", () => {
    expect(numericalTolerance(0, 1)).toBeNull();
    expect(numericalTolerance(Number.POSITIVE_INFINITY, 1)).toBeNull();
  });
});

describe("validation of first order (JCGM 101:2008, clause 8)", () => {
  // Mass calibration, 9.3: y +- U = [1.1285, 1.3395], trials [1.0834, 1.3825] mg, u = 0.0539 mg; d 0.0451 and 0.0430 (table 6, from memory).
  const firstOrder = { lower: 1.1285, upper: 1.3395 };
  const trials = { lower: 1.0834, upper: 1.3825 };

  it("finds first order not good enough for the mass calibration", () => {
    const found = validateFirstOrder(0.0539, firstOrder, trials, 1, null);
    expectNumber(found?.tolerance, 0.005);
    expectNumber(found?.lowerApart, 0.0451, { absolute: 1e-12 });
    expectNumber(found?.upperApart, 0.043, { absolute: 1e-12 });
    expect(found?.validates).toBe(false);
  });

  it("finds it good enough where both ends are within the tolerance", () => {
    expect(validateFirstOrder(0.0539, { lower: 1.085, upper: 1.38 }, trials, 1, null)?.validates).toBe(true);
    expect(validateFirstOrder(0.0539, { lower: 1.085, upper: 1.39 }, trials, 1, null)?.validates).toBe(false);
  });

  it("leaves two digits open unless the trials are stable to two, and all without an interval", () => {
    expect(validateFirstOrder(0.0539, firstOrder, trials, 2, null)).toBeNull();
    expect(validateFirstOrder(0.0539, firstOrder, trials, 2, 1)).toBeNull();
    expectNumber(validateFirstOrder(0.0539, firstOrder, trials, 2, 2)?.tolerance, 0.0005);
    expect(validateFirstOrder(0.0539, firstOrder, null, 1, null)).toBeNull();
    expect(validateFirstOrder(0, firstOrder, trials, 1, null)).toBeNull();
  });
});
