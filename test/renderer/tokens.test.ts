import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type ChartTheme, darkTheme, lightTheme } from "../../app/chart/index.ts";
import { expectNumber } from "../numbers.ts";

const style = join(import.meta.dirname, "..", "..", "renderer", "style");
const tokens = readFileSync(join(style, "tokens.css"), "utf8");

/** Colours of a theme by name, from `--name: light-dark(#rrggbb, #rrggbb)`. */
function coloursOf(theme: "light" | "dark"): Map<string, string> {
  const found = tokens.matchAll(/--([a-z0-9-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/g);
  return new Map([...found].map(([, name, light, dark]) => [name ?? "", (theme === "light" ? light : dark) ?? ""]));
}

/** Relative luminance and contrast ratio: WCAG 2.2, "relative luminance" and "contrast ratio". */
function luminance(hex: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * (red ?? 0) + 0.7152 * (green ?? 0) + 0.0722 * (blue ?? 0);
}

function contrast(one: string, other: string): number {
  const [darker = 0, lighter = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (lighter + 0.05) / (darker + 0.05);
}

describe.each(["light", "dark"] as const)("colours of the %s theme", (theme) => {
  const colours = coloursOf(theme);
  const colour = (name: string) => colours.get(name) ?? expect.fail(`no colour --${name}`);
  const variants = [1, 2, 3, 4, 5, 6].map((n) => `variant-${n}`);

  it("were read: black on white is 21 to 1", () => {
    expectNumber(contrast("#000000", "#ffffff"), 21, { relative: 1e-12 });
    expect(colours.size).toBeGreaterThan(15);
  });

  it("give text at least 4.5 to 1 on every ground it stands on (WCAG 2.2, 1.4.3)", () => {
    const grounds = ["paper", "sheet", "hover", "field"];
    for (const ground of grounds) {
      for (const text of ["ink", "ink-soft", "attention"]) {
        expect(contrast(colour(text), colour(ground)), `${text} on ${ground}`).toBeGreaterThanOrEqual(4.5);
      }
    }
    for (const text of ["ink", "ink-soft", "attention"]) {
      expect(contrast(colour(text), colour("attention-soft")), `${text} on a question`).toBeGreaterThanOrEqual(4.5);
    }
    for (const text of [...variants, "sure"]) {
      expect(contrast(colour(text), colour("sheet")), text).toBeGreaterThanOrEqual(4.5);
    }
  });

  it("give edges of controls and the focus at least 3 to 1 (WCAG 2.2, 1.4.11)", () => {
    for (const mark of ["edge", "focus"]) {
      for (const ground of ["paper", "sheet", "field", "attention-soft"]) {
        expect(contrast(colour(mark), colour(ground)), `${mark} on ${ground}`).toBeGreaterThanOrEqual(3);
      }
    }
  });

  it("are the charts' colours too", () => {
    const chart: ChartTheme = theme === "light" ? lightTheme : darkTheme;
    expect(chart.variants).toEqual(variants.map(colour));
    expect([chart.ink, chart.inkSoft, chart.sheet, chart.sure, chart.attention]).toEqual(
      ["ink", "ink-soft", "sheet", "sure", "attention"].map(colour),
    );
  });
});

describe("style sheets", () => {
  it("take every colour from the tokens", () => {
    for (const file of readdirSync(style).filter((name) => name.endsWith(".css") && name !== "tokens.css")) {
      const text = readFileSync(join(style, file), "utf8").replace(/\/\*.*?\*\//gs, "");
      expect(text.match(/#[0-9a-f]{3,8}\b|\b(?:rgba?|hsla?|oklch|color)\(/gi) ?? [], file).toEqual([]);
    }
  });
});
