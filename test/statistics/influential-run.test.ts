import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { blockedAnalysis } from "../../core/statistics/blocked.ts";
import { type Influence, influenceOnContrasts, influenceOnPairs } from "../../core/statistics/influential-run.ts";
import { leastSquares } from "../../core/statistics/least-squares.ts";
import { factorModel } from "../../core/statistics/linear-model.ts";
import { allPairs } from "../../core/statistics/pair-comparison.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, readExpected, readInput } from "../reference/read-reference.ts";

interface Row {
  /** As a spreadsheet counts. */
  readonly row: number;
  readonly cells: ReadonlyMap<string, string>;
  readonly value: number;
}

function rowsOf(name: string): Row[] {
  const url = new URL(`../reference/influential-run/tables/${name}.csv`, import.meta.url);
  const [header = "", ...lines] = readFileSync(url, "utf8").trim().split("\n");
  const columns = header.split(",");
  return lines.map((line, index) => {
    const cells = new Map(line.split(",").map((cell, place) => [columns[place] ?? "", cell] as const));
    return { row: index + 2, cells, value: Number(cells.get("value")) };
  });
}

interface Found extends Influence {
  readonly what: string;
  rowOf(run: Influence["runs"][number]): number;
}

/** All that decides alone in a table of the reference, by the method that its input names. */
function foundIn(name: string, method: string): Found[] {
  const rows = rowsOf(name);
  const of = (column: string) => rows.map(({ cells }) => cells.get(column) ?? "");
  const levels = [...new Set(of("variant"))];
  const inTable = ({ place }: { readonly place: number }) => rows[place]?.row ?? 0;
  const named = (influences: readonly (Influence | null)[], names: readonly string[], rowOf: Found["rowOf"]) =>
    influences.flatMap((one, index) => (one === null ? [] : [{ ...one, what: names[index] ?? "", rowOf }]));
  const pairs = allPairs(levels.length);
  const pairNames = pairs.map(({ first, second }) => `${levels[second]} ${levels[first]}`);
  if (method === "blocked") {
    const [level, block] = [of("variant"), of("day")];
    const blocked = blockedAnalysis(
      rows.map(({ value }, index) => ({ value, level: level[index] ?? "", block: block[index] ?? "" })),
      levels,
      0.95,
    );
    if (blocked.fit === null) throw new Error("no fit");
    const contrasts = blocked.pairs.map(({ contrast }) => contrast);
    return named(influenceOnContrasts(blocked.fit, contrasts, 0.95), pairNames, inTable);
  }
  if (method === "factors") {
    const [skirt, gap] = [of("skirt"), of("gap")];
    const model = factorModel(
      rows.map(({ value }, index) => ({ value, levels: [skirt[index] ?? "", gap[index] ?? ""] })),
      [
        { name: "skirt", levels: [...new Set(skirt)] },
        { name: "gap", levels: [...new Set(gap)] },
      ],
      0.95,
    );
    if (model.fit === null) throw new Error("no fit");
    const contrasts = model.factors.map(({ contrast }) => contrast);
    const names = model.factors.map(({ term }) => term);
    return named(influenceOnContrasts(model.fit, contrasts, 0.95), names, inTable);
  }
  const groups = levels.map((level) => rows.filter(({ cells }) => cells.get("variant") === level));
  const influences = influenceOnPairs(
    groups.map((group) => group.map(({ value }) => value)),
    0.95,
  );
  return influences.flatMap((one, index) => {
    if (one === null) return [];
    const { first, second } = pairs[index] ?? { first: 0, second: 0 };
    const rowOf: Found["rowOf"] = ({ group, place }) => groups[[first, second][group] ?? 0]?.[place]?.row ?? 0;
    return [{ ...one, what: pairNames[index] ?? "", rowOf }];
  });
}

