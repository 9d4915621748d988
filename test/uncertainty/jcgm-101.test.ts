/**
 * The worked examples of JCGM 101:2008, clause 9. The published figures are from memory, except those of the gauge block, which a paper
 * that repeats the example also gives (838 nm, 36 nm, [745, 932] nm at 99 %). Wherever there is an exact answer, that is checked too.
 */
import { describe, expect, it } from "vitest";
import { atOnce } from "../../core/numeric/in-steps.ts";
import { normalLowerTail } from "../../core/statistics/distribution/normal.ts";
import { studentTCritical } from "../../core/statistics/distribution/student-t.ts";
import { firstOrder } from "../../core/uncertainty/first-order.ts";
import { type Model, modelOf } from "../../core/uncertainty/model.ts";
import { monteCarlo } from "../../core/uncertainty/monte-carlo/monte-carlo.ts";
import type { OutputTrials } from "../../core/uncertainty/monte-carlo/summarise.ts";
import { validateFirstOrder } from "../../core/uncertainty/monte-carlo/validation.ts";
import { expectNumber } from "../numbers.ts";
import { errorSource, independentModel, normal, rectangle, type StatedInput, scaledT } from "./monte-carlo/models.ts";

const trials = 1_000_000;
const seed = 1;

function drawn(model: Model, confidence = 0.95): OutputTrials {
  const [output] = atOnce(monteCarlo(model, { trials, seed, confidence })).outputs;
  if (output === undefined) throw new RangeError("the model has no output");
  return output;
}

/** Half-width of an interval of first order that takes the output as normal. */
const normalHalf = (u: number) => 1.959963984540054 * u;

const additive = (inputs: readonly StatedInput[]) =>
  independentModel(inputs, (a, values) => [values.reduce((sum, value) => a.add(sum, value))]);

const standard = (size: number): StatedInput => rectangle(-size * Math.sqrt(3), size * Math.sqrt(3));

/** P(Y <= y) of a sum of rectangles about 0: the sum over the corners of the box of (y + corner)^n, where that is positive. */
function sumOfRectangles(y: number, halfWidths: readonly number[]): number {
  const n = halfWidths.length;
  let total = 0;
  for (let corner = 0; corner < 2 ** n; corner += 1) {
    let at = y;
    let sign = 1;
    halfWidths.forEach((half, index) => {
      const isUpper = ((corner >> index) & 1) === 0;
      at += isUpper ? half : -half;
      if (!isUpper) sign = -sign;
    });
    total += sign * Math.max(0, at) ** n;
  }
  const factorial = Array.from({ length: n }, (_, index) => index + 1).reduce((product, one) => product * one, 1);
  return total / (factorial * halfWidths.reduce((product, half) => product * 2 * half, 1));
}

