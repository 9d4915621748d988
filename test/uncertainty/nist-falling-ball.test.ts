import { describe, it } from "vitest";
import type { Arithmetic } from "../../core/numeric/arithmetic.ts";
import { atOnce } from "../../core/numeric/in-steps.ts";
import type { ErrorSource } from "../../core/uncertainty/error-source.ts";
import { firstOrder } from "../../core/uncertainty/first-order.ts";
import { modelOf } from "../../core/uncertainty/model.ts";
import { monteCarlo } from "../../core/uncertainty/monte-carlo/monte-carlo.ts";
import { expectNumber } from "../numbers.ts";

/**
 * NIST Technical Note 1900 (2015), example E3, the falling-ball viscometer: the viscosity of a solution from the travel times of a ball in it
 * and in a calibration liquid. Inputs and results from memory of the note. A quotient with 15 % uncertainty below: clearly not linear.
 */
const inputs = [
  { key: "viscosity of the calibration liquid, mPa s", value: 4.63, size: 0.0463 },
  { key: "travel time in the solution, s", value: 61, size: 6.1 },
  { key: "travel time in the calibration liquid, s", value: 36.6, size: 5.49 },
  { key: "density of the ball, kg/m3", value: 2217, size: 0.5 },
  { key: "density of the calibration liquid, kg/m3", value: 810, size: 0.5 },
  { key: "density of the solution, kg/m3", value: 1180, size: 0.5 },
];
const sources = inputs.map(({ key }): ErrorSource => {
  const owner = { kind: "setting" as const, setting: key };
  const distribution = { kind: "normal" as const };
  return { key, distribution, degreesOfFreedom: Number.POSITIVE_INFINITY, isShared: false, owner, component: key };
});
const model = modelOf(
  inputs.map(({ value, size }, source) => ({ value, errors: [{ source, size }] })),
  sources,
  <N>(a: Arithmetic<N>, x: readonly N[]) => {
    const [viscosity, time, calibrationTime, ball, liquid, solution] = x as [N, N, N, N, N, N];
    const buoyancy = a.divide(a.subtract(ball, solution), a.subtract(ball, liquid));
    return [a.multiply(a.multiply(viscosity, buoyancy), a.divide(time, calibrationTime))];
  },
);

describe("the falling-ball viscometer of NIST TN 1900, E3 (figures from memory)", () => {
  it("by trials: mean 5.82, standard deviation 1.11, 95 % of them from 4.05 to 8.39 mPa s", () => {
    const { outputs } = atOnce(monteCarlo(model, { trials: 1_000_000, seed: 3, confidence: 0.95 }));
    // Both are by simulation and rounded to two decimals.
    expectNumber(outputs[0]?.mean, 5.82, { absolute: 0.01 });
    expectNumber(outputs[0]?.standardUncertainty, 1.11, { absolute: 0.01 });
    expectNumber(outputs[0]?.symmetricInterval?.lower, 4.05, { absolute: 0.015 });
    expectNumber(outputs[0]?.symmetricInterval?.upper, 8.39, { absolute: 0.03 });
  });

  it("by first order: the relative uncertainties in quadrature", () => {
    // By hand: densities, 0.5 in differences of 1407 and 1037 kg/m3, hardly count.
    const densities = [0.5 / 1037 - 0.5 / 1407, 0.5 / 1407, 0.5 / 1037];
    const relative = Math.hypot(0.01, 0.1, 0.15, ...densities);
    const value = (4.63 * 1037 * 61) / (1407 * 36.6);
    expectNumber(firstOrder(model)[0]?.standardUncertainty, value * relative, { relative: 1e-12 });
  });
});
