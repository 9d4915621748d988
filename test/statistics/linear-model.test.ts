import { describe, expect, it } from "vitest";
import type { Factor, FactorRow } from "../../core/statistics/factor-terms.ts";
import { factorModel } from "../../core/statistics/linear-model.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, numbersOf, readExpected, readInput } from "../reference/read-reference.ts";

/** Rows and factors of columns like "n n y y". */
function designOf(values: readonly number[], columns: Readonly<Record<string, string>>) {
  const lists = Object.entries(columns).map(([name, text]) => ({ name, cells: text.split(" ") }));
  const factors: Factor[] = lists.map(({ name, cells }) => ({ name, levels: [...new Set(cells)] }));
  const rows: FactorRow[] = values.map((value, row) => ({ value, levels: lists.map(({ cells }) => cells[row] ?? "") }));
  return { rows, factors };
}

function caseOf(name: unknown) {
  const input = readInput("factor-model").get(String(name));
  const columns = Object.fromEntries(
    ["skirt", "gap", "chamber"].map((factor) => [factor, cellOf(input, factor)]).filter(([, text]) => text !== ""),
  );
  return {
    ...designOf(numbersOf(cellOf(input, "values")), columns),
    confidence: Number(cellOf(input, "confidence")),
  };
}

describe("the linear model of design factors", () => {
  it.each(readExpected("factor-model"))("is R's: $case (reference factor-model, lm and drop1)", (row) => {
    const { rows, factors, confidence } = caseOf(row.case);
    const model = factorModel(rows, factors, confidence);
    expectNumber(model.residualDeviation, numberOf(row, "residualDeviation"), { relative: 1e-8 });
    expect(model.degreesOfFreedom).toBe(numberOf(row, "df2"));
    const compared = new Set<string>();
    const numberFor = (name: string) => {
      compared.add(name);
      return numberOf(row, name);
    };
    for (const test of model.factorTests) {
      const term = test.term.replace("×", "x");
      expect(test).toMatchObject({ because: null, confoundedWith: [], df2: numberOf(row, "df2") });
      expectNumber(test.f, numberFor(`${term} f`), { relative: 1e-8 });
      expect(test.df1).toBe(numberFor(`${term} df1`));
      expectNumber(test.p, numberFor(`${term} testP`), { relative: 1e-8 });
    }
    for (const effect of model.factors) {
      expect(effect.because).toBeNull();
      const term = effect.level === null ? effect.term.replace("×", "x") : `${effect.term} ${effect.level}`;
      for (const field of ["effect", "lower", "upper", "t", "p"] as const) {
        expectNumber(effect[field], numberFor(`${term} ${field}`), { relative: 1e-8, absolute: 1e-10 });
      }
    }
    // Nothing that R gives is left uncompared.
    const all = Object.keys(row).filter((name) => !["case", "df2", "residualDeviation"].includes(name));
    expect([...compared].sort()).toEqual(all.sort());
  });

  it("has the effects of the e-Handbook's eddy current design (1.4.2.10, from memory): 3.1025 and -0.8675", () => {
    const { rows, factors } = caseOf("eddy-current");
    const [first, second] = factorModel(rows, factors, 0.95).factors;
    expectNumber(first?.effect, 3.1025, { relative: 1e-12 });
    expectNumber(second?.effect, -0.8675, { relative: 1e-12 });
  });

  it("is worked by hand: means 10, 14, 11 and 19 of four combinations", () => {
    // Numbers of runs are unequal, the cells' means are not weighted by them: skirt (14 + 19 - 10 - 11)/2, gap (11 + 19 - 10 - 14)/2,
    // product (10 + 19 - 14 - 11)/2.
    const { rows, factors } = designOf([9, 11, 10, 14, 13, 15, 11, 18, 20], {
      skirt: "n n n y y y n y y",
      gap: "8 8 8 8 8 8 12 12 12",
    });
    const { factors: effects } = factorModel(rows, factors, 0.95);
    expect(effects.map(({ term, level, baseline }) => [term, level, baseline])).toEqual([
      ["skirt", "y", "n"],
      ["gap", "12", "8"],
      ["skirt × gap", null, null],
    ]);
    expectNumber(effects[0]?.effect, 6, { relative: 1e-12 });
    expectNumber(effects[1]?.effect, 3, { relative: 1e-12 });
    expectNumber(effects[2]?.effect, 2, { relative: 1e-12 });
  });

  it("gives no effect of two factors that were always changed together, and names both", () => {
    const { rows, factors } = designOf([1, 1.2, 2, 2.3, 3, 3.1, 4, 4.4], {
      skirt: "n n y y n n y y",
      gap: "8 8 12 12 8 8 12 12",
      chamber: "s s s s t t t t",
    });
    const model = factorModel(rows, factors, 0.95);
    const [skirt, gap, chamber] = model.factors;
    expect(skirt).toMatchObject({ effect: null, p: null, because: "not-separable", confoundedWith: ["gap"] });
    expect(gap).toMatchObject({ effect: null, because: "not-separable", confoundedWith: ["skirt"] });
    // The third was changed by itself: ((3 + 3.1 + 4 + 4.4) - (1 + 1.2 + 2 + 2.3))/4
    expectNumber(chamber?.effect, 2, { relative: 1e-12 });
    expect(model.factorTests.find(({ term }) => term === "gap")).toMatchObject({ f: null, because: "not-separable" });
  });

  it("tells a factor from an interaction only by taking the interaction as nil, and says so: half of a 2^3", () => {
    const columns = { a: "n y n y n y n y", b: "n n y y n n y y", c: "y n n y y n n y" };
    const { rows, factors } = designOf([1, 2, 3, 4, 1.1, 2.2, 3.3, 4.1], columns);
    const model = factorModel(rows, factors, 0.95);
    const c = model.factors.find(({ term }) => term === "c");
    expect(c).toMatchObject({ because: null, confoundedWith: ["a × b"] });
    expect(c?.effect).not.toBeNull();
    const product = model.factors.find(({ term }) => term === "a × b");
    expect(product).toMatchObject({ effect: null, because: "not-separable", confoundedWith: ["c"] });
  });

  it("takes the interaction as nil where a combination was never run: skirt's and gap's effects are each other's neighbours", () => {
    const { rows, factors } = designOf([1, 1.2, 2, 2.1, 4, 4.3], { skirt: "n n y y n n", gap: "8 8 8 8 12 12" });
    const [skirt, gap, product] = factorModel(rows, factors, 0.95).factors;
    // Both are differences from the one combination that both share: 2.05 - 1.1 and 4.15 - 1.1.
    expectNumber(skirt?.effect, 0.95, { relative: 1e-12 });
    expectNumber(gap?.effect, 3.05, { relative: 1e-12 });
    expect(skirt).toMatchObject({ because: null, confoundedWith: ["skirt × gap"] });
    expect(gap).toMatchObject({ because: null, confoundedWith: ["skirt × gap"] });
    expect(product).toMatchObject({ effect: null, because: "not-separable", confoundedWith: ["skirt", "gap"] });
  });

  it("knows neither of two interactions that it cannot tell apart: half of a 2^4, d = a b c", () => {
    const sign = (bit: boolean) => (bit ? "y" : "n");
    const combinations = Array.from({ length: 8 }, (_, run) => [(run & 1) > 0, (run & 2) > 0, (run & 4) > 0] as const);
    const twice = [...combinations, ...combinations];
    const { rows, factors } = designOf(
      twice.map(([a, b, c], run) => (a ? 2 : 0) + (b ? 1 : 0) + (c ? 0.5 : 0) + ((run * 7) % 5) / 10),
      {
        a: twice.map(([a]) => sign(a)).join(" "),
        b: twice.map(([, b]) => sign(b)).join(" "),
        c: twice.map(([, , c]) => sign(c)).join(" "),
        d: twice.map(([a, b, c]) => sign((a !== b) !== c)).join(" "),
      },
    );
    const model = factorModel(rows, factors, 0.95);
    const named = (name: string) => model.factors.find(({ term }) => term === name);
    expect(named("a × b")).toMatchObject({ effect: null, because: "not-separable", confoundedWith: ["c × d"] });
    expect(named("c × d")).toMatchObject({ effect: null, because: "not-separable", confoundedWith: ["a × b"] });
    expect(named("d")).toMatchObject({ because: null, confoundedWith: [] });
    // Eight combinations have eight unknowns: the constant, four factors, three pairs of interactions.
    expect(model.degreesOfFreedom).toBe(8);
  });

  it("leaves an interaction out where it would take the last degree of freedom: a 2 × 2 with one run each", () => {
    const { rows, factors } = designOf([1, 2, 3, 4.5], { skirt: "n y n y", gap: "8 8 12 12" });
    const model = factorModel(rows, factors, 0.95);
    expect(model.degreesOfFreedom).toBe(1);
    expectNumber(model.factors[0]?.effect, 1.25, { relative: 1e-12 });
    expect(model.factors[0]?.p).toBeGreaterThan(0);
    expect(model.factors[2]).toMatchObject({ effect: null, because: "no-degrees-of-freedom" });
  });

  it("says why effects are missing", () => {
    const fixed = designOf([1, 2, 3, 5], { skirt: "n y n y", gap: "8 8 8 8" });
    const [skirt, gap] = factorModel(fixed.rows, fixed.factors, 0.95).factors;
    expect(skirt?.because).toBeNull();
    expect(gap).toMatchObject({ term: "gap", level: null, effect: null, because: "one-level" });

    const two = designOf([1, 3], { skirt: "n y" });
    const [alone] = factorModel(two.rows, two.factors, 0.95).factors;
    expect(alone).toMatchObject({ lower: null, p: null, because: "no-degrees-of-freedom" });
    expectNumber(alone?.effect, 2, { relative: 1e-14 });
    const exact = designOf([1, 3, 1, 3], { skirt: "n y n y" });
    const flat = factorModel(exact.rows, exact.factors, 0.95);
    expect(flat.factors[0]).toMatchObject({ p: null, because: "no-scatter" });
    expectNumber(flat.factors[0]?.effect, 2, { relative: 1e-14 });
    expect(flat.factorTests[0]).toMatchObject({ f: null, p: null, because: "no-scatter" });

    const none = factorModel([], [{ name: "skirt", levels: ["n", "y"] }], 0.95);
    expect(none.factors[0]).toMatchObject({ effect: null, because: "no-values" });
    expect(none.factorTests[0]).toMatchObject({ f: null, because: "no-values" });

    const single = designOf([5], { skirt: "n" });
    expect(factorModel(single.rows, single.factors, 0.95).factors[0]).toMatchObject({
      effect: null,
      because: "one-level",
    });
  });

  it("refuses rows that do not fit the factors", () => {
    expect(() => factorModel([{ value: 1, levels: [] }], [{ name: "a", levels: ["x"] }], 0.95)).toThrow(RangeError);
    expect(() => factorModel([{ value: 1, levels: ["z"] }], [{ name: "a", levels: ["x"] }], 0.95)).toThrow(RangeError);
  });
});
