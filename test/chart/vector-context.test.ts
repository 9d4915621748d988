import { describe, expect, test } from "vitest";
import { PdfContext, parseFont, plainText, SvgContext } from "../../app/chart/index.ts";
import { shortenText, wrapLabel } from "../../app/chart/label.ts";
import { arcCurves } from "../../app/chart/vector-path.ts";
import { expectNumber } from "../numbers.ts";

const perCharacter = (text: string) => [...text].length * 6;

describe("font shorthand (CSS Fonts Module Level 4, 6.11)", () => {
  test.each([
    ["600 13px Source Sans 3, sans-serif", 600, false, 13, "Source Sans 3, sans-serif"],
    ["italic bold 11.5px/1.4 serif", 700, true, 11.5, "serif"],
    ['normal 12px "A B"', 400, false, 12, '"A B"'],
  ])("%s", (font, weight, italic, size, family) => {
    expect(parseFont(font)).toEqual({ weight, italic, size, family });
  });

  test("a font without pixels is refused", () => {
    expect(() => parseFont("2em serif")).toThrow(/px/);
  });
});

describe("arcs as curves", () => {
  test("a full turn is four curves that stay within 0.03 % of the circle (Goldapp 1991, from memory: 2.7e-4)", () => {
    const curves = arcCurves(0, 0, 1, 1, 0, 0, 2 * Math.PI);
    expect(curves).toHaveLength(4);
    let [x, y] = [1, 0];
    for (const [ax, ay, bx, by, ex, ey] of curves) {
      for (let t = 0; t <= 1; t += 0.05) {
        const weights = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3] as const;
        const px = weights[0] * x + weights[1] * ax + weights[2] * bx + weights[3] * ex;
        const py = weights[0] * y + weights[1] * ay + weights[2] * by + weights[3] * ey;
        expectNumber(Math.hypot(px, py), 1, { absolute: 3e-4 });
      }
      [x, y] = [ex, ey];
    }
    expectNumber(x, 1, { absolute: 1e-12 });
  });
});

describe("the context's state (HTML Living Standard, 4.12.5.1)", () => {
  test("transforms apply innermost first and return with restore", () => {
    const svg = new SvgContext(perCharacter, "t");
    svg.save();
    svg.translate(10, 20);
    svg.scale(2, 2);
    svg.fillRect(1, 1, 3, 3);
    svg.restore();
    svg.fillRect(0, 0, 1, 1);
    expect(svg.content).toContain("M12 22L18 22L18 28L12 28Z");
    expect(svg.content).toContain("M0 0L1 0L1 1L0 1Z");
  });

  test("text is anchored by its measured width", () => {
    const svg = new SvgContext(perCharacter, "t");
    svg.font = "400 10px serif";
    svg.textAlign = "right";
    svg.fillText("abc", 100, 50);
    expect(svg.content).toContain('x="82" y="50"');
  });

  test("a clip is named once and used by what follows it only", () => {
    const svg = new SvgContext(perCharacter, "t");
    svg.save();
    svg.rect(0, 0, 5, 5);
    svg.clip();
    svg.fillRect(0, 0, 9, 9);
    svg.fillRect(1, 1, 9, 9);
    svg.restore();
    svg.fillRect(2, 2, 9, 9);
    expect(svg.content.match(/<clipPath/g)).toHaveLength(1);
    expect(svg.content.match(/clip-path="url\(#t-clip-1\)"/g)).toHaveLength(2);
  });

  test("in a PDF pixels become points at their place, and each paint leaves the page's state as it was", () => {
    const calls: [string, ...unknown[]][] = [];
    const document = new Proxy(
      {},
      {
        get:
          (_, name) =>
          (...given: unknown[]) =>
            calls.push([String(name), ...given]),
      },
    );
    const context = new PdfContext(document as never, { x: 50, y: 100, scale: 0.5 }, perCharacter, () => undefined);
    context.lineWidth = 4;
    context.strokeStyle = "#112233";
    context.moveTo(0, 0);
    context.lineTo(10, 20);
    context.stroke();
    expect(calls).toContainEqual(["moveTo", 50, 100]);
    expect(calls).toContainEqual(["lineTo", 55, 110]);
    expect(calls).toContainEqual(["lineWidth", 2]);
    expect(calls.filter(([name]) => name === "save")).toHaveLength(calls.filter(([name]) => name === "restore").length);
  });
});

describe("labels", () => {
  test("a text that fits stays whole", () => expect(shortenText("skirt", 30, perCharacter)).toBe("skirt"));
  test("a shortened text fits and ends with an ellipsis", () => {
    const short = shortenText("no skirt, narrow gap", 60, perCharacter);
    expect(short.endsWith("…")).toBe(true);
    expect(perCharacter(short)).toBeLessThanOrEqual(60);
  });
  test("a grapheme is never cut (Unicode Standard Annex 29)", () => {
    const family = "👩‍👩‍👧";
    expect(shortenText(`${family}${family}${family}`, 45, perCharacter).replace("…", "").replaceAll(family, "")).toBe(
      "",
    );
  });
  test("lines break at spaces, the last takes the rest", () => {
    expect(wrapLabel("no skirt, narrow gap", 60, 3, perCharacter)).toEqual(["no skirt,", "narrow gap"]);
    expect(wrapLabel("a b c d e f g h", 18, 2, perCharacter)).toEqual(["a b", "c…"]);
  });
});

test("plain text keeps what is seen and drops controls and direction marks", () => {
  expect(plainText("a\u0000b\u202ec\u2066d\ufeff\n\te")).toBe("abcd e");
  expect(plainText("μ → Ж שלום 漢")).toBe("μ → Ж שלום 漢");
  expect(plainText("\ud800x")).toBe("\ufffdx");
});
