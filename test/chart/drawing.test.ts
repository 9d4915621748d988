import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chartHeight } from "../../app/chart/index.ts";
import type { ChangeStrip, RunsAndChangeChart } from "../../core/index.ts";
import { inventedChart, inventedRow } from "../report-output/sample-report.ts";
import { type DrawnText, drawSvg, marksOf, pointsOf, textsOf } from "./svg-text.ts";

const four = inventedChart as RunsAndChangeChart;
const hostile = '</text><script>alert("x")</script> & \u0000\u202eevil\u202c';

function variants(count: number, name: (index: number) => string): RunsAndChangeChart {
  const rows = Array.from({ length: count }, (_, index) =>
    inventedRow(
      index,
      name(index),
      750 - 11 * index,
      18,
      index === 0
        ? null
        : { value: -2 * index, lower: -2 * index - 5, upper: -2 * index + 5, text: `${2 * index} % less` },
    ),
  );
  return { ...four, rows };
}

const overlap = (one: DrawnText, other: DrawnText): boolean =>
  one.left < other.right - 0.5 &&
  other.left < one.right - 0.5 &&
  one.baseline - one.size * 0.7 < other.baseline &&
  other.baseline - other.size * 0.7 < one.baseline;

function expectTidy(chart: RunsAndChangeChart, width: number): void {
  const svg = drawSvg(chart, width);
  const height = chartHeight(chart, width);
  const texts = textsOf(svg);
  for (const text of texts) {
    expect(text.left, `left end of "${text.text}" at width ${width}`).toBeGreaterThanOrEqual(-0.5);
    expect(text.right, `right end of "${text.text}" at width ${width}`).toBeLessThanOrEqual(width + 0.5);
    expect(text.baseline, `foot of "${text.text}"`).toBeLessThanOrEqual(height);
  }
  for (const [x, y] of pointsOf(svg)) {
    expect(x).toBeGreaterThanOrEqual(-3);
    expect(x).toBeLessThanOrEqual(width + 3);
    expect(y).toBeGreaterThanOrEqual(0);
    expect(y).toBeLessThanOrEqual(height);
  }
  if (width >= 430) {
    // Names stand beside their rows, and end before any mark begins.
    const nameEnds = marksOf(svg, "variant-name").flatMap((mark) => textsOf(mark).map(({ right }) => right));
    const marks = ["run", "mean"].flatMap((name) => marksOf(svg, name).flatMap(pointsOf));
    expect(Math.max(...nameEnds)).toBeLessThan(Math.min(...marks.map(([x]) => x)));
  }
  texts.forEach((one, at) => {
    for (const other of texts.slice(at + 1)) {
      expect(overlap(one, other), `"${one.text}" over "${other.text}" at width ${width}`).toBe(false);
    }
  });
}

