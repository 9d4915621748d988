import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type ComparedTable, compareTable } from "../../core/index.ts";
import { tableFrom } from "./tables.ts";

/** The keys of the layout (results-json), in its order, and what is given beyond them; each list and object below by the path to it. */
const layout: Readonly<Record<string, readonly string[]>> = {
  "": "value by confidence leads because groups pairs brownForsythe anova welchAnova tukey gamesHowell blocked factors factorTests warnings notes sentences".split(
    " ",
  ),
  group:
    "n mean standardDeviation coefficientOfVariation standardError median interval grubbs shapiroWilk bootstrap".split(
      " ",
    ),
  interval: ["level", "lower", "upper"],
  grubbs: ["statistic", "suspectRow", "p"],
  shapiroWilk: ["statistic", "p"],
  bootstrap: ["method", "level", "lower", "upper", "resamples", "seed"],
  pair: ["baseline", "variant", "difference", "welch", "ratio", "hedgesG", "mannWhitney", "equivalence"],
  limits: ["value", "lower", "upper"],
  welch: ["t", "degreesOfFreedom", "p", "holmP"],
  ratio: ["value", "fieller", "logWelch"],
  fieller: ["lower", "upper"],
  mannWhitney: ["u", "p", "smallestP", "exact", "ties", "normalP"],
  equivalence: ["margin", "p", "equivalent"],
  variance: ["f", "df1", "df2", "p"],
  several: ["baseline", "variant", "difference", "lower", "upper", "p"],
  severalInBlocks: ["baseline", "variant", "difference", "lower", "upper", "p", "holmP"],
  blocked: ["variantF", "df1", "df2", "p", "pairs"],
  factor: ["term", "effect", "lower", "upper", "t", "p"],
  factorOfSeveral: ["term", "level", "baseline", "effect", "lower", "upper", "t", "p"],
  factorTest: ["term", "f", "df1", "df2", "p"],
};

type Parsed = Record<string, unknown>;

function hasKeys(value: unknown, name: string): void {
  if (value !== null) expect(Object.keys(value as Parsed), name).toEqual(layout[name]);
}

/** Parsed JSON of a comparison: exactly the keys of the layout, wherever an object stands. */
function hasLayout(json: Parsed): void {
  hasKeys(json, "");
  for (const group of Object.values(json.groups as Parsed) as Parsed[]) {
    hasKeys(group, "group");
    for (const name of ["interval", "grubbs", "shapiroWilk", "bootstrap"]) hasKeys(group[name], name);
  }
  for (const pair of json.pairs as Parsed[]) {
    hasKeys(pair, "pair");
    hasKeys(pair.difference, "limits");
    hasKeys(pair.hedgesG, "limits");
    for (const name of ["welch", "ratio", "mannWhitney", "equivalence"]) hasKeys(pair[name], name);
    hasKeys((pair.ratio as Parsed).fieller, "fieller");
    hasKeys((pair.ratio as Parsed).logWelch, "limits");
  }
  for (const name of ["brownForsythe", "anova", "welchAnova"]) hasKeys(json[name], "variance");
  const blocked = json.blocked as Parsed | null;
  hasKeys(blocked, "blocked");
  for (const pair of (blocked?.pairs ?? []) as Parsed[]) hasKeys(pair, "severalInBlocks");
  const several = [json.tukey, json.gamesHowell] as Parsed[][];
  for (const pair of several.flat()) hasKeys(pair, "several");
  for (const factor of json.factors as Parsed[]) hasKeys(factor, "level" in factor ? "factorOfSeveral" : "factor");
  for (const test of json.factorTests as Parsed[]) hasKeys(test, "factorTest");
}

const value = fc.oneof(
  fc.constantFrom(0, 1, -1, 1e-100, 1e100, 0.1, 0.3, 0.1 + 0.2, 5, 5, 5, 6),
  // As tables are read: nothing nearer to zero than 1e-100.
  fc.double({ min: -1e100, max: 1e100, noNaN: true }).map((one) => (Math.abs(one) < 1e-100 ? 0 : one)),
  fc.double({ min: 0.1, max: 100, noNaN: true }),
);
const name = fc.oneof(
  fc.constantFrom("A", "B", "C", "a ", "__proto__", "constructor", "1", "2"),
  fc.string({ maxLength: 6 }),
);
const row = fc.record({
  value,
  level: name,
  block: fc.constantFrom("Mon", "Tue", "__proto__"),
  skirt: fc.constantFrom("no", "yes"),
  gap: fc.constantFrom("wide", "narrow", "none"),
  order: fc.option(fc.integer({ min: 0, max: 20 }), { nil: null }),
});
const column = fc.constantFrom("value", "cold-start.thermalEfficiency", "taskFuel5L", "turnDownRatio", "__proto__");

describe("the JSON of a comparison", () => {
  it("has exactly the keys of the layout and finite numbers, whatever the table holds", () => {
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 14 }),
        column,
        fc.boolean(),
        fc.subarray(["skirt", "gap"] as const),
        fc.constantFrom(null, 0, 1e-3, 5),
        fc.constantFrom(0.8, 0.95, 0.999),
        (rows, heading, hasBlocks, factors, margin, confidence) => {
          const table: ComparedTable = {
            ...tableFrom({}),
            value: heading,
            hasBlocks,
            factors,
            rows: rows.map(({ value, level, block, order, ...levels }, index) => ({
              row: index + 2,
              value,
              level,
              block: hasBlocks ? block : null,
              factors: factors.map((factor) => levels[factor]),
              order,
            })),
            leftOut: [{ row: 99, reason: "wind" }],
            withoutValue: [100],
          };
          const resampling = { resamples: 50, seed: 1 };
          const comparison = compareTable(table, { baseline: null, margin, confidence, resampling }, "en");
          const text = JSON.stringify(comparison, (_, one) => {
            // What JSON would silently make null.
            if (typeof one === "number" && !Number.isFinite(one)) throw new Error(`a number that is none: ${one}`);
            return one;
          });
          hasLayout(JSON.parse(text));
          const said = [...comparison.sentences, ...comparison.warnings, ...comparison.notes].join("\n");
          expect(said).not.toMatch(/NaN|Infinity|undefined|null|\bsignificant/);
          // Every variant is told, and every pair that has no interval says so.
          expect(Object.keys(comparison.groups).length).toBe(new Set(rows.map(({ level }) => level)).size);
          if (comparison.pairs.some(({ welch }) => welch.p === null))
            expect(comparison.notes.length).toBeGreaterThan(2);
        },
      ),
      { numRuns: 400 },
    );
  });
});
