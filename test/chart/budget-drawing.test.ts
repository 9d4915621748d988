import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chartHeight, darkTheme, lightTheme } from "../../app/chart/index.ts";
import type { BudgetChart } from "../../core/index.ts";
import { expectNumber } from "../numbers.ts";
import { drawSvg, marksOf, pointsOf, textsOf } from "./svg-text.ts";

type Row = BudgetChart["rows"][number];
const row = (name: string, share: number, isScatter = false, text = `${Math.round(share)} %`): Row => ({
  name,
  share,
  text,
  isScatter,
});

const budget: BudgetChart = {
  kind: "budget",
  shareTitle: "share of the variance, %",
  rows: [
    row("balance for fuel and char", 48),
    row("run-to-run scatter", 36, true),
    row("moisture meter", 12),
    row("thermometer", 0.2, false, "under 1 %"),
  ],
  textAlternative: "What the uncertainty is made of.",
};

/** The outline of a bar: the first of its mark. */
function barOf(mark: string): (readonly [number, number])[] {
  return pointsOf(/<path[^>]*>/.exec(mark)?.[0] ?? "");
}

/** From the start of a bar to its end, in pixels. */
function lengthOf(mark: string): number {
  const xs = barOf(mark).map(([x]) => x);
  return Math.max(...xs) - Math.min(...xs);
}

/** Luminance after WCAG 2.2, "relative luminance". */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].toSorted((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

describe("budget", () => {
  test("each part is a bar of its own, with its name, and its share written", () => {
    const svg = drawSvg(budget, 780);
    expect(marksOf(svg, "share")).toHaveLength(3);
    expect(marksOf(svg, "scatter-share")).toHaveLength(1);
    expect(marksOf(svg, "share")[0]).toContain("<title>balance for fuel and char: 48 %</title>");
    const texts = textsOf(svg).map(({ text }) => text);
    for (const { name, text } of budget.rows) expect(texts).toEqual(expect.arrayContaining([name, text]));
    expect(texts).toContain("share of the variance, %");
  });

  test("lengths are as the shares: four times the share is four times as long, from one start", () => {
    const svg = drawSvg(budget, 780);
    const [first = "", meter = ""] = marksOf(svg, "share");
    expectNumber(lengthOf(first) / lengthOf(meter), 4, { relative: 0.01 });
    const starts = [...marksOf(svg, "share"), ...marksOf(svg, "scatter-share")].map((mark) =>
      Math.min(...barOf(mark).map(([x]) => x)),
    );
    for (const start of starts) expectNumber(start, starts[0] as number, { absolute: 0.1 });
  });

  test("a part too small for its scale is still there", () => {
    const small = marksOf(drawSvg(budget, 780), "share").at(-1) ?? "";
    expect(lengthOf(small)).toBeGreaterThan(1);
  });

  test("scatter is hatched and hollow, instruments are filled: told apart without colour", () => {
    const svg = drawSvg(budget, 780);
    const strokes = (mark: string) => pointsOf(mark).length;
    const [filled = ""] = marksOf(svg, "share");
    const [hatched = ""] = marksOf(svg, "scatter-share");
    expect(strokes(hatched)).toBeGreaterThan(10 * strokes(filled));
    expect(filled).not.toContain("stroke=");
    expect(hatched).toContain(`fill="${lightTheme.sheet}"`);
  });

  test("bars stand out from the sheet, light and dark (WCAG 2.2, 1.4.11: 3 to 1)", () => {
    for (const theme of [lightTheme, darkTheme]) {
      for (const colour of [theme.inkSoft, theme.sure]) expect(contrast(colour, theme.sheet)).toBeGreaterThan(3);
      expect(drawSvg(budget, 780, theme)).toContain(theme.inkSoft);
    }
  });

  const long: BudgetChart = {
    ...budget,
    rows: [
      row(`calorific value of “${"eucalyptus ".repeat(300)}”`, 60),
      row("x".repeat(10_000), 30, true),
      ...Array.from({ length: 12 }, (_, index) => row(`further source number ${index}`, 10 / 12)),
    ],
    shareTitle: "share ".repeat(80),
  };
  test.each([320, 380, 430, 620, 900, 1440])("nothing overlaps or leaves a picture %i pixels wide", (width) => {
    for (const chart of [budget, long, { ...budget, rows: [row("thermometer", 100)] }]) {
      const svg = drawSvg(chart, width);
      const texts = textsOf(svg);
      for (const { left, right, baseline, text } of texts) {
        expect(left, text).toBeGreaterThanOrEqual(-0.5);
        expect(right, text).toBeLessThanOrEqual(width + 0.5);
        expect(baseline, text).toBeLessThanOrEqual(chartHeight(chart, width));
      }
      for (const [x, y] of pointsOf(svg)) {
        expect(x).toBeGreaterThanOrEqual(-3);
        expect(x).toBeLessThanOrEqual(width + 3);
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(chartHeight(chart, width));
      }
      texts.forEach((one, at) => {
        for (const other of texts.slice(at + 1)) {
          const apart =
            one.left >= other.right - 0.5 ||
            other.left >= one.right - 0.5 ||
            one.baseline - one.size * 0.7 >= other.baseline ||
            other.baseline - other.size * 0.7 >= one.baseline;
          expect(apart, `"${one.text}" over "${other.text}" at width ${width}`).toBe(true);
        }
      });
      // Names end before bars begin, or stand above them.
      if (width < 430) continue;
      const ends = marksOf(svg, "variant-name").flatMap((mark) => textsOf(mark).map(({ right }) => right));
      const bars = ["share", "scatter-share"].flatMap((name) => marksOf(svg, name).flatMap(barOf));
      expect(Math.max(...ends)).toBeLessThan(Math.min(...bars.map(([x]) => x)));
    }
  });

  test("names are text, whatever they hold; no part at all is an empty picture", () => {
    const svg = drawSvg({ ...budget, rows: [row('</text><script>alert("x")</script>\u202e', 100)] }, 780);
    expect(svg).not.toContain("<script");
    expect(svg).not.toContain("\u202e");
    expect(marksOf(drawSvg({ ...budget, rows: [] }, 780), "share")).toHaveLength(0);
  });

  test("no bar is longer than the axis, for any shares", () => {
    const share = fc.double({ min: 0, max: 100, noNaN: true });
    fc.assert(
      fc.property(fc.array(share, { minLength: 1, maxLength: 8 }), fc.constantFrom(340, 800), (shares, width) => {
        const rows = shares.map((one, index) => row(`part ${index}`, one, index === 1));
        const svg = drawSvg({ ...budget, rows }, width);
        expect(svg).not.toContain("NaN");
        for (const [x] of pointsOf(svg)) expect(x >= -3 && x <= width + 3).toBe(true);
      }),
      { numRuns: 30 },
    );
  });
});
