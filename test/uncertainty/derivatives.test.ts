/** First order beside differences of the formulas themselves: nothing of the tape or of its derivatives has a part in the latter. */
import { describe, expect, it } from "vitest";
import type { InputValues } from "../../core/method/phase-inputs.ts";
import { runQuantities } from "../../core/method/run-quantities.ts";
import { type Arithmetic, plainNumbers } from "../../core/numeric/arithmetic.ts";
import { firstOrder } from "../../core/uncertainty/first-order.ts";
import { runModel } from "../../core/uncertainty/run-model.ts";
import { latentHeat } from "../../core/water/latent-heat.ts";
import { expectNumber } from "../numbers.ts";
import { goodRun } from "../service/uncertainty/good-run.ts";
import { independentModel, normal } from "./monte-carlo/models.ts";

/** The derivative at 0 by central differences of two steps, of which the error's leading term cancels. */
function slopeByDifferences(of: (shift: number) => number, step: number): number {
  const central = (h: number) => (of(h) - of(-h)) / (2 * h);
  return (4 * central(step / 2) - central(step)) / 3;
}

describe("first order beside differences", () => {
  it("of every quantity of a run of three phases, by every error: within 1e-8 of its standard uncertainty", () => {
    const { run, settings } = goodRun();
    const model = runModel(run, settings);
    const found = firstOrder(model);

    /** All quantities with one error moved by `shift` standard uncertainties, in the order of the model's keys. */
    function moved(source: number, shift: number): number[] {
      let next = 0;
      const known = new Map<string, number>();
      const input = (key: string, value: number) => {
        const before = known.get(key);
        if (before !== undefined) return before;
        const stated = model.inputs[next];
        expect(stated?.value).toBe(value);
        next += 1;
        const errors = (stated?.errors ?? []).filter((error) => error.source === source);
        const result = errors.reduce((sum, { size }) => sum + size * shift, value);
        known.set(key, result);
        return result;
      };
      const values: InputValues<number> = {
        reading: ({ id, value }) => input(id, value),
        net: ({ id, value }) => input(id, value),
        setting: (key, { value }) => input(`setting ${key}`, value),
      };
      const { phases, run: ofRun } = runQuantities(plainNumbers, run, settings, values);
      expect(next).toBe(model.inputs.length);
      return model.keys.map((key) => {
        const [phase, quantity] = key.includes(".") ? key.split(".") : [null, key];
        const outcomes = phase === null ? ofRun : phases.get(phase as never);
        const outcome = outcomes?.get(quantity as never) as { given: boolean; value: number } | undefined;
        if (outcome?.given !== true) throw new Error(`no ${key}`);
        return outcome.value;
      });
    }

    expect(model.sources.length).toBe(38);
    for (const source of model.sources.keys()) {
      const step = 0.02;
      const at = [step, -step, step / 2, -step / 2].map((shift) => moved(source, shift));
      for (const [output, { standardUncertainty, contributions }] of found.entries()) {
        const of = (shift: number) => at[[step, -step, step / 2, -step / 2].indexOf(shift)]?.[output] as number;
        // Rounding of a difference of 0.02 u: the value's own last digits over that.
        const rounding = (1e-14 * Math.abs(found[output]?.value as number)) / step;
        expectNumber(contributions[source], slopeByDifferences(of, step), {
          absolute: 1e-8 * standardUncertainty + rounding,
        });
      }
    }
  });

  it("of every kind of step, strongly bent ones too", () => {
    const formulas = <N>(a: Arithmetic<N>, inputs: readonly N[]): readonly N[] => {
      const [x, y] = [inputs[0] as N, inputs[1] as N];
      return [
        a.divide(a.constant(1), a.subtract(a.multiply(x, x), y)),
        a.exponential(a.divide(a.power(x, 1.5), y)),
        a.power(a.add(a.power(x, -2), a.power(y, 0.5)), 3),
        a.through(latentHeat, a.multiply(x, a.power(y, 2))),
        a.multiply(a.exponential(a.multiply(a.constant(-0.3), x)), a.divide(y, x)),
      ];
    };
    const model = independentModel([normal(4, 0.1), normal(5, 0.2)], formulas);
    const found = firstOrder(model);
    for (const [output, { standardUncertainty, contributions }] of found.entries()) {
      const slopes = [0.1, 0.2].map((size, source) =>
        slopeByDifferences((shift) => {
          const inputs = [4, 5].map((value, at) => (at === source ? value + size * shift : value));
          return formulas(plainNumbers, inputs)[output] as number;
        }, 0.01),
      );
      for (const source of [0, 1]) {
        expectNumber(contributions[source], slopes[source] as number, { absolute: 1e-7 * standardUncertainty });
      }
      expectNumber(standardUncertainty, Math.hypot(...slopes), { relative: 1e-7 });
    }
  });
});
