import { describe, expect, test } from "vitest";
import {
  type ChartTheme,
  darkTheme,
  lightTheme,
  printTheme,
  variantColour,
  variantShape,
} from "../../app/chart/index.ts";
import { expectNumber } from "../numbers.ts";

/** Relative luminance of a colour #rrggbb. WCAG 2.2, "relative luminance" (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance). */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** WCAG 2.2, "contrast ratio". */
function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].toSorted((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

const themes: [string, ChartTheme][] = [
  ["light", lightTheme],
  ["dark", darkTheme],
  ["print", printTheme],
];

test("contrast is 21 for black on white, 1 for a colour on itself (WCAG 2.2, contrast ratio runs from 1 to 21)", () => {
  expectNumber(contrast("#000000", "#ffffff"), 21, { relative: 1e-12 });
  expectNumber(contrast("#0a6aa8", "#0a6aa8"), 1);
});

describe.each(themes)("%s theme", (_, theme) => {
  test.each(["ink", "inkSoft", "attention", "sure"] as const)(
    "%s as text has 4.5:1 on the sheet (WCAG 2.2, 1.4.3)",
    (name) => {
      expect(contrast(theme[name], theme.sheet)).toBeGreaterThanOrEqual(4.5);
    },
  );

  test("text on the soft attention colour has 4.5:1 (WCAG 2.2, 1.4.3)", () => {
    expect(contrast(theme.ink, theme.attentionSoft)).toBeGreaterThanOrEqual(4.5);
  });

  test("the edge of an attention aside has 3:1 beside its ground (WCAG 2.2, 1.4.11)", () => {
    expect(contrast(theme.attention, theme.attentionSoft)).toBeGreaterThanOrEqual(3);
  });

  test.each([0, 1, 2, 3, 4, 5])("marks of variant %i have 3:1 on the sheet (WCAG 2.2, 1.4.11)", (index) => {
    expect(contrast(variantColour(theme, index), theme.sheet)).toBeGreaterThanOrEqual(3);
  });
});

test("no two of the first 42 variants share both colour and shape", () => {
  const looks = Array.from({ length: 42 }, (_, index) => `${variantColour(lightTheme, index)} ${variantShape(index)}`);
  expect(new Set(looks).size).toBe(42);
});

test("the first four shapes are those of the sketches", () => {
  expect([0, 1, 2, 3].map(variantShape)).toEqual(["circle", "square", "triangle", "diamond"]);
});
