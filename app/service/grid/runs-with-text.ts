import { type Locale, wordsFor } from "../../../core/index.ts";
import { StoreFault, type StudyDatabase } from "../../store/index.ts";
import type { StudyContent } from "../study/study-content.ts";
import { folded, numeral } from "./folded.ts";
import type { GridRows } from "./grid-rows.ts";
import type { Turn } from "./turn.ts";

/** Of so many runs the texts are read in one go. */
const runsAtOnce = 500;
/** What numbers, days and times are written with. */
const numberMarks = /^[\d.:+\-etz]*$/;

/**
 * Runs in whose cells a text may occur, found in what the file keeps as text; null where it may be in any: a number, a day, a time, or a
 * phase. Much faster than reading all runs, for the names and words that people mostly look for.
 */
export async function runsWithText(
  needle: string,
  rows: GridRows,
  content: StudyContent,
  database: StudyDatabase,
  locale: Locale,
  turn: Turn,
): Promise<ReadonlySet<number> | null> {
  const isInPhase = Object.values(wordsFor(locale).quantities.phase).some((phase) => folded(phase).includes(needle));
  if (isInPhase || numberMarks.test(numeral(needle))) return null;
  const fits = (text: string | null) => text !== null && folded(text).includes(needle);
  try {
    const found = new Set<number>();
    const variants = new Set<number>();
    for (const [item, { name, levels }] of content.head.variants) {
      if (fits(name) || [...levels.values()].some(fits)) variants.add(item);
    }
    for (const [run, levels] of database.ownLevels()) if ([...levels.values()].some(fits)) found.add(run);
    for (const { run, name, variant, block, operator, leftOut } of rows.lines) {
      if (variants.has(variant) || [name, block, operator, leftOut].some(fits)) found.add(run);
      if (turn.isOver) await turn.pause();
    }
    const items = rows.lines.map(({ run }) => run).sort((one, other) => one - other);
    for (let from = 0; from < items.length; from += runsAtOnce) {
      const [first = 0, last = first] = [items[from], items[Math.min(from + runsAtOnce, items.length) - 1]];
      for (const run of database.runsWithText(first, last, fits)) found.add(run);
      if (turn.isOver) await turn.pause();
    }
    return found;
  } catch (error) {
    if (!(error instanceof StoreFault) || error.code !== "damaged") throw error;
    return null;
  }
}
