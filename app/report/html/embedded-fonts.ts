import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);

interface Family {
  readonly name: string;
  readonly packageName: string;
  readonly file: (subset: string) => string;
}

const families: readonly Family[] = [
  {
    name: "Source Sans 3 Variable",
    packageName: "@fontsource-variable/source-sans-3",
    file: (subset) => `source-sans-3-${subset}-wght-normal.woff2`,
  },
  {
    name: "Source Serif 4 Variable",
    packageName: "@fontsource-variable/source-serif-4",
    file: (subset) => `source-serif-4-${subset}-wght-normal.woff2`,
  },
];

/** Subsets that a file carries where its text needs them; Latin always. Other scripts take the reader's own fonts. */
const subsets = ["latin", "latin-ext", "greek", "cyrillic", "vietnamese"];

const rules = new Map<string, string>();

/** Font faces, inside the file itself, for the subsets that a text needs. */
export function embeddedFonts(text: string): string {
  const used = new Set<number>();
  for (const character of text) used.add(character.codePointAt(0) ?? 0);
  return families.flatMap((family) => subsets.flatMap((subset) => faceRule(family, subset, used))).join("\n");
}

function faceRule(family: Family, subset: string, used: ReadonlySet<number>): string[] {
  const ranges = rangesOf(family, subset);
  if (ranges === null || !(subset === "latin" || covers(ranges, used))) return [];
  const key = `${family.name} ${subset}`;
  let rule = rules.get(key);
  if (rule === undefined) {
    const path = require.resolve(`${family.packageName}/files/${family.file(subset)}`);
    const data = readFileSync(path).toString("base64");
    rule = `@font-face{font-family:"${family.name}";font-weight:200 900;src:url(data:font/woff2;base64,${data}) format("woff2");unicode-range:${ranges}}`;
    rules.set(key, rule);
  }
  return [rule];
}

const rangeTables = new Map<string, Map<string, string>>();

function rangesOf(family: Family, subset: string): string | null {
  let table = rangeTables.get(family.packageName);
  if (table === undefined) {
    const file = readFileSync(require.resolve(`${family.packageName}/unicode.json`), "utf8");
    table = new Map(Object.entries(JSON.parse(file) as Record<string, string>));
    rangeTables.set(family.packageName, table);
  }
  return table.get(subset) ?? null;
}

/** Whether a CSS unicode-range list holds any of the characters. */
function covers(ranges: string, used: ReadonlySet<number>): boolean {
  return ranges.split(",").some((range) => {
    const [first = "", last = first] = range.trim().slice(2).split("-");
    const [low, high] = [Number.parseInt(first, 16), Number.parseInt(last, 16)];
    for (const codePoint of used) if (codePoint >= low && codePoint <= high) return true;
    return false;
  });
}