/** Where a growing function reaches a value. */
function whereReached(grow: (x: number) => number, value: number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let round = 0; round < 50; round += 1) {
    const middle = (low + high) / 2;
    if (grow(middle) < value) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

describe("9.2 additive model", () => {
  it("9.2.2 four normal inputs: y = 0.00, u = 2.00, [-3.92, 3.92] (table 2)", () => {
    const model = additive([1, 1, 1, 1].map((size) => normal(0, size)));
    const [first] = firstOrder(model);
    expectNumber(first?.value, 0);
    expectNumber(first?.standardUncertainty, 2, { relative: 1e-14 });
    const found = drawn(model);
    // Standard errors of 10^6 trials: mean 0.002, standard deviation 0.0014, ends of the interval 0.0053.
    expectNumber(found.mean, 0, { absolute: 4 * 0.002 });
    expectNumber(found.standardUncertainty, 2, { absolute: 4 * 0.0014 });
    expectNumber(found.symmetricInterval?.lower, -3.92, { absolute: 4 * 0.0053 });
    expectNumber(found.symmetricInterval?.upper, 3.92, { absolute: 4 * 0.0053 });
  });

  it("9.2.3 four rectangular inputs of the same widths: [-3.88, 3.88], exactly 2 sqrt(3) (2 - (3/5)^(1/4)) (table 3)", () => {
    const model = additive([1, 1, 1, 1].map(standard));
    const exact = 2 * Math.sqrt(3) * (2 - 0.6 ** 0.25);
    expectNumber(exact, 3.88, { absolute: 0.005 });
    expectNumber(sumOfRectangles(exact, Array(4).fill(Math.sqrt(3))), 0.975, { absolute: 1e-12 });
    const found = drawn(model);
    expectNumber(found.standardUncertainty, 2, { absolute: 4 * 0.0013 });
    expectNumber(found.symmetricInterval?.lower, -exact, { absolute: 4 * 0.0045 });
    expectNumber(found.symmetricInterval?.upper, exact, { absolute: 4 * 0.0045 });
    const [first] = firstOrder(model);
    // y +- U = 3.92: off by 0.04, which is within the tolerance of one digit of u = 2, 0.5.
    const half = normalHalf(first?.standardUncertainty as number);
    const validation = validateFirstOrder(2, { lower: -half, upper: half }, found.symmetricInterval, 1, null);
    expect(validation?.validates).toBe(true);
  });

  it("9.2.4 four rectangular inputs, one ten times as wide: u = 10.1, [-17.0, 17.0] where first order has 19.9 (table 4)", () => {
    const model = additive([1, 1, 1, 10].map(standard));
    const [first] = firstOrder(model);
    expectNumber(first?.standardUncertainty, Math.sqrt(103), { relative: 1e-14 });
    const half = normalHalf(first?.standardUncertainty as number);
    expectNumber(half, 19.9, { absolute: 0.05 });
    const widths = [1, 1, 1, 10].map((size) => size * Math.sqrt(3));
    const exact = whereReached((y) => sumOfRectangles(y, widths), 0.975, 0, 25);
    expectNumber(exact, 17, { absolute: 0.05 });
    const found = drawn(model);
    expectNumber(found.standardUncertainty, Math.sqrt(103), { relative: 0.003 });
    // The density at the end is 1/40 of the whole: standard error 0.0064.
    expectNumber(found.symmetricInterval?.lower, -exact, { absolute: 4 * 0.0064 });
    expectNumber(found.symmetricInterval?.upper, exact, { absolute: 4 * 0.0064 });
    const interval = { lower: -half, upper: half };
    expect(validateFirstOrder(Math.sqrt(103), interval, found.symmetricInterval, 1, null)?.validates).toBe(true);
    expect(validateFirstOrder(Math.sqrt(103), interval, found.symmetricInterval, 2, 2)?.validates).toBe(false);
  });
});

describe("9.3 mass calibration", () => {
  // mg and kg/m^3; table 5.
  const model = independentModel(
    [normal(100_000, 0.05), normal(1.234, 0.02), rectangle(1.1, 1.3), rectangle(7_000, 9_000), rectangle(7_950, 8_050)],
    (a, inputs) => {
      const [reference, difference, air, weight, standardDensity] = inputs as [never, never, never, never, never];
      const one = a.constant(1);
      const buoyancy = a.multiply(
        a.subtract(air, a.constant(1.2)),
        a.subtract(a.divide(one, weight), a.divide(one, standardDensity)),
      );
      const total = a.multiply(a.add(reference, difference), a.add(one, buoyancy));
      return [a.subtract(total, a.constant(100_000))];
    },
  );

  it("first order: 1.2340, 0.0539, [1.1285, 1.3395] mg (table 6)", () => {
    const [first] = firstOrder(model);
    expectNumber(first?.value, 1.234, { absolute: 0.00005 });
    expectNumber(first?.standardUncertainty, 0.0539, { absolute: 0.00005 });
    const half = normalHalf(first?.standardUncertainty as number);
    expectNumber(1.234 - half, 1.1285, { absolute: 0.0001 });
    expectNumber(1.234 + half, 1.3395, { absolute: 0.0001 });
  });

  it("trials: 1.2341, 0.0754, shortest [1.0834, 1.3825] mg; first order is not validated (table 6)", () => {
    const found = drawn(model);
    // Both calculations have sampling errors: u(mean) 0.00008, and more at the ends of the shortest interval, which is flat.
    expectNumber(found.mean, 1.2341, { absolute: 0.0004 });
    expectNumber(found.standardUncertainty, 0.0754, { absolute: 0.0003 });
    expectNumber(found.shortestInterval?.lower, 1.0834, { absolute: 0.003 });
    expectNumber(found.shortestInterval?.upper, 1.3825, { absolute: 0.003 });
    const interval = { lower: 1.1285, upper: 1.3395 };
    expect(validateFirstOrder(0.0539, interval, found.shortestInterval, 1, null)?.validates).toBe(false);
  });

  it("second-order terms account for the difference: u = 0.0750 mg (table 6)", () => {
    // The one product of errors that matters: air density and weight density, d2/(d air d weight) = -m/weight^2.
    const product = (100_000 / 8_000 ** 2) * (0.1 / Math.sqrt(3)) * (1_000 / Math.sqrt(3));
    const other = (100_000 / 8_000 ** 2) * (0.1 / Math.sqrt(3)) * (50 / Math.sqrt(3));
    const [first] = firstOrder(model);
    expectNumber(Math.hypot(first?.standardUncertainty as number, product, other), 0.075, { absolute: 0.00005 });
  });
});

describe("9.4 comparison loss", () => {
  const u = 0.005;

  /** X1^2 + X2^2 about (x1, 0), correlated by r through one common error. */
  function lossModel(x1: number, r: number): Model {
    const inputs = [
      { value: x1, errors: [{ source: 0, size: u }] },
      {
        value: 0,
        errors: [
          { source: 0, size: r * u },
          { source: 1, size: Math.sqrt(1 - r * r) * u },
        ],
      },
    ];
    const sources = ["one", "two"].map((key) => errorSource(key, { kind: "normal" }));
    return modelOf(inputs, sources, (a, [x, y]) => [a.add(a.power(x as never, 2), a.power(y as never, 2))]);
  }

  /** P(Y <= y), by Simpson's rule over the first input. */
  function cumulative(y: number, x1: number, r: number): number {
    if (y <= 0) return 0;
    const edge = Math.sqrt(y);
    const rest = u * Math.sqrt(1 - r * r);
    // X1 = edge sin(t), so that the integrand is smooth at the ends.
    const steps = 200;
    let total = 0;
    for (let step = 0; step <= steps; step += 1) {
      const t = -Math.PI / 2 + (Math.PI * step) / steps;
      const x = edge * Math.sin(t);
      const half = edge * Math.cos(t);
      const z = (x - x1) / u;
      const centre = r * (x - x1);
      const inside = normalLowerTail((half - centre) / rest) - normalLowerTail((-half - centre) / rest);
      const weight = step === 0 || step === steps ? 1 : step % 2 === 1 ? 4 : 2;
      total += weight * ((Math.exp((-z * z) / 2) / (u * Math.sqrt(2 * Math.PI))) * inside * half);
    }
    return (total * Math.PI) / steps / 3;
  }

  function shortestExactly(x1: number, r: number): { lower: number; upper: number } {
    const grow = (y: number) => cumulative(y, x1, r);
    const upperOf = (lower: number) =>
      whereReached(grow, Math.min(1 - 1e-9, grow(lower) + 0.95), lower, (x1 + 8 * u) ** 2);
    let best = { lower: 0, upper: upperOf(0) };
    const top = whereReached(grow, 0.0499, 0, (x1 + 8 * u) ** 2);
    for (let step = 1; step <= 50; step += 1) {
      const lower = (top * step) / 50;
      const upper = upperOf(lower);
      if (upper - lower < best.upper - best.lower) best = { lower, upper };
    }
    return best;
  }

  // Tables 8 (r = 0) and 9 (r = 0.9): estimate and standard uncertainty, and for r = 0 shortest interval, of the trials; in 10^-6.
  const published = [
    { x1: 0, r: 0, y: 50, u: 50, shortest: [0, 150] },
    { x1: 0.01, r: 0, y: 150, u: 112, shortest: [0, 367] },
    { x1: 0.05, r: 0, y: 2550, u: 502, shortest: [1590, 3543] },
    { x1: 0, r: 0.9, y: 50, u: 67, shortest: null },
    { x1: 0.01, r: 0.9, y: 150, u: 121, shortest: null },
    { x1: 0.05, r: 0.9, y: 2550, u: 505, shortest: null },
  ] as const;

  it.each(published)(
    "x1 = $x1, r = $r: y = $y, u = $u, all in millionths; ends as the exact distribution has them",
    (row) => {
      const { x1, r } = row;
      const found = drawn(lossModel(x1, r));
      const exactMean = x1 ** 2 + 2 * u ** 2;
      const exactU = Math.sqrt(4 * x1 ** 2 * u ** 2 + 4 * u ** 4 * (1 + r * r));
      expectNumber(exactMean, row.y * 1e-6, { absolute: 0.5e-6 });
      expectNumber(exactU, row.u * 1e-6, { absolute: 0.8e-6 });
      expectNumber(found.mean, exactMean, { absolute: (5 * exactU) / 1000 });
      expectNumber(found.standardUncertainty, exactU, { relative: 0.01 });
      const exact = shortestExactly(x1, r);
      // Where the shortest interval is not tied to 0 its ends move together by a few per cent of u from one sample to another.
      expectNumber(found.shortestInterval?.lower, exact.lower, { absolute: 0.06 * exactU });
      expectNumber(found.shortestInterval?.upper, exact.upper, { absolute: 0.06 * exactU });
      const length = (found.shortestInterval?.upper as number) - (found.shortestInterval?.lower as number);
      expectNumber(length, exact.upper - exact.lower, { relative: 0.01 });
      if (row.shortest !== null) {
        expectNumber(exact.lower, row.shortest[0] * 1e-6, { absolute: 0.06 * exactU });
        expectNumber(exact.upper, row.shortest[1] * 1e-6, { absolute: 0.06 * exactU });
      }
    },
  );

  it.each([
    [0, 0, 0],
    [0.01, 0.0001, 0.0001],
    [0.05, 0.0025, 0.0005],
  ])(
    "first order at x1 = %d: y = %d, u = %d, for either r (tables 8 and 9): zero where the slope is zero",
    (x1, y, expected) => {
      for (const r of [0, 0.9]) {
        const [first] = firstOrder(lossModel(x1, r));
        expectNumber(first?.value, y, { relative: 1e-12 });
        expectNumber(first?.standardUncertainty, expected, { relative: 1e-12 });
      }
    },
  );
});

describe("9.5 gauge block", () => {
  const nominal = 50_000_000;
  // nm and degrees Celsius; table 10.
  const model = independentModel(
    [
      scaledT(50_000_623, 25, 18),
      scaledT(215, 6, 24),
      scaledT(0, 4, 5),
      scaledT(0, 7, 8),
      rectangle(9.5e-6, 13.5e-6),
      normal(-0.1, 0.2),
      { value: 0, size: 0.5 / Math.SQRT2, distribution: { kind: "arcsine" } },
      curvilinear(1e-6, 0.1e-6),
      curvilinear(0.05, 0.025),
    ],
    (a, inputs) => {
      const [reference, difference, random, systematic, expansion, mean, cycle, apart, warmer] = inputs as never[];
      const temperature = a.add(mean as never, cycle as never);
      const thermal = a.add(a.multiply(apart as never, temperature), a.multiply(expansion as never, warmer as never));
      const length = a.add(a.add(reference as never, difference as never), a.add(random as never, systematic as never));
      const corrected = a.subtract(length, a.multiply(reference as never, thermal));
      return [a.subtract(corrected, a.constant(nominal))];
    },
  );

  /** A rectangle about 0 of a half-width that is known within +- `inexactness`; u^2 = a^2/3 + d^2/9 (6.4.3.3). */
  function curvilinear(halfWidth: number, inexactness: number): StatedInput {
    return {
      value: 0,
      size: Math.sqrt(halfWidth ** 2 / 3 + inexactness ** 2 / 9),
      distribution: { kind: "curvilinearTrapezoid", inexactness: inexactness / halfWidth },
    };
  }

  it("first order: 838 nm, 32 nm, [745, 931] nm at 99 %, with the 16 degrees of freedom of JCGM 100, H.1 (table 11)", () => {
    const [first] = firstOrder(model);
    expectNumber(first?.value, 838, { absolute: 1e-6 });
    expectNumber(first?.standardUncertainty, 32, { absolute: 0.5 });
    const half = studentTCritical(0.99, 16) * (first?.standardUncertainty as number);
    expectNumber(838 - half, 745, { absolute: 1 });
    expectNumber(838 + half, 931, { absolute: 1 });
  });

  it("trials: 838 nm, 36 nm, [745, 932] nm at 99 % (table 11)", () => {
    const found = drawn(model, 0.99);
    expectNumber(found.mean, 838, { absolute: 0.5 });
    expectNumber(found.standardUncertainty, 36, { absolute: 0.5 });
    // Ends: half a nanometre of rounding, and sampling errors of two calculations of 10^6 trials, 0.4 nm.
    expectNumber(found.symmetricInterval?.lower, 745, { absolute: 2 });
    expectNumber(found.symmetricInterval?.upper, 932, { absolute: 2 });
  });
});