describe("runs and change", () => {
  test("every run is a mark of its own, those left out among them", () => {
    const svg = drawSvg(four, 780);
    expect(marksOf(svg, "run")).toHaveLength(23);
    expect(marksOf(svg, "run-left-out")).toHaveLength(1);
  });

  test("a run's mark says its name and value", () => {
    const [first = ""] = marksOf(drawSvg(four, 780), "run");
    expect(first).toContain("<title>run 1: 730</title>");
  });

  test("a run left out is soft, crossed and says so", () => {
    const [mark = ""] = marksOf(drawSvg(four, 780), "run-left-out");
    expect(mark).toContain("(left out)");
    expect(mark).toContain('stroke="#5b5f66"');
    expect(mark.match(/<path/g)).toHaveLength(2);
  });

  test("each mean, each change and the line of no change is there once", () => {
    const svg = drawSvg(four, 780);
    expect(marksOf(svg, "mean")).toHaveLength(4);
    expect(marksOf(svg, "change")).toHaveLength(3);
    expect(marksOf(svg, "no-change")).toHaveLength(1);
    const texts = textsOf(svg).map(({ text }) => text);
    for (const text of ["752", "663", "591", "553", "12 % less", "21 % less", "26 % less", "no change"]) {
      expect(texts).toContain(text);
    }
  });

  test("places are linear in the value: the run half way between two others stands half way", () => {
    const row = inventedRow(0, "one", 100, 10, null);
    const runs = [80, 90, 100].map((value) => ({ name: `run ${value}`, value, leftOut: false }));
    const marks = marksOf(drawSvg({ ...four, rows: [{ ...row, runs, mean: null }] }, 780), "run");
    const centres = marks.map((mark) => {
      const xs = pointsOf(mark).map(([x]) => x);
      return (Math.min(...xs) + Math.max(...xs)) / 2;
    });
    const [low = NaN, middle = NaN, high = NaN] = centres;
    expect(high).toBeGreaterThan(low + 20);
    expect(Math.abs(middle - (low + high) / 2)).toBeLessThan(0.05);
  });

  test("runs that coincide stand apart", () => {
    const row = inventedRow(0, "one", 100, 10, null);
    const runs = Array.from({ length: 8 }, (_, at) => ({ name: `run ${at}`, value: 100, leftOut: false }));
    const marks = marksOf(drawSvg({ ...four, rows: [{ ...row, runs }] }, 780), "run");
    const middles = marks.map((mark) => pointsOf(mark)[0]?.[1] ?? NaN).toSorted((a, b) => a - b);
    expect(middles).toHaveLength(8);
    middles.slice(1).forEach((y, at) => {
      expect(y - (middles[at] ?? NaN)).toBeGreaterThanOrEqual(1.5);
    });
  });

  test("the same specification gives the same drawing", () => {
    expect(drawSvg(four, 780)).toBe(drawSvg(four, 780));
  });

  test("an end that does not exist is an arrow at the axis' end; with neither end there is no bar", () => {
    const change = (lower: number | null, upper: number | null) => {
      const rows = [
        inventedRow(0, "a", 750, 16, null),
        inventedRow(1, "b", 700, 16, { value: -7, lower, upper, text: "7 % less" }),
      ];
      return marksOf(drawSvg({ ...four, rows }, 780), "change")[0]?.match(/<path/g)?.length;
    };
    const closed = change(-10, -4) ?? NaN;
    expect(change(-10, null)).toBe(closed + 1);
    expect(change(null, null)).toBe(closed - 1);
  });

  test("an interval thirty times as wide as the rest leaves the rest readable", () => {
    const wide = inventedRow(4, "two runs", 600, 20, { value: -20, lower: -900, upper: 860, text: "20 % less" });
    const ticks = textsOf(drawSvg({ ...four, rows: [...four.rows, wide] }, 780)).flatMap(
      ({ text }) => /^[−+](\d+)\u202f%$/.exec(text)?.[1] ?? [],
    );
    expect(Math.max(...ticks.map(Number))).toBeLessThanOrEqual(100);
  });

  test("without a change to show there is one part only", () => {
    const svg = drawSvg({ ...four, changeTitle: null }, 780);
    expect(marksOf(svg, "change")).toHaveLength(0);
    expect(textsOf(svg).some(({ text }) => text === "no change")).toBe(false);
  });

  test("in a narrow window the change stands under the runs", () => {
    const svg = drawSvg(four, 380);
    const baseline = (wanted: string) => textsOf(svg).find(({ text }) => text === wanted)?.baseline ?? NaN;
    expect(baseline("change from no skirt, wide gap")).toBeGreaterThan(baseline("553"));
  });

  test("names are text, whatever they hold", () => {
    const svg = drawSvg(
      variants(2, () => hostile),
      780,
    );
    expect(svg).not.toContain("<script");
    for (const unseen of ["\u0000", "\u202e", "\u202c"]) expect(svg).not.toContain(unseen);
    expect(svg).toContain("&lt;/text&gt;");
  });

  test.each([320, 380, 430, 500, 620, 700, 900, 1440])(
    "nothing overlaps or leaves a picture %i pixels wide",
    (width) => {
      expectTidy(four, width);
      expectTidy(
        variants(20, (index) => `variant ${index + 1}`),
        width,
      );
      expectTidy(
        variants(1, () => "alone"),
        width,
      );
      expectTidy(
        variants(3, () => "wide gap and ".repeat(800)),
        width,
      );
      expectTidy(
        variants(3, () => "x".repeat(10_000)),
        width,
      );
      expectTidy({ ...four, valueTitle: "wood ".repeat(60), changeTitle: "change from ".repeat(60) }, width);
    },
  );

  test("values that differ by less than can be drawn are drawn as the same", () => {
    const tiny = { value: 4.450147717014407e-308, lower: 0, upper: 5e-324, text: "0" };
    const row = { variant: "a", index: 0, runs: [], mean: tiny, change: null, isBaseline: true };
    const svg = drawSvg({ ...four, rows: [row] }, 340);
    expect(svg).not.toContain("NaN");
    expect(pointsOf(svg).length).toBeGreaterThan(0);
  });

  test("nothing leaves the picture for any values", () => {
    const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    const end = fc.option(value);
    const row = fc.record({
      runs: fc.array(value, { maxLength: 6 }),
      mean: value,
      lower: end,
      upper: end,
      change: value,
    });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 5 }), fc.constantFrom(340, 560, 800), (drawn, width) => {
        const rows = drawn.map((one, index) => ({
          variant: `variant ${index}`,
          index,
          runs: one.runs.map((run, at) => ({ name: `run ${at}`, value: run, leftOut: at === 2 })),
          mean: { value: one.mean, lower: one.lower, upper: one.upper, text: "1" },
          change: index === 0 ? null : { value: one.change, lower: one.upper, upper: one.lower, text: "2" },
          isBaseline: index === 0,
        }));
        const svg = drawSvg({ ...four, rows }, width);
        expect(svg).not.toContain("NaN");
        for (const [x] of pointsOf(svg)) expect(x > -12 && x < width + 12).toBe(true);
        expect(marksOf(svg, "run").length + marksOf(svg, "run-left-out").length).toBe(
          drawn.reduce((sum, one) => sum + one.runs.length, 0),
        );
      }),
      { numRuns: 40 },
    );
  });

  test("no variant at all is an empty picture, not an error", () => {
    expect(marksOf(drawSvg({ ...four, rows: [] }, 780), "run")).toHaveLength(0);
  });
});

