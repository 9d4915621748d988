import { describe, expect, it } from "vitest";
import { atOnce } from "../../../core/numeric/in-steps.ts";
import { adaptiveMonteCarlo, monteCarlo } from "../../../core/uncertainty/monte-carlo/monte-carlo.ts";
import { ofOutputs, outputGroups } from "../../../core/uncertainty/monte-carlo/output-groups.ts";
import { independentModel, normal } from "./models.ts";

const count = 50;
/** x + 1, x + 2, ..., an exact number, and x + 1 once more. */
const model = independentModel([normal(0, 1)], (a, [x]) => [
  ...Array.from({ length: count }, (_, at) => a.add(x as never, a.constant(at + 1))),
  a.constant(7),
  a.add(x as never, a.constant(1)),
]);

const request = (trials: number, confidence: number) => ({
  ...{ trials, confidence, seed: 3 },
  ranges: model.outputs.map((_, position) => ({ lower: null, upper: position % (count + 1) })),
});

describe("outputs in groups", () => {
  it("are one group for a million trials at 95 %, and at 90 % of seventy outputs", () => {
    expect(outputGroups(model, request(1_000_000, 0.95))).toHaveLength(1);
    expect(outputGroups(model, request(1_000_000, 0.9))).toHaveLength(1);
  });

  it.each([
    [10_000_000, 0.95],
    [1_000_000, 0.5],
    [10_000_000, 0.01],
  ])("each output once, in groups of which %d trials at level %d keep 130 MB at most", (trials, level) => {
    const groups = outputGroups(model, request(trials, level));
    expect(groups.length).toBeGreaterThan(1);
    expect(groups.flat().toSorted((one, other) => one - other)).toEqual([...model.outputs.keys()]);
    const bytes = 8 * trials * Math.min(1, 2 * (1 - level));
    // One output at least is in each; the exact one and the repeated one keep nothing.
    for (const group of groups) expect((group.length - 2) * bytes).toBeLessThan(130e6);
  });

  it("give what each output gives by itself", () => {
    const asked = request(420_000, 0.5);
    expect(outputGroups(model, asked).length).toBeGreaterThan(1);
    const { outputs } = atOnce(monteCarlo(model, asked));
    expect(outputs).toHaveLength(count + 2);
    for (const position of [0, 1, 37, count - 1, count, count + 1]) {
      const alone = ofOutputs(model, asked, [position]);
      expect(atOnce(monteCarlo(alone.model, alone.request)).outputs).toEqual([outputs[position]]);
    }
    expect(outputs[3]?.outside.above).toBeGreaterThan(350_000);
  });

  it("are drawn once more where the adaptive procedure went on for longer than its sequences are kept", () => {
    // At level 0.3 nearly everything would be kept; u = 1.00 at two digits takes hundreds of thousands of trials.
    const found = atOnce(adaptiveMonteCarlo(model, { ...request(400_000, 0.3), digits: 2, watched: [0] }));
    const fixed = atOnce(monteCarlo(model, request(found.trials, 0.3)));
    expect(found.outputs).toEqual(fixed.outputs);
  });
});
