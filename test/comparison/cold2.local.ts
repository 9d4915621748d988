import { seededGenerator } from "../../core/index.ts";
import { tableFrom } from "./tables.ts";
import { designOf } from "../../core/comparison/design.ts";
import { analyseTable } from "../../core/comparison/table-analysis.ts";
import { comparisonNotes } from "../../core/comparison/comparison-notes.ts";
import { comparisonSentences } from "../../core/comparison/comparison-sentences.ts";
import { comparisonWarnings } from "../../core/comparison/comparison-warnings.ts";
import { Shown } from "../../core/comparison/shown.ts";
const generator = seededGenerator(1);
const names = Array.from({ length: 20 }, (_, index) => `variant ${index + 1}`);
const values = names.map((_, index) => Array.from({ length: 6 }, () => 100 + index + 5 * generator.normal()));
const table = tableFrom(Object.fromEntries(names.map((name, index) => [name, values[index] ?? []])));
const t = (what: string, f: () => any) => { const s = performance.now(); const r = f(); console.log(what, (performance.now() - s).toFixed(1)); return r; };
for (let round = 0; round < Number(process.argv[2] ?? 1); round++) {
const a = t("analyse", () => analyseTable(table, designOf(table, null), { baseline: null, margin: 5, confidence: 0.95, resampling: null }));
const shown = t("shown", () => new Shown("value", 0.95, 100, "en"));
t("entries", () => a.pairs.map((p: any) => p.entry(0.5)));
t("warn", () => comparisonWarnings(a, "gamesHowell", shown));
t("notes", () => comparisonNotes(a, shown));
t("sentences", () => comparisonSentences(a, "gamesHowell", shown));
}