describe("a run that alone decides a verdict", () => {
  it.each([...readInput("influential-run")])(
    "is R's, with the difference and its limits made anew without it: %s (reference influential-run)",
    (name, input) => {
      const expected = readExpected("influential-run").filter((one) => one.case === name);
      expect(expected.length).toBeGreaterThan(0);
      const found = foundIn(name, cellOf(input, "method")).flatMap((one) =>
        one.runs.map((run) => ({ key: `${one.what}, row ${one.rowOf(run)}`, all: one.all, without: run.without })),
      );
      expect(found.map(({ key }) => key).sort()).toEqual(
        expected.map((one) => `${one.what}, row ${numberOf(one, "row")}`).sort(),
      );
      for (const one of expected) {
        const own = found.find(({ key }) => key === `${one.what}, row ${numberOf(one, "row")}`);
        for (const [field, value] of [
          ["value", own?.without.value],
          ["lower", own?.without.lower],
          ["upper", own?.without.upper],
          ["allValue", own?.all.value],
          ["allLower", own?.all.lower],
          ["allUpper", own?.all.upper],
        ] as const) {
          expectNumber(value, numberOf(one, field), { relative: 1e-7, absolute: 1e-9 });
        }
      }
    },
  );

  it("that moves the difference most comes first", () => {
    for (const [name, input] of readInput("influential-run")) {
      for (const { all, runs } of foundIn(name, cellOf(input, "method"))) {
        const moved = runs.map(({ without }) => Math.abs(without.value - all.value));
        expect(moved).toEqual(moved.toSorted((one, other) => other - one));
      }
    }
  });

  it("is none where the groups are far apart, or where no run can be spared", () => {
    expect(
      influenceOnPairs(
        [
          [1, 2, 1.5, 1.2],
          [51, 52, 50, 51.5],
        ],
        0.95,
      ),
    ).toEqual([null]);
    // Without one of two runs there is no scatter to judge by.
    expect(
      influenceOnPairs(
        [
          [1, 2],
          [2, 4],
        ],
        0.95,
      ),
    ).toEqual([null]);
    expect(influenceOnPairs([[1], [2, 4, 3]], 0.95)).toEqual([null]);
    expect(influenceOnPairs([[], [2, 4, 3]], 0.95)).toEqual([null]);
    // Without 9 nothing would scatter.
    expect(
      influenceOnPairs(
        [
          [5, 5, 5, 9],
          [7, 7, 7],
        ],
        0.95,
      ),
    ).toEqual([null]);
    expect(
      influenceOnPairs(
        [
          [4, 4, 4],
          [5, 5, 5],
        ],
        0.95,
      ),
    ).toEqual([null]);
    expect(influenceOnPairs([[1, 2, 3]], 0.95)).toEqual([]);
  });
});

describe("a least-squares fit without one of its rows", () => {
  const columns = [
    [1, 1, 1, 1, 1, 1],
    [0, 1, 2, 4, 5, 7],
    [1, -1, 1, -1, -1, 1],
  ];
  const values = [3.1, 4.9, 7.2, 10.8, 13.5, 90];

  it("is the fit made anew without it", () => {
    const fit = leastSquares(columns, values);
    for (const row of values.keys()) {
      const rest = (list: readonly number[]) => list.filter((_, index) => index !== row);
      const anew = leastSquares(columns.map(rest), rest(values));
      const without = fit.without(row);
      expect(without?.degreesOfFreedom).toBe(anew.degreesOfFreedom);
      expectNumber(without?.residualDeviation, anew.residualDeviation ?? 0, { relative: 1e-10 });
      for (const contrast of [
        [0, 1, 0],
        [0, 1, -2],
      ]) {
        const contrastBy = (coefficients: readonly number[] = []) =>
          contrast.reduce((sum, part, index) => sum + part * (coefficients[index] ?? 0), 0);
        expectNumber(contrastBy(without?.coefficients), contrastBy(anew.coefficients), { relative: 1e-10 });
        expectNumber(without?.contrastLength(contrast), anew.contrastLength(contrast), { relative: 1e-10 });
      }
    }
  });

  it("is none where a column hangs on that row alone", () => {
    const fit = leastSquares([...columns, [0, 0, 0, 0, 0, 1]], values);
    expect(fit.without(5)).toBeNull();
    expect(fit.without(0)).not.toBeNull();
  });
});
