import { describe, expect, it } from "vitest";
import { type Arithmetic, type FormulaOfOne, plainNumbers } from "../../../core/numeric/arithmetic.ts";
import { atOnce } from "../../../core/numeric/in-steps.ts";
import { type Model, modelOf } from "../../../core/uncertainty/model.ts";
import { blockEvaluator } from "../../../core/uncertainty/monte-carlo/block-evaluator.ts";
import { blockSize } from "../../../core/uncertainty/monte-carlo/block-size.ts";
import { drawsOf } from "../../../core/uncertainty/monte-carlo/draws.ts";
import { monteCarlo } from "../../../core/uncertainty/monte-carlo/monte-carlo.ts";
import { RandomStream } from "../../../core/uncertainty/monte-carlo/random-stream.ts";
import { runTrials, type TrialsRequest } from "../../../core/uncertainty/monte-carlo/run-trials.ts";
import { streamKey } from "../../../core/uncertainty/monte-carlo/stream-key.ts";
import { type OutputTrials, summarise } from "../../../core/uncertainty/monte-carlo/summarise.ts";
import { latentHeat } from "../../../core/water/latent-heat.ts";
import { expectNumber } from "../../numbers.ts";
import { errorSource, independentModel, normal, rectangle, scaledT } from "./models.ts";

type Formulas = <N>(arithmetic: Arithmetic<N>, inputs: readonly N[]) => readonly N[];

/** Every value of an output, worked out trial by trial in plain numbers from the sources' own draws. */
function valuesOneByOne(model: Model, formulas: Formulas, seed: number, trials: number): number[][] {
  const stream = new RandomStream();
  const words = new Int32Array(2 * blockSize);
  const all: number[][] = [];
  for (let block = 0; block * blockSize < trials; block += 1) {
    const draws = model.sources.map(({ key, distribution }) => {
      const found = new Float64Array(blockSize);
      stream.start(streamKey(seed, key), block);
      drawsOf(distribution)(stream, found, words);
      return found;
    });
    for (let at = 0; at < blockSize && all.length < trials; at += 1) {
      const inputs = model.inputs.map(({ value, errors }) =>
        errors.reduce((sum, { source, size }) => sum + size * ((draws[source] as Float64Array)[at] as number), value),
      );
      all.push([...formulas(plainNumbers, inputs)]);
    }
  }
  return all;
}

/** Statistics by their definitions, over all values (JCGM 101:2008, 7.6, 7.7). */
function byDefinition(values: readonly number[], confidence: number) {
  const m = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / m;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (m - 1);
  const y = [Number.NaN, ...values.toSorted((one, other) => one - other)];
  const q = Number.isInteger(confidence * m) ? confidence * m : Math.floor(confidence * m + 0.5);
  const r = Number.isInteger((m - q) / 2) ? (m - q) / 2 : Math.floor((m - q + 1) / 2);
  let best = 1;
  for (let at = 1; at <= m - q; at += 1) {
    if ((y[at + q] as number) - (y[at] as number) < (y[best + q] as number) - (y[best] as number)) best = at;
  }
  return {
    mean,
    standardUncertainty: Math.sqrt(variance),
    symmetric: { lower: y[r], upper: y[r + q] },
    shortest: { lower: y[best], upper: y[best + q] },
  };
}

const request = (trials: number, more: Partial<TrialsRequest> = {}): TrialsRequest => ({
  ...{ trials, seed: 5, confidence: 0.95 },
  ...more,
});

