import { type Locale, type PhaseName, type Problem, type Settings, wordsFor } from "../../core/index.ts";
import type { FileColumn, FileColumns } from "./file-columns.ts";
import { isLayoutColumn, layoutColumns } from "./layout.ts";
import { matchHeading } from "./match-headings.ts";
import { problemList } from "./problem-list.ts";
import { draftRun, type RunDraft } from "./read-run.ts";
import { rowReader } from "./row-reader.ts";

/** Columns of the layout, each where it stands in a row that has them all. */
const known: ReadonlyMap<string, FileColumn> = new Map(
  layoutColumns.map(({ name }, index) => [name, { index, heading: name, unit: null }]),
);

const factorHeading = "factor:";

/** The design factor that a heading `factor:NAME` names; null where it is another heading. */
export function factorOf(heading: string): string | null {
  return heading.startsWith(factorHeading) ? heading.slice(factorHeading.length) : null;
}

/** Whether a heading is one that the layout does not know, written as reading a file would keep it. */
export function isOtherHeading(heading: string): boolean {
  const match = matchHeading(heading);
  return match.kind === "other" && match.heading === heading;
}

/** One phase as a person fills it in: cells by heading, in the layout's units; texts as a file writes them (`neutralText`). */
export interface PhaseRow {
  readonly phase: PhaseName;
  readonly cells: ReadonlyMap<string, string>;
}

export interface RunCellsRead {
  readonly draft: RunDraft;
  /** Without file and row; a problem's cell is the cell's text. */
  readonly problems: readonly Problem[];
}

/**
 * Reads one run from cells that were filled in one by one, by the rules of a readings file. Other than in a file both comma and
 * point are decimal marks and nothing parts thousands, and the sentences speak of cells, not of rows and files.
 */
export function readRunCells(
  name: string,
  rows: readonly PhaseRow[],
  settings: Pick<Settings, "fuels" | "charNetCalorific" | "instruments">,
  locale: Locale,
): RunCellsRead {
  const further = new Map<string, number>();
  for (const { cells } of rows) {
    for (const heading of cells.keys()) {
      if (!isLayoutColumn(heading) && !further.has(heading)) further.set(heading, layoutColumns.length + further.size);
    }
  }
  const factors: { index: number; heading: string; factor: string }[] = [];
  const others: { index: number; heading: string }[] = [];
  for (const [heading, index] of further) {
    const factor = factorOf(heading);
    if (factor === null) others.push({ index, heading });
    else factors.push({ index, heading, factor });
  }
  const columns: FileColumns = { known, factors, others, refused: new Set(), notes: [] };
  const { problems: words } = wordsFor(locale);
  const list = problemList("", locale, { ...words, cell: words.entry.cell });
  const named = rows.map(({ phase, cells }, index) => {
    const row: string[] = new Array(layoutColumns.length + further.size).fill("");
    for (const [heading, text] of cells) row[known.get(heading)?.index ?? further.get(heading) ?? 0] = text;
    const reader = rowReader({ row: index, cells: row }, columns, "either", list, false);
    if (reader.run === "") {
      reader.error("reading-missing", reader.place("run"), list.words.cell.missingName({ column: "run" }));
    }
    return { row: reader, phase };
  });
  const draft = draftRun(name, named, { columns, list, settings });
  return { draft, problems: list.problems.map((problem) => ({ ...problem, row: null })) };
}
