import { describe, expect, test } from "vitest";
import { largestFile, mendTable, mostRows, readTable } from "../../app/import/index.ts";
import { readingsText } from "./good-readings.ts";

const utf8 = (text: string) => new TextEncoder().encode(text);
const utf16 = (text: string, order: "LE" | "BE", mark: boolean) => {
  const units = [...(mark ? [0xfeff] : []), ...Array.from({ length: text.length }, (_, at) => text.charCodeAt(at))];
  const bytes = new Uint8Array(units.length * 2);
  const view = new DataView(bytes.buffer);
  units.forEach((unit, at) => {
    view.setUint16(at * 2, unit, order === "LE");
  });
  return bytes;
};
const rules = (bytes: Uint8Array) => readTable(bytes, "x.csv").problems.map(({ rule, row }) => [rule, row]);
const plain = readTable(utf8(readingsText()), "x.csv");

describe("encodings that are read, and said", () => {
  test.each([
    ["UTF-8 with a byte order mark", utf8(`\ufeff${readingsText()}`), /byte order mark/],
    ["UTF-16 LE with its mark", utf16(readingsText(), "LE", true), /UTF-16 LE/],
    ["UTF-16 BE with its mark", utf16(readingsText(), "BE", true), /UTF-16 BE/],
    ["UTF-16 LE by its pattern", utf16(readingsText(), "LE", false), /UTF-16 LE/],
    ["UTF-16 BE by its pattern", utf16(readingsText(), "BE", false), /UTF-16 BE/],
  ])("%s", (_, bytes, note) => {
    const table = readTable(bytes, "x.csv");
    expect(table.problems).toEqual([]);
    expect(table.notes.join()).toMatch(note);
    expect(table.headings).toEqual(plain.headings);
    expect(table.rows).toEqual(plain.rows);
  });

  test("plain UTF-8 needs no word", () => {
    expect(plain.notes).toEqual([]);
  });
});

describe("rows as a spreadsheet counts", () => {
  test("blank lines count, also before the heading, and are not rows", () => {
    const table = readTable(utf8("\n\nrun,variant\n\n , \nR01,A\n,,\nR02,A\n"), "x.csv");
    expect(table.headingRow).toBe(3);
    expect(table.rows.map(({ row }) => row)).toEqual([6, 8]);
  });

  test("a cell with line breaks stays in its row", () => {
    const table = readTable(utf8('run,note\nR01,"a\nb\nc"\nR02,d\n'), "x.csv");
    expect(table.rows).toEqual([
      { row: 2, cells: ["R01", "a\nb\nc"] },
      { row: 3, cells: ["R02", "d"] },
    ]);
  });

  test.each([
    ["\\r\\n", "\r\n"],
    ["\\r", "\r"],
  ])("lines may end with %s", (_, ending) => {
    const table = readTable(utf8(readingsText().replaceAll("\n", ending)), "x.csv");
    expect(table.rows).toEqual(plain.rows);
  });

  test("mixed line ends part rows alike, and stay as they are inside quotation marks", () => {
    const table = readTable(utf8('run,note\r\nR01,"a\r\nb\rc"\nR02,d\rR03,e\r\n'), "x.csv");
    expect(table.rows.map(({ row, cells }) => [row, ...cells])).toEqual([
      [2, "R01", "a\r\nb\rc"],
      [3, "R02", "d"],
      [4, "R03", "e"],
    ]);
  });
});

describe("marks between cells", () => {
  test.each([
    [";" as const, /Semicolons/],
    ["\t" as const, /Tabs/],
  ])("%j is found from the headings, and said", (delimiter, note) => {
    const table = readTable(utf8(readingsText({ delimiter })), "x.csv");
    expect(table.delimiter).toBe(delimiter);
    expect(table.notes.join()).toMatch(note);
    expect(table.rows).toEqual(plain.rows);
  });

  test("a comma file with semicolons in its notes stays a comma file", () => {
    const table = readTable(utf8("run,variant,phase,a;b;c;d\nR01,A,simmer,x;y\n"), "x.csv");
    expect(table.delimiter).toBe(",");
    expect(table.rows[0]?.cells).toEqual(["R01", "A", "simmer", "x;y"]);
  });
});

describe("limits", () => {
  test("one byte over 16 MiB is refused, unread", () => {
    expect(rules(new Uint8Array(largestFile + 1).fill(44))).toEqual([["file-too-large", null]]);
    expect(rules(new Uint8Array(largestFile).fill(10))).not.toEqual([["file-too-large", null]]);
  });

  test("rows, blank ones counted", () => {
    expect(rules(utf8(`run\n${"x\n".repeat(mostRows)}`))).toEqual([["too-many-rows", null]]);
    expect(rules(utf8(`run\n${"x\n".repeat(mostRows - 1)}`))).toEqual([]);
  });
});

test("cells are mended in a copy, and a short row grows", () => {
  const table = readTable(utf8("run,variant,phase\nR01\nR02,B,simmer\n"), "x.csv");
  const mended = mendTable(table, [
    { row: 2, column: 2, text: "simmer" },
    { row: 1, column: 1, text: "Variant" },
    { row: 99, column: 0, text: "nowhere" },
  ]);
  expect(mended.rows[0]?.cells).toEqual(["R01", "", "simmer"]);
  expect(mended.headings).toEqual(["run", "Variant", "phase"]);
  expect(table.rows[0]?.cells).toEqual(["R01"]);
});