/** All kinds of steps, on numbers and on constants. */
const everyStep: Formulas = <N>(a: Arithmetic<N>, inputs: readonly N[]): readonly N[] => {
  const [x, y, z] = [inputs[0] as N, inputs[1] as N, inputs[2] as N];
  const six = a.constant(6);
  const product = a.multiply(x, y);
  return [
    product,
    a.add(a.add(x, six), a.add(six, y)),
    a.subtract(a.subtract(six, x), a.subtract(y, six)),
    a.divide(a.divide(x, six), a.divide(six, y)),
    a.divide(a.multiply(six, z), a.multiply(x, six)),
    a.power(x, 2),
    a.power(x, 0.5),
    a.power(x, -1),
    a.power(x, 1.7),
    a.exponential(a.subtract(x, y)),
    a.multiply(y, x),
    a.subtract(product, a.multiply(x, z)),
    a.add(x, a.multiply(x, x)),
    a.constant(42),
  ];
};

/** Three inputs; the first and the last share an error, the last has four. */
const shared = () =>
  modelOf(
    [
      {
        value: 20,
        errors: [
          { source: 0, size: 0.5 },
          { source: 1, size: 0.3 },
        ],
      },
      { value: 19, errors: [{ source: 2, size: 0.4 }] },
      {
        value: 3,
        errors: [
          { source: 1, size: -0.2 },
          { source: 3, size: 0.1 },
          { source: 4, size: 0.2 },
          { source: 5, size: 0 },
        ],
      },
    ],
    [
      errorSource("a", { kind: "normal" }),
      errorSource("shared", { kind: "rectangular" }),
      errorSource("b", { kind: "triangular" }),
      errorSource("c", { kind: "t", degreesOfFreedom: 4 }),
      errorSource("d", { kind: "arcsine" }),
      errorSource("e", { kind: "normal" }),
    ],
    everyStep,
  );

function expectDefinition(found: OutputTrials | undefined, values: readonly number[], confidence: number): void {
  const expected = byDefinition(values, confidence);
  expectNumber(found?.mean, expected.mean, { relative: 1e-12, absolute: 1e-12 });
  expectNumber(found?.standardUncertainty, expected.standardUncertainty, { relative: 1e-10 });
  for (const [interval, ends] of [
    [found?.symmetricInterval, expected.symmetric],
    [found?.shortestInterval, expected.shortest],
  ] as const) {
    expectNumber(interval?.lower, ends.lower as number, { relative: 1e-13, absolute: 1e-14 });
    expectNumber(interval?.upper, ends.upper as number, { relative: 1e-13, absolute: 1e-14 });
  }
}

