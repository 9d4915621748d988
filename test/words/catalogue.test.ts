import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { phaseNames } from "../../core/readings/phase.ts";
import { wordsFor } from "../../core/words/index.ts";
import { shorten } from "../../core/words/shorten.ts";

const project = join(import.meta.dirname, "..", "..");
const words = wordsFor("en");

interface Entry {
  readonly path: string;
  readonly value: unknown;
}

/** Every entry of the catalogue, however deep: texts, functions, and whatever else there should not be. */
function entries(value: unknown, path: string): Entry[] {
  const isGroup = typeof value === "object" && value !== null;
  return isGroup ? Object.entries(value).flatMap(([key, one]) => entries(one, `${path}.${key}`)) : [{ path, value }];
}

const all = Object.entries(words).flatMap(([key, value]) => entries(value, key));
/** What is meant to begin or end in blanks, or to stand in columns on a terminal. */
const isSetApart = (path: string) => path.startsWith("commandLine.help.") || path === "screens.separator";
const texts = all.flatMap(({ path, value }) => (typeof value === "string" ? [[path, value] as const] : []));

describe("the catalogue", () => {
  it("holds texts and functions that make texts, and nothing else", () => {
    expect(all.filter(({ value }) => typeof value !== "string" && typeof value !== "function")).toEqual([]);
    expect(texts.length).toBeGreaterThan(200);
  });

  it("has no empty, ragged or half-written text", () => {
    const wrong = texts.filter(
      ([path, text]) =>
        (!isSetApart(path) && (text !== text.trim() || /\s\s/.test(text))) ||
        text === "" ||
        /undefined|\bnull\b|NaN|TODO|\$\{/.test(text) ||
        /\s[,.;:?]/.test(text),
    );
    expect(wrong).toEqual([]);
  });

  it("quotes with typographic marks: straight ones stand only where a computer reads them", () => {
    expect(texts.filter(([, text]) => /"/.test(text))).toEqual([]);
  });

  it("names every phase", () => {
    expect(Object.keys(words.quantities.phase).sort()).toEqual([...phaseNames].sort());
  });
});

describe("sentences about each quantity", () => {
  const amount = "21 %";
  it.each(Object.entries(words.quantities.of))(
    "%s: less and more differ, and hold the amount where there is one",
    (_, one) => {
      for (const phrase of [one.less, one.more]) {
        expect(phrase(amount)).toContain(amount);
        expect(phrase(null)).not.toMatch(/null|undefined|\s\s|\s$/);
        expect(phrase(null)).not.toContain("%");
      }
      expect(one.less(amount)).not.toBe(one.more(amount));
      expect(one.less(null)).not.toBe(one.more(null));
    },
  );
});

describe("counts in words", () => {
  // One is "1 run", all others "runs": whoever adds a sentence with a count has both to think of.
  const counted: [string, (count: number) => string][] = [
    ["chart", (count) => words.charts.rowAlternative("A", count, null, null)],
    ["one variant", (count) => words.report.oneVariantNoInterval(count)],
  ];
  it.each(counted)("%s", (_name, sentence) => {
    expect(sentence(1)).toMatch(/\b1 run\b/);
    expect(sentence(0)).toMatch(/\b0 runs\b/);
    expect(sentence(2)).toMatch(/\b2 runs\b/);
  });
});

describe("names that people give", () => {
  const hostile = `${"x".repeat(5_000)}`;
  it("are cut to what a sentence can bear, on whole characters", () => {
    expect(shorten("skirt")).toBe("skirt");
    expect([...shorten(hostile)]).toHaveLength(80);
    expect(shorten("🔥".repeat(90), 4)).toBe("🔥🔥🔥…");
    expect(words.findings.quoted(hostile).length).toBeLessThan(100);
  });
});

describe("the machine's own language", () => {
  /** Code that a person's reading depends on: the core, and what writes files and pages from it. */
  const folders = ["core", "app/chart", "app/cli", "app/import", "app/report", "app/server", "app/service", "renderer"];
  const sources = folders.flatMap((folder) =>
    readdirSync(join(project, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name)),
  );

  it("decides nothing: no text is written, read, sorted or cased by the locale of the machine", () => {
    // A language given as an argument is none of the machine's; cutting text into characters (Segmenter) has none.
    const leaks = /\.toLocale\w*\(\s*\)|\bIntl\.(?!Segmenter)\w+\(\s*(\)|undefined|\{)|\.localeCompare\([^,()]*\)/;
    for (const leak of ["one.toLocaleString()", "new Intl.NumberFormat()", "one.localeCompare(other)"]) {
      expect(leak).toMatch(leaks);
    }
    expect(sources.length).toBeGreaterThan(150);
    const found = sources.filter((file) => leaks.test(readFileSync(file, "utf8")));
    expect(found.map((file) => file.slice(project.length + 1))).toEqual([]);
  });
});
