import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { randomisedRunOrder } from "../../core/statistics/run-order.ts";

const two = [
  { name: "A", runs: 3 },
  { name: "B", runs: 3 },
];

describe("a randomised, blocked run order", () => {
  it("holds every run once, spread evenly over the blocks, counted from 1", () => {
    const variants = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(variants, fc.integer({ min: 1, max: 9 }), fc.nat(), (counts, wanted, seed) => {
        const named = counts.map((runs, index) => ({ name: `variant ${index}`, runs }));
        const blocks = Math.min(wanted, ...counts);
        const order = randomisedRunOrder({ variants: named, blocks, seed });
        expect(order.map((run) => run.order)).toEqual(order.map((_, index) => index + 1));
        expect(order.map(({ block }) => block)).toEqual(order.map(({ block }) => block).toSorted((a, b) => a - b));
        for (const { name, runs } of named) {
          const perBlock = Array.from({ length: blocks }, (_, index) => {
            return order.filter((run) => run.variant === name && run.block === index + 1).length;
          });
          expect(perBlock.reduce((sum, count) => sum + count, 0)).toBe(runs);
          expect(Math.max(...perBlock) - Math.min(...perBlock)).toBeLessThanOrEqual(1);
        }
      }),
      { numRuns: 200 },
    );
  });

  it("is the same for the same seed, and another for most others", () => {
    const withSeed = (seed: number) => JSON.stringify(randomisedRunOrder({ variants: two, blocks: 3, seed }));
    expect(withSeed(7)).toBe(withSeed(7));
    expect(new Set(Array.from({ length: 50 }, (_, seed) => withSeed(seed))).size).toBe(8);
  });

  it("gives each of the six orders of three runs a sixth of 6000 seeds (chi-squared with 5 degrees, 0.001 limit 20.5)", () => {
    const variants = ["A", "B", "C"].map((name) => ({ name, runs: 1 }));
    const counts = new Map<string, number>();
    for (let seed = 0; seed < 6000; seed += 1) {
      const text = randomisedRunOrder({ variants, blocks: 1, seed })
        .map(({ variant }) => variant)
        .join("");
      counts.set(text, (counts.get(text) ?? 0) + 1);
    }
    expect(counts.size).toBe(6);
    const squares = [...counts.values()].reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    expect(squares).toBeLessThan(20.5);
  });

  it.each([0, 4, 1.5])("refuses %s blocks for three runs of each", (blocks) => {
    expect(() => randomisedRunOrder({ variants: two, blocks, seed: 1 })).toThrow(RangeError);
  });
});