describe("trials of a model", () => {
  // 45,500: most values are let go, and the last block is half used. 18,400: all are kept. 0.5: half of the values on each side.
  it.each([
    [45_500, 0.95],
    [45_500, 0.99],
    [45_500, 0.5],
    [18_400, 0.95],
    [1_001, 0.9],
  ])(
    "%d trials at level %d: every figure as its definition has it, over all values computed one by one",
    (trials, level) => {
      const model = shared();
      const values = valuesOneByOne(model, everyStep, 5, trials);
      const { outputs } = atOnce(monteCarlo(model, request(trials, { confidence: level })));
      expect(outputs).toHaveLength(14);
      outputs.slice(0, 13).forEach((output, position) => {
        expect(output.trials).toBe(trials);
        expectDefinition(
          output,
          values.map((row) => row[position] as number),
          level,
        );
      });
      expect(outputs[13]).toMatchObject({
        mean: 42,
        standardUncertainty: 0,
        shortestInterval: { lower: 42, upper: 42 },
      });
      // x y and y x are one step.
      expect(outputs[10]).toEqual(outputs[0]);
      expect(blockEvaluator(model, 1).varying).toBe(12);
    },
  );

  it("gives the same results, to the last bit, however the trials are divided", () => {
    const model = shared();
    const asked = request(120_500);
    const divided = (...bounds: readonly number[]) =>
      summarise(
        model,
        asked,
        bounds.slice(1).map((to, part) => atOnce(runTrials(model, asked, { from: bounds[part] as number, to }))),
      );
    const whole = divided(0, 120_500);
    expect(whole).not.toContain(null);
    expect(divided(0, 60_000, 120_500)).toEqual(whole);
    expect(divided(0, 1_000, 60_000, 61_000, 119_000, 120_500)).toEqual(whole);
  });

  it("draws a shared error once for all runs: a model with one output more, or another order, has the same values", () => {
    const short = modelOf(
      [{ value: 1, errors: [{ source: 0, size: 1 }] }],
      [errorSource("shared", { kind: "rectangular" })],
      (_, inputs) => inputs,
    );
    const one = atOnce(runTrials(short, request(3_000), { from: 0, to: 3_000 })).outputs[0];
    const long = modelOf(
      [
        { value: 1, errors: [{ source: 1, size: 1 }] },
        { value: 1, errors: [{ source: 0, size: 1 }] },
      ],
      [errorSource("other", { kind: "normal" }), errorSource("shared", { kind: "rectangular" })],
      (a, inputs) => [a.multiply(inputs[0] as never, inputs[1] as never), ...inputs],
    );
    const other = atOnce(runTrials(long, request(3_000), { from: 0, to: 3_000 })).outputs[1];
    expect(other?.low).toEqual(one?.low);
  });

  it("tells where too few values were kept, rather than give an end that is off", () => {
    const model = independentModel([normal(0, 1)], (_, inputs) => inputs);
    const asked = request(50_000);
    const tight = atOnce(runTrials(model, asked, { from: 0, to: 50_000, limits: [{ low: -1.7, high: 1.5 }] }));
    expect(summarise(model, asked, [tight])).toEqual([null]);
    const wide = atOnce(runTrials(model, asked, { from: 0, to: 50_000, limits: [{ low: -1.5, high: 1.5 }] }));
    expect(summarise(model, asked, [wide])).toEqual(atOnce(monteCarlo(model, asked)).outputs);
  });

  it("keeps a tenth of the values at 95 %, not all", () => {
    const model = independentModel([normal(0, 1)], (_, inputs) => inputs);
    const { outputs } = atOnce(runTrials(model, request(200_000), { from: 0, to: 200_000 }));
    for (const kept of [outputs[0]?.low, outputs[0]?.high]) {
      expect(kept?.length).toBeGreaterThanOrEqual(10_000);
      expect(kept?.length).toBeLessThan(15_000);
    }
  });

  it("is steady where values differ by little from a large one", () => {
    const model = independentModel([rectangle(1e9 - 1e-3, 1e9 + 1e-3)], (_, inputs) => inputs);
    const { outputs } = atOnce(monteCarlo(model, request(100_000)));
    // 1e9 has steps of 1.2e-7: a ten-thousandth of the half-width.
    expectNumber(outputs[0]?.standardUncertainty, 1e-3 / Math.sqrt(3), { relative: 0.01 });
  });

  it("takes values that all are equal to rounding", () => {
    const model = independentModel([normal(1, 1e-20)], (_, inputs) => inputs);
    const { outputs } = atOnce(monteCarlo(model, request(60_000)));
    expect(outputs[0]).toMatchObject({ mean: 1, standardUncertainty: 0, shortestInterval: { lower: 1, upper: 1 } });
  });
});

