import { type Locale, wordsFor } from "../words/index.ts";
import type { ComparedTable } from "./compared-table.ts";

/** What a comparison's design is, as far as the choice of method goes. No value enters. */
export interface Design {
  /** Variants in the order in which they are compared: the baseline first, the others by first appearance. */
  readonly levels: readonly string[];
  readonly hasBlocks: boolean;
  /** Blocks, and those of them that hold two variants or more. */
  readonly blocks: number;
  readonly sharedBlocks: number;
  readonly factors: readonly string[];
}

/** The analysis that leads: "gamesHowell" together with Welch's analysis of variance. */
export type Lead = "welch" | "gamesHowell" | "blocked" | "factors" | null;

/** Reads the design off a table. */
export function designOf(table: ComparedTable, baseline: string | null): Design {
  const appearing = [...new Set(table.rows.map(({ level }) => level))];
  const levels = baseline === null ? appearing : [baseline, ...appearing.filter((level) => level !== baseline)];
  const inBlocks = new Map<string, Set<string>>();
  for (const { block, level } of table.rows) {
    if (block === null) continue;
    inBlocks.set(block, (inBlocks.get(block) ?? new Set<string>()).add(level));
  }
  const shared = [...inBlocks.values()].filter((variants) => variants.size >= 2);
  return {
    levels,
    hasBlocks: table.hasBlocks,
    blocks: inBlocks.size,
    sharedBlocks: shared.length,
    factors: table.factors,
  };
}

/**
 * Which analysis leads, and why. The rules, of which the first that fits counts:
 *
 * 1. fewer than two variants: none;
 * 2. blocks, of which at least two hold two variants or more: the randomised-block analysis;
 * 3. design factors: the linear model of these factors;
 * 4. three variants or more: Welch's analysis of variance with Games and Howell's intervals;
 * 5. two variants: Welch's t.
 *
 * No value, no test and no warning enters: tests of normality, spread or outliers at three to ten runs have little power, and a
 * method that was chosen by them no longer has the error rates that it states.
 */
export function leadOf(design: Design, locale: Locale): { readonly leads: Lead; readonly because: string } {
  const words = wordsFor(locale).comparison.because;
  const { levels, hasBlocks, sharedBlocks, factors } = design;
  const count = levels.length;
  const blocksUnused = hasBlocks && sharedBlocks < 2;
  if (count < 2) return { leads: null, because: words.oneVariant };
  if (sharedBlocks >= 2) return { leads: "blocked", because: words.blocked(count, sharedBlocks, factors) };
  const noBlocks = blocksUnused ? words.blocksApart : words.noBlocks;
  if (factors.length > 0) return { leads: "factors", because: words.factors(factors, noBlocks) };
  return { leads: count === 2 ? "welch" : "gamesHowell", because: words.variants(count, noBlocks) };
}
