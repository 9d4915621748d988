/** The worked examples of JCGM 100:2008, annex H, H.1 and H.2. The published figures are from memory. */
import { describe, it } from "vitest";
import type { Arithmetic, FormulaOfOne } from "../../core/numeric/arithmetic.ts";
import { studentTCritical } from "../../core/statistics/distribution/student-t.ts";
import { type FirstOrder, firstOrder } from "../../core/uncertainty/first-order.ts";
import { type Model, modelOf } from "../../core/uncertainty/model.ts";
import { expectNumber } from "../numbers.ts";
import { errorSource } from "./monte-carlo/models.ts";

describe("H.1 end gauge", () => {
  // l = l_S + d - l_S (delta_alpha theta + alpha_S delta_theta); nm and degrees Celsius; table H.1.
  const stated = [
    { name: "standard", value: 50_000_623, size: 25, degreesOfFreedom: 18 },
    { name: "difference", value: 215, size: 9.7, degreesOfFreedom: 25.6 },
    { name: "expansion", value: 11.5e-6, size: 1.2e-6, degreesOfFreedom: Number.POSITIVE_INFINITY },
    { name: "temperature", value: -0.1, size: 0.41, degreesOfFreedom: Number.POSITIVE_INFINITY },
    { name: "difference in expansion", value: 0, size: 0.58e-6, degreesOfFreedom: 50 },
    { name: "difference in temperature", value: 0, size: 0.029, degreesOfFreedom: 2 },
  ];
  const model = modelOf(
    stated.map(({ value, size }, source) => ({ value, errors: [{ source, size }] })),
    stated.map(({ name, degreesOfFreedom }) => errorSource(name, { kind: "normal" }, degreesOfFreedom)),
    (a, inputs) => {
      const [standard, difference, expansion, temperature, apart, warmer] = inputs as never[];
      const thermal = a.add(
        a.multiply(apart as never, temperature as never),
        a.multiply(expansion as never, warmer as never),
      );
      const corrected = a.multiply(standard as never, thermal);
      return [a.subtract(a.add(standard as never, difference as never), corrected)];
    },
  );
  const [found] = firstOrder(model);

  it("l = 50 000 838 nm, u_c = 32 nm, u_c^2 = 1002 nm^2 (H.1.4)", () => {
    expectNumber(found?.value, 50_000_838, { absolute: 1e-6 });
    expectNumber(found?.standardUncertainty, 32, { absolute: 0.5 });
    // Published from contributions that were rounded before they were squared.
    expectNumber((found?.standardUncertainty as number) ** 2, 1002, { relative: 0.004 });
  });

  it("contributions 25, 9.7, 0, 0, 2.9 and 16.6 nm (table H.1)", () => {
    [25, 9.7, 0, 0, 2.9, 16.6].forEach((published, source) => {
      expectNumber(Math.abs(found?.contributions[source] as number), published, { absolute: 0.1 });
    });
  });

  it("16.7 effective degrees of freedom; U = 93 nm at 99 % with t of 16, 2.92 (H.1.6)", () => {
    expectNumber(found?.degreesOfFreedom, 16.7, { absolute: 0.1 });
    expectNumber(studentTCritical(0.99, 16), 2.92, { absolute: 0.005 });
    expectNumber(studentTCritical(0.99, 16) * (found?.standardUncertainty as number), 93, { absolute: 0.6 });
  });
});

