import { compareTable, type Locale, type Problem, wordsFor } from "../../core/index.ts";
import type { Request, TableCompared } from "../contract/index.ts";
import { nearestName, readComparisonTable } from "../import/index.ts";
import { sourceFile } from "./uploaded-file.ts";

/** More variants than anybody tests; beyond it another column was meant. */
const mostVariants = 60;

type Asked = Extract<Request, { kind: "table.compare" }>;

/** A table of results in, its comparison out. Nothing is kept. */
export function compareTableFile(asked: Asked, locale: Locale): TableCompared {
  const { value, by, block, factors, margin, confidence, resamples, seed } = asked;
  const { name, bytes } = sourceFile(asked.table, locale);
  const { table, problems, notes } = readComparisonTable(bytes, name, { value, by, block, factors }, locale);
  if (table === null) return { outcome: "refused", problems };
  const words = wordsFor(locale);
  const levels = [...new Set(table.rows.map(({ level }) => level))];
  const refused = (rule: string, message: string): TableCompared => ({
    outcome: "refused",
    problems: [{ ...nowhere, rule, file: name, column: table.by, message }],
  });
  if (levels.length > mostVariants) {
    const counts = { count: levels.length, limit: mostVariants };
    return refused("too-many-levels", words.comparisonTable.tooManyLevels(counts));
  }
  const { baseline } = asked;
  if (baseline !== null && !levels.includes(baseline)) {
    // Of names as short as A and B any is near.
    const near = baseline.length < 3 ? null : nearestName(baseline, levels);
    return refused("baseline-missing", words.comparisonTable.baselineMissing({ baseline, known: levels, near }));
  }
  const resampling = resamples === 0 ? null : { resamples, seed };
  const compared = compareTable(table, { baseline, margin, confidence, resampling }, locale);
  const comparison = { ...compared, notes: [...notes, ...compared.notes] };
  const { leads, because } = comparison;
  const heading =
    leads === null
      ? words.comparison.noLeading(because)
      : words.comparison.leading(words.comparison.leads[leads], because);
  const part = (title: string, lines: readonly string[]) =>
    lines.length === 0 ? [] : ["", title, ...lines.map((line) => `- ${line}`)];
  return {
    outcome: "done",
    comparison,
    lines: [
      heading,
      ...comparison.sentences.map((sentence) => `- ${sentence}`),
      ...part(words.comparison.warningsHeading, comparison.warnings),
      ...part(words.comparison.notesHeading, comparison.notes),
    ],
  };
}

const nowhere = {
  severity: "error",
  row: null,
  cell: null,
  run: null,
  phase: null,
} as const satisfies Partial<Problem>;
