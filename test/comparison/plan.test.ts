import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type PlanRequest, planRuns } from "../../core/index.ts";
import { twoSamplePower } from "../../core/statistics/two-sample-power.ts";
import { expectNumber } from "../numbers.ts";
import { numbersWithin } from "../statistics/groups.ts";

const usual: PlanRequest = {
  standardDeviation: 1.5,
  standardDeviationRuns: null,
  difference: 2,
  power: 0.8,
  confidence: 0.95,
  baselineRuns: null,
  runs: null,
  order: null,
  unit: "",
};

const amount = fc.oneof(fc.constantFrom(0, 1e-9, 1, 1e9), fc.double({ min: 0.01, max: 100, noNaN: true }));
const orNull = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null });
const request: fc.Arbitrary<PlanRequest> = fc.record({
  standardDeviation: amount,
  standardDeviationRuns: orNull(fc.integer({ min: 2, max: 12 })),
  difference: orNull(fc.tuple(amount, fc.constantFrom(1, -1)).map(([size, sign]) => size * sign)),
  power: fc.constantFrom(0.01, 0.5, 0.8, 0.9, 0.999),
  confidence: fc.constantFrom(0.5, 0.8, 0.95, 0.999),
  baselineRuns: orNull(fc.integer({ min: 1, max: 20 })),
  runs: orNull(fc.integer({ min: 1, max: 20 })),
  order: orNull(
    fc.record({
      variants: fc.constantFrom(["A", "B"], ["A", "B", "__proto__"]),
      blocks: orNull(fc.integer({ min: 1, max: 8 })),
      seed: fc.nat(),
    }),
  ),
  unit: fc.constantFrom("", "%"),
});

describe("a plan of runs", () => {
  it("holds finite numbers or null with a note, and says nothing strange, whatever is asked", () => {
    fc.assert(
      fc.property(request, (asked) => {
        const { numbers, sentences } = planRuns(asked, "en");
        expect(Object.keys(numbers).slice(0, 3)).toEqual(["runsPerVariant", "powerReached", "exact"]);
        expect(numbersWithin(numbers).filter((number) => !Number.isFinite(number))).toEqual([]);
        const { runsPerVariant, powerReached, exact, notes } = numbers;
        if (asked.difference !== null && runsPerVariant === null) expect(notes.length).toBeGreaterThan(0);
        expect([powerReached === null, exact === null]).toEqual([runsPerVariant === null, runsPerVariant === null]);
        if (runsPerVariant !== null && exact !== null) expect(exact).toBeLessThanOrEqual(runsPerVariant);
        expect([...sentences, ...notes].join("\n")).not.toMatch(/NaN|Infinity|undefined|null|\bsignificant/);
      }),
      { numRuns: 250 },
    );
  });

  it("needs more runs from the upper limit of the standard deviation than from the one seen", () => {
    const { runsPerVariant, atUpperLimit } = planRuns({ ...usual, standardDeviationRuns: 4 }, "en").numbers;
    expect(atUpperLimit?.runsPerVariant).toBeGreaterThan(runsPerVariant ?? 0);
  });

  it("says with which power a fixed baseline's runs and those of the variant find a difference", () => {
    const { detectable } = planRuns({ ...usual, baselineRuns: 5, runs: 9 }, "en").numbers;
    const design = { standardDeviation: 1.5, baselineRuns: 5, variantRuns: 9, confidence: 0.95 };
    expectNumber(detectable?.power, twoSamplePower({ ...design, difference: 2 }), { relative: 1e-12 });
    const least = detectable?.difference ?? 0;
    expectNumber(twoSamplePower({ ...design, difference: least }), 0.8, { relative: 1e-9 });
  });

  it("never writes a chance as certain", () => {
    const { sentences } = planRuns({ ...usual, difference: 1000, runs: 10 }, "en");
    expect(sentences.join(" ")).toContain("more than 99.999 %");
    expect(sentences.join(" ")).not.toMatch(/\b100 %/);
  });

  it("orders the baseline's fixed runs and the variants' among each other", () => {
    const order = { variants: ["A", "B", "C"], blocks: 2, seed: 1 };
    const { runOrder } = planRuns({ ...usual, baselineRuns: 6, runs: 4, order }, "en").numbers;
    const count = (variant: string) => runOrder?.filter((run) => run.variant === variant).length;
    expect(["A", "B", "C"].map(count)).toEqual([6, 4, 4]);
  });
});
