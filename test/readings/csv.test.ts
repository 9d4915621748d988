import { describe, expect, test } from "vitest";
import { csvText } from "../../core/index.ts";

describe("csvText", () => {
  test("cells with commas, quotation marks and line breaks are quoted (RFC 4180, section 2); lines end with CR LF", () => {
    expect(csvText([["a,b", 'say "x"', "two\nlines", "plain"]])).toBe('"a,b","say ""x""","two\nlines",plain\r\n');
  });

  test.each(["=1+1", "+1", "-1", "@x", "'x", "\tx", "\rx", " =1+1", "\u00a0=1"])(
    "text %j gets one apostrophe",
    (text) => {
      expect(csvText([[text]]).replaceAll('"', "")).toBe(`'${text}\r\n`);
    },
  );

  test("numbers and digits are left alone, whatever their sign", () => {
    expect(csvText([[-5, 0.1, 1e-7, 1e21, null, { verbatim: "-5" }]])).toBe("-5,0.1,1e-7,1e+21,,-5\r\n");
  });

  test("a number that is none leaves its cell empty", () => {
    expect(csvText([["x", Number.NaN, Number.POSITIVE_INFINITY]])).toBe("x,,\r\n");
  });
});