describe("H.2 resistance and reactance, measured together", () => {
  // V, mA, rad; table H.2: five sets of simultaneous observations.
  const observations = [
    [5.007, 19.663, 1.0456],
    [4.994, 19.639, 1.0438],
    [5.005, 19.64, 1.0468],
    [4.99, 19.685, 1.0428],
    [4.999, 19.678, 1.0433],
  ] as const;
  const n = observations.length;
  const quantities = [0, 1, 2] as const;
  const means = quantities.map((of) => observations.reduce((sum, row) => sum + row[of], 0) / n);

  /** A power series, so that the angle's functions are written in the program's own arithmetic. */
  const series =
    (isOdd: 0 | 1): FormulaOfOne =>
    <M>(a: Arithmetic<M>, x: M): M => {
      let term: M = isOdd === 1 ? x : a.constant(1);
      let total = term;
      for (let order = isOdd + 2; order < 30; order += 2) {
        term = a.divide(a.multiply(term, a.multiply(x, x)), a.constant(-order * (order - 1)));
        total = a.add(total, term);
      }
      return total;
    };
  const cosine = series(0);
  const sine = series(1);

  /** R = V cos(phi) / I, X = V sin(phi) / I, Z = V / I, in ohms. */
  function impedance<N>(a: Arithmetic<N>, inputs: readonly N[]): readonly N[] {
    const [volts, milliamperes, angle] = [inputs[0] as N, inputs[1] as N, inputs[2] as N];
    const z = a.divide(volts, a.divide(milliamperes, a.constant(1000)));
    return [a.multiply(z, a.through(cosine, angle)), a.multiply(z, a.through(sine, angle)), z];
  }

  /** Each set of observations as one error: the covariances of the means are then those of the sets, s(q, r)/n (H.2.2). */
  const bySets = modelOf(
    quantities.map((of) => ({
      value: means[of] as number,
      errors: observations.map((row, source) => ({
        source,
        size: (row[of] - (means[of] as number)) / Math.sqrt(n * (n - 1)),
      })),
    })),
    observations.map((_, set) => errorSource(`set ${set}`, { kind: "normal" })),
    impedance,
  );

  /** From published standard uncertainties and correlations: three errors, by the Cholesky factor of the covariances. */
  function byCorrelations(sizes: readonly number[], [r01, r02, r12]: readonly [number, number, number]): Model {
    const l21 = (r12 - r01 * r02) / Math.sqrt(1 - r01 ** 2);
    const factor = [
      [1, 0, 0],
      [r01, Math.sqrt(1 - r01 ** 2), 0],
      [r02, l21, Math.sqrt(1 - r02 ** 2 - l21 ** 2)],
    ];
    return modelOf(
      quantities.map((of) => ({
        value: means[of] as number,
        errors: (factor[of] as number[]).map((loading, source) => ({ source, size: loading * (sizes[of] as number) })),
      })),
      quantities.map((of) => errorSource(`factor ${of}`, { kind: "normal" })),
      impedance,
    );
  }

  const correlation = (one: FirstOrder, other: FirstOrder) =>
    one.contributions.reduce((sum, part, source) => sum + part * (other.contributions[source] as number), 0) /
    (one.standardUncertainty * other.standardUncertainty);

  function expectPublished(model: Model): void {
    const found = firstOrder(model);
    const [resistance, reactance, whole] = found as [FirstOrder, FirstOrder, FirstOrder];
    // Table H.3.
    expectNumber(resistance.value, 127.732, { absolute: 0.0006 });
    expectNumber(reactance.value, 219.847, { absolute: 0.0006 });
    expectNumber(whole.value, 254.26, { absolute: 0.0006 });
    expectNumber(resistance.standardUncertainty, 0.071, { absolute: 0.0012 });
    expectNumber(reactance.standardUncertainty, 0.295, { absolute: 0.0012 });
    expectNumber(whole.standardUncertainty, 0.236, { absolute: 0.0012 });
    expectNumber(correlation(resistance, reactance), -0.588, { absolute: 0.015 });
    expectNumber(correlation(resistance, whole), -0.485, { absolute: 0.015 });
    expectNumber(correlation(reactance, whole), 0.993, { absolute: 0.001 });
  }

  it("means and standard uncertainties of the observations (table H.2)", () => {
    [4.999, 19.661, 1.04446].forEach((published, of) => {
      expectNumber(means[of], published, { absolute: 1e-9 });
    });
    [0.0032, 0.0095, 0.00075].forEach((published, of) => {
      const errors = bySets.inputs[of]?.errors ?? [];
      const size = Math.hypot(...errors.map((error) => error.size));
      expectNumber(size, published, { relative: 0.02 });
    });
  });

  it("R, X and Z with their correlations, from the five sets (tables H.3 and H.4)", () => {
    expectPublished(bySets);
  });

  it("the same from the published correlations of the inputs: -0.36, 0.86, -0.65", () => {
    expectPublished(byCorrelations([0.0032, 0.0095, 0.00075], [-0.36, 0.86, -0.65]));
  });
});