describe("change strip", () => {
  const strip: ChangeStrip = {
    kind: "change-strip",
    change: { value: -21, lower: -27, upper: -15, text: "21 % less" },
    extent: 40,
    tone: "sure",
    textAlternative: "21 % less, interval 15 to 27 % less",
  };

  test("no change stands in the middle, less to its left", () => {
    const svg = drawSvg(strip, 120);
    const [mark = ""] = marksOf(svg, "change");
    const middle = pointsOf(svg.slice(0, svg.indexOf("<g")))[0]?.[0] ?? NaN;
    expect(Math.abs(middle - 60)).toBeLessThanOrEqual(1);
    for (const [x] of pointsOf(mark)) expect(x).toBeLessThan(middle);
  });

  test("sure and open differ in more than colour: filled and hollow", () => {
    const fills = (tone: "sure" | "open") =>
      marksOf(drawSvg({ ...strip, tone }, 120), "change")[0]?.match(/fill="(#\w+)"/)?.[1];
    expect(fills("sure")).toBe("#2b6349");
    expect(fills("open")).toBe("#fffdf7");
  });

  test("what lies beyond the extent is an arrow within the strip", () => {
    const svg = drawSvg({ ...strip, change: { ...strip.change, upper: 4000 } }, 120);
    for (const [x] of pointsOf(svg)) expect(x).toBeLessThanOrEqual(120);
  });
});