describe("values that are not finite or not possible", () => {
  /** 1 / max(0, x) as a formula: infinite for half of the trials. */
  const overflowing: Formulas = (a, [x]) => [a.exponential(a.multiply(a.constant(1e6), x as never))];

  it("orders infinite values at the ends, counts them, and gives no mean", () => {
    const model = independentModel([normal(0, 1)], overflowing);
    const { outputs } = atOnce(monteCarlo(model, request(50_000)));
    const [output] = outputs;
    expect(output).toMatchObject({ mean: null, standardUncertainty: null });
    expect(output?.notFinite.infinite).toBeGreaterThan(24_000);
    expect(output?.notFinite.infinite).toBeLessThan(26_000);
    expect(output?.symmetricInterval).toEqual({ lower: 0, upper: Number.POSITIVE_INFINITY });
  });

  it("counts trials without a number, and gives no interval then", () => {
    const model = independentModel([normal(1, 1)], (a, [x]) => [a.power(x as never, 1.5), x as never]);
    const { outputs } = atOnce(monteCarlo(model, request(50_000)));
    const [root, itself] = outputs;
    expect(root).toMatchObject({ mean: null, symmetricInterval: null, shortestInterval: null });
    // P(x < 0) = 0.1587
    expectNumber(root?.notFinite.notNumbers, 50_000 * 0.15865525, {
      absolute: 5 * Math.sqrt(50_000 * 0.1587 * 0.8413),
    });
    expect(itself?.notFinite).toEqual({ infinite: 0, notNumbers: 0 });
    expect(itself?.symmetricInterval).not.toBeNull();
  });

  // Bounds beyond the kept values, within them, and in the middle.
  it.each([
    [-4, 4],
    [-1.8, 1.8],
    [-0.5, 0.2],
    [0.7, 3],
  ])("counts trials outside %d to %d", (lower, upper) => {
    const model = independentModel([normal(0, 1)], (_, inputs) => inputs);
    const values = valuesOneByOne(model, (_, inputs) => inputs, 5, 60_000).map(([value]) => value as number);
    const { outputs } = atOnce(monteCarlo(model, request(60_000, { ranges: [{ lower, upper }] })));
    expect(outputs[0]?.outside).toEqual({
      below: values.filter((value) => value < lower).length,
      above: values.filter((value) => value > upper).length,
    });
  });

  it("says of an exact output that is not possible that no trial of it is", () => {
    const model = independentModel([normal(0, 1)], (a) => [a.constant(2)]);
    const { outputs } = atOnce(monteCarlo(model, request(1_000, { ranges: [{ lower: 0, upper: 1 }] })));
    expect(outputs[0]?.outside).toEqual({ below: 0, above: 1_000 });
  });

  it("copes with distributions that have no variance", () => {
    const model = independentModel([scaledT(0, 1, 0.7)], (_, inputs) => inputs);
    const values = valuesOneByOne(model, (_, inputs) => inputs, 5, 60_000).map(([value]) => value as number);
    const { outputs } = atOnce(monteCarlo(model, request(60_000)));
    expectDefinition(outputs[0], values, 0.95);
  });
});

describe("functions that are interpolated", () => {
  const through: Formulas = (a, [x]) => [a.through(latentHeat as FormulaOfOne, x as never)];

  it.each([
    ["half a kelvin, normal", normal(95, 0.5)],
    ["ten kelvins, normal: part of the trials beyond the polynomial", normal(95, 10)],
    ["a t with one degree of freedom: some far outside", scaledT(100, 0.05, 1)],
  ])("latent heat of water, %s: each trial agrees with the formula to 1e-12", (_, stated) => {
    const model = independentModel([stated], through);
    const values = valuesOneByOne(model, through, 5, 5_000).map(([value]) => value as number);
    const found: number[] = [];
    const evaluator = blockEvaluator(model, 5);
    for (let block = 0; block < 5; block += 1) evaluator.evaluate(block, (__, block) => found.push(...block));
    values.forEach((value, trial) => {
      if (Number.isNaN(value)) expect(found[trial]).toBeNaN();
      else expectNumber(found[trial], value, { relative: 1e-12 });
    });
  });

  it("takes the formula itself where no polynomial follows it", () => {
    const kink: FormulaOfOne = (a, x) => (a.nominal(x) > 0 ? x : a.constant(0));
    const formulas: Formulas = (a, [x]) => [a.through(kink, x as never)];
    const model = independentModel([normal(0.1, 1)], formulas);
    const values = valuesOneByOne(model, formulas, 5, 25_000).map(([value]) => value as number);
    expectDefinition(atOnce(monteCarlo(model, request(25_000))).outputs[0], values, 0.95);
  });
});
