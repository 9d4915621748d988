import { describe, expect, it } from "vitest";
import { type ComparedColumns, readComparisonTable } from "../../app/import/index.ts";

const columns: ComparedColumns = { value: "wood", by: "variant", block: null, factors: [] };
const read = (text: string, more: Partial<ComparedColumns> = {}) =>
  readComparisonTable(new TextEncoder().encode(text), "t.csv", { ...columns, ...more });
const values = (text: string, more: Partial<ComparedColumns> = {}) =>
  read(text, more).table?.rows.map(({ level, value }) => [level, value]);

describe("a table of results to compare", () => {
  it.each([
    ["commas", "variant,wood\nA,1.5\nB,2\n"],
    ["semicolons and decimal commas", "variant;wood\nA;1,5\nB;2\n"],
    ["tabs", "variant\twood\nA\t1.5\nB\t2\n"],
    ["a stated mark", "sep=;\nvariant;wood\nA;1.5\nB;2\n"],
    ["a byte order mark, returns and blank lines", "\ufeffvariant,wood\r\n\r\nA,1.5\r\nB,2\r\n"],
    ["other capitals and blanks", " Variant , WOOD\nA,1.5\nB,2\n"],
    ["further columns", "run,wood,note,variant\nR1,1.5,x,A\nR2,2,,B\n"],
  ])("is read with %s", (_, text) => {
    expect(values(text)).toEqual([
      ["A", 1.5],
      ["B", 2],
    ]);
  });

  it("takes the factor's column by its own name, and names the factor without the prefix", () => {
    const text = "variant,factor:skirt,wood\nA,no,1\nB,yes,2\n";
    for (const factor of ["skirt", "factor:skirt", "Factor: Skirt"]) {
      const { table } = read(text, { factors: [factor] });
      expect(table?.factors).toEqual(["skirt"]);
      expect(table?.rows.map(({ factors }) => factors)).toEqual([["no"], ["yes"]]);
    }
    expect(read(text, { by: "skirt", factors: ["skirt"] }).table?.rows.map(({ level }) => level)).toEqual([
      "no",
      "yes",
    ]);
  });

  it.each(["leftOut", "excluded", "Left out"])("skips rows with a text under %s, and keeps the reason", (heading) => {
    const { table } = read(`variant,wood,${heading}\nA,1,\nA,nonsense,gust of wind\nB,2,\n`);
    expect(table?.rows).toHaveLength(2);
    expect(table?.leftOut).toEqual([{ row: 3, reason: "gust of wind" }]);
  });

  it("refuses a text under leftOut that is no reason, rather than guess what it means", () => {
    expect(read("variant,wood,leftOut\nA,1,no\n").problems).toMatchObject([{ row: 2, column: "leftOut", cell: "no" }]);
  });

  it("names rows without a value, and does not take them as zero", () => {
    const { table } = read("variant,wood\nA,1\nA,\nB, \nB,2\n");
    expect(table?.withoutValue).toEqual([3, 4]);
    expect(table?.rows.map(({ row }) => row)).toEqual([2, 5]);
  });

  it("counts blocks that nobody asked for, and reads the order", () => {
    const text = "variant,block,order,wood\nA,Mon,2,1\nB,Tue,1,2\nB,,,3\n";
    expect(read(text).table).toMatchObject({ hasBlocks: false, blocksIgnored: 2 });
    expect(read(text).table?.rows.map(({ order }) => order)).toEqual([2, 1, null]);
    const whole = read("variant,block,order,wood\nA,Mon,2,1\nB,Tue,1,2\n", { block: "block" }).table;
    expect(whole).toMatchObject({ hasBlocks: true, blocksIgnored: 0 });
    expect(whole?.rows.map(({ block }) => block)).toEqual(["Mon", "Tue"]);
  });

  it.each([
    [
      "a column that is not there, the nearest named",
      "varant,wood\nA,1\n",
      { row: 1, column: "variant" },
      "Is “varant” meant?",
    ],
    ["a column that is not there at all", "x,wood\nA,1\n", { row: 1, column: "variant" }, "“x”, “wood”"],
    ["two columns of one name", "variant,wood,wood\nA,1,2\n", { row: 1, column: "wood" }, "Two columns"],
    ["an empty variant", "variant,wood\n,1\n", { row: 2, column: "variant" }, "is empty"],
    ["a unit in a cell", "variant,wood\nA,12 g\n", { row: 2, column: "wood", cell: "12 g" }, "not a number"],
    ["a spreadsheet's error", "variant,wood\nA,#DIV/0!\n", { row: 2, column: "wood" }, "not a number"],
    ["not a number by name", "variant,wood\nA,NaN\n", { row: 2, column: "wood" }, "not a number"],
    ["a number that nobody measures", "variant,wood\nA,1e101\n", { row: 2, column: "wood" }, "1e-100 to 1e100"],
    ["one too small", "variant,wood\nA,1e-101\n", { row: 2, column: "wood" }, "1e-100 to 1e100"],
    ["a number beyond all bounds", "variant,wood\nA,1e400\n", { row: 2, column: "wood" }, "not a number"],
    ["the other decimal mark", 'variant,wood\nA,"1,5"\n', { row: 2, column: "wood" }, "Write 1.5"],
    ["a row that is cut off", "variant,wood,note\nA,1\n", { row: 2 }, "cells are missing"],
    ["a row that is too long", "variant,wood\nA,1,2\n", { row: 2 }, "slipped"],
    ["no rows", "variant,wood\n", {}, "no row"],
    ["no values", "variant,wood\nA,\n", { column: "wood" }, "no row has a value"],
    ["every row left out", "variant,wood,leftOut\nA,1,wind\n", { column: "wood" }, "the only row is left out"],
    [
      "rows left out and without values",
      "variant,wood,leftOut\nA,1,wind\nA,,\n",
      { column: "wood" },
      "rows left out: 1; rows without a value: 1",
    ],
    ["an empty file", "", {}, "empty"],
    ["a quotation mark that is never closed", 'variant,wood\n"A,1\n', {}, "never closed"],
  ])("refuses %s, saying where", (_, text, place, words) => {
    const { table, problems } = read(text);
    expect(table).toBeNull();
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ severity: "error", file: "t.csv", ...place });
    expect(problems[0]?.message).toContain(words);
  });

  it("refuses one column for two purposes, and an empty block or factor", () => {
    expect(read("variant,wood\nA,1\n", { value: "variant" }).problems[0]?.message).toContain("two purposes");
    expect(read("variant,wood\nA,1\n", { block: "variant" }).problems[0]?.message).toContain("two purposes");
    expect(read("variant,wood,day\nA,1,\n", { block: "day" }).problems).toMatchObject([{ row: 2, column: "day" }]);
    expect(read("variant,wood,day\nA,1,\n", { factors: ["day"] }).problems).toMatchObject([{ row: 2, column: "day" }]);
  });

  it("names every problem, not the first alone", () => {
    expect(read("variant,wood\nA,x\n,2\nB,y\n").problems.map(({ row }) => row)).toEqual([2, 3, 4]);
  });

  it("reads hostile headings and names as they are", () => {
    const { table } = read("__proto__,constructor\n'=1+1,1\n__proto__,2\n<b>,3\n", {
      by: "__proto__",
      value: "constructor",
    });
    expect(table?.rows.map(({ level }) => level)).toEqual(["=1+1", "__proto__", "<b>"]);
  });
});
