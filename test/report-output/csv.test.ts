import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { writeCsv } from "../../app/report/index.ts";

describe("CSV (RFC 4180)", () => {
  test("lines end with CR LF, the last one too (2.1, 2.2)", () => {
    expect(
      writeCsv([
        ["a", "b"],
        ["c", "d"],
      ]),
    ).toBe("a,b\r\nc,d\r\n");
  });

  test("comma, quote and line break are quoted, quotes doubled (2.6, 2.7)", () => {
    expect(writeCsv([['say "x"', "a,b", "two\r\nlines"]])).toBe('"say ""x""","a,b","two\r\nlines"\r\n');
  });

  test.each(["=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\rx", "'x"])("text %j gets one apostrophe in front", (text) => {
    const [[cell] = []] = Papa.parse<string[]>(writeCsv([[text]]), { newline: "\r\n" }).data;
    expect(cell).toBe(`'${text}`);
  });

  test("numbers stay numbers, negative ones too; nothing is an empty cell", () => {
    expect(writeCsv([[-1.5, 0.1, 1e21, -0, null, ""]])).toBe("-1.5,0.1,1e+21,0,,\r\n");
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY])("%f is refused", (value) => {
    expect(() => writeCsv([[value]])).toThrow(RangeError);
  });

  test("any text comes back through another reader (Papa Parse) once its apostrophe is taken off", () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: "binary" }), { minLength: 2, maxLength: 5 }), (cells) => {
        const [row = []] = Papa.parse<string[]>(writeCsv([cells]), { delimiter: ",", newline: "\r\n" }).data;
        expect(row.map((cell) => (/^'[=+\-@\t\r']/.test(cell) ? cell.slice(1) : cell))).toEqual(cells);
      }),
      { numRuns: 60 },
    );
  });

  test("any number comes back as the same number", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(Number(writeCsv([[value]]).trim())).toBe(value === 0 ? 0 : value);
      }),
    );
  });
});
