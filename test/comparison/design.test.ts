import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { designOf, leadOf } from "../../core/comparison/design.ts";
import { type ComparedTable, compareTable } from "../../core/index.ts";
import { tableFrom } from "./tables.ts";

const base = { hasBlocks: false, blocks: 0, sharedBlocks: 0, factors: [] };
const levels = (count: number) => Array.from({ length: count }, (_, index) => `V${index}`);

describe("which analysis leads", () => {
  it.each([
    { design: { ...base, levels: levels(1) }, leads: null, because: "one variant: nothing to compare it with" },
    // As in the layout of the results.
    { design: { ...base, levels: levels(2) }, leads: "welch", because: "two variants, no blocks" },
    { design: { ...base, levels: levels(3) }, leads: "gamesHowell", because: "3 variants, no blocks" },
    {
      design: { hasBlocks: true, blocks: 3, sharedBlocks: 3, factors: [], levels: levels(2) },
      leads: "blocked",
      because: "two variants, tested in blocks: 3 blocks hold two or more of them",
    },
    {
      design: { ...base, factors: ["skirt", "gap"], levels: levels(4) },
      leads: "factors",
      because: "design factors named (skirt, gap), no blocks",
    },
  ])("$leads: $because", ({ design, leads, because }) => {
    expect(leadOf(design, "en")).toEqual({ leads, because });
  });

  it("is blocked with factors too, and says that their model ignores the blocks", () => {
    const design = { hasBlocks: true, blocks: 2, sharedBlocks: 2, factors: ["skirt"], levels: levels(2) };
    const { leads, because } = leadOf(design, "en");
    expect(leads).toBe("blocked");
    expect(because).toContain("ignores the blocks");
  });

  it("is not blocked where fewer than two blocks hold two variants", () => {
    const design = { hasBlocks: true, blocks: 4, sharedBlocks: 1, factors: [], levels: levels(3) };
    expect(leadOf(design, "en")).toMatchObject({ leads: "gamesHowell" });
    expect(leadOf(design, "en").because).toContain("cannot be taken out");
  });

  it("puts the named baseline first, the others by first appearance", () => {
    const table = tableFrom({ B: [1], A: [2], C: [3] });
    expect(designOf(table, null).levels).toEqual(["B", "A", "C"]);
    expect(designOf(table, "C").levels).toEqual(["C", "B", "A"]);
  });

  it("does not depend on any value: outliers, unequal spread, drift and odd shapes change warnings alone", () => {
    const value = fc.oneof(fc.constantFrom(0, 1, 1000), fc.double({ min: -1e6, max: 1e6, noNaN: true }));
    const design = fc.array(
      fc.record({
        level: fc.constantFrom("A", "B", "C"),
        block: fc.constantFrom("1", "2"),
        hot: fc.constantFrom("y", "n"),
      }),
      { minLength: 1, maxLength: 10 },
    );
    const settings = { baseline: null, margin: null, confidence: 0.95, resampling: null };
    fc.assert(
      fc.property(
        design,
        fc.boolean(),
        fc.boolean(),
        fc.array(value, { minLength: 20, maxLength: 20 }),
        (rows, blocks, factors, values) => {
          const tableWith = (from: number): ComparedTable => ({
            ...tableFrom({}),
            hasBlocks: blocks,
            factors: factors ? ["hot"] : [],
            rows: rows.map(({ level, block, hot }, index) => ({
              row: index + 2,
              value: values[from + index] ?? 0,
              level,
              block: blocks ? block : null,
              factors: factors ? [hot] : [],
              order: index,
            })),
          });
          const [one, other] = [0, 10].map((from) => compareTable(tableWith(from), settings, "en"));
          expect([one?.leads, one?.because]).toEqual([other?.leads, other?.because]);
        },
      ),
      { numRuns: 150 },
    );
  });
});
