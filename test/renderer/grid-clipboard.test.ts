// @vitest-environment jsdom
import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import {
  copiedCell,
  pastedRows,
  systemDecimalSign,
  tabbedText,
  tableMarkup,
} from "../../renderer/state/grid-clipboard.ts";

const anyCell = fc.string({
  unit: fc.constantFrom("a", "é", "ש", "1", ",", ".", " ", '"', "\t", "\n", "\r\n", "'", "=", "-"),
});
const anyTable = fc
  .integer({ min: 1, max: 4 })
  .chain((width) =>
    fc.array(fc.array(anyCell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 5 }),
  );

describe("rows that are copied", () => {
  it("come back as they were, whatever their cells hold", () => {
    fc.assert(
      fc.property(anyTable, (rows) => {
        const copied = rows.map((row) => row.map((cell) => copiedCell(cell, false, ".")));
        expect(pastedRows(`${tabbedText(copied)}\r\n`)).toEqual(rows);
      }),
    );
  });

  it("are read by another reader of tab-separated text just so", () => {
    const rows = [
      ["a", 'he said "no"', "two\nlines"],
      ["", "x\ty", "3,5"],
    ];
    // Papa Parse with no option of ours but the tab.
    expect(Papa.parse(tabbedText(rows), { delimiter: "\t" }).data).toEqual(rows);
  });

  it("have plain numbers with the system's decimal sign, and texts that no spreadsheet runs", () => {
    expect(copiedCell("1047.5", true, ",")).toBe("1047,5");
    expect(copiedCell("-3", true, ",")).toBe("-3");
    expect(copiedCell("10.30", false, ",")).toBe("10.30");
    expect(copiedCell("=1+1", false, ".")).toBe("'=1+1");
    expect(copiedCell("=1+1", true, ".")).toBe("'=1+1");
    // CLDR: German writes a comma, English a point.
    expect(systemDecimalSign("de")).toBe(",");
    expect(systemDecimalSign("en")).toBe(".");
  });

  it("are a table too, in which markup is text", () => {
    const table = new DOMParser().parseFromString(
      tableMarkup([
        ["<b>x</b>", "2"],
        ["3", "4"],
      ]),
      "text/html",
    );
    expect([...table.querySelectorAll("td")].map((cell) => cell.textContent)).toEqual(["<b>x</b>", "2", "3", "4"]);
    expect(table.querySelector("b")).toBeNull();
  });
});

/** Texts as spreadsheets put them on the clipboard: rows ended by CR LF or LF, cells with breaks in quotation marks. */
describe("rows that were copied in a spreadsheet", () => {
  it.each([
    ["one value", "12,5", [["12,5"]]],
    ["one value, with the break at its end", "12,5\r\n", [["12,5"]]],
    [
      "an empty last cell",
      "1\t\r\n2\t3\r\n",
      [
        ["1", ""],
        ["2", "3"],
      ],
    ],
    ["an empty last row that was chosen", "1\r\n\r\n", [["1"], [""]]],
    [
      "breaks inside a cell",
      '"first\nsecond"\tx\n"y"\tz\n',
      [
        ["first\nsecond", "x"],
        ["y", "z"],
      ],
    ],
    ["doubled quotation marks", '"a ""b"" c"\td', [['a "b" c', "d"]]],
    ["a mark inside a cell", '5" pipe\tx', [['5" pipe', "x"]]],
    [
      "a mark that is never closed",
      '"open\tx\n1\t2',
      [
        ['"open', "x"],
        ["1", "2"],
      ],
    ],
    [
      "rows of unequal length",
      "1\t2\t3\n4",
      [
        ["1", "2", "3"],
        ["4", "", ""],
      ],
    ],
    ["an apostrophe that copying put in front", "'=A1\t'it's", [["=A1", "'it's"]]],
  ])("%s", (_, text, rows) => {
    expect(pastedRows(text)).toEqual(rows);
  });
});
