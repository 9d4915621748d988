import { describe, expect, it } from "vitest";
import { visualOrder } from "../../app/report/visual-order.ts";

/**
 * Expected orders follow the rules of Unicode Standard Annex 9 (from memory), worked by hand: words of a right-to-left stretch
 * are seen from right to left, numbers keep their digits, brackets are mirrored, signs at the ends of a stretch stay outside.
 * Letters of a word stay as they are: the font's shaping turns them.
 */
describe("the order in which a line's words are seen", () => {
  const [one, two, three] = ["עם", "חצאית", "צר"] as const;

  it.each([
    ["a line without such words", "no skirt (wide) 12 mm", "no skirt (wide) 12 mm"],
    ["words within a sentence", `than “${one} ${two}”.`, `than “${two} ${one}”.`],
    ["a number between words", `${one} 12,5 ${two}`, `${two} 12,5 ${one}`],
    ["a number after words stays with the sentence", `${one} ${two} 12`, `${two} ${one} 12`],
    ["brackets within", `${one} (12 ${two}) ${three}`, `${three} (${two} 12) ${one}`],
    ["a bracket that closes at the end", `${one} (${two}), x`, `(${two}) ${one}, x`],
    [
      "two stretches with a Latin word between",
      `${one} ${two} skirt ${three} ${one}`,
      `${two} ${one} skirt ${one} ${three}`,
    ],
    ["Arabic with its comma", "بدون تنورة، فجوة", "فجوة تنورة، بدون"],
  ])("%s", (_, text, seen) => {
    expect(visualOrder(text)).toBe(seen);
  });

  it("loses and adds nothing", () => {
    const text = `“<b>${one}</b> & [${two}” 3 ${three}\u202f%) a`;
    expect([...visualOrder(text)].toSorted().join("")).toBe([...text].toSorted().join(""));
  });
});
