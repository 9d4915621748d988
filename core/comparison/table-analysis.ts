import { type Anova, anova } from "../statistics/anova.ts";
import { type BlockedAnalysis, blockedAnalysis } from "../statistics/blocked.ts";
import { type BrownForsythe, brownForsythe } from "../statistics/brown-forsythe.ts";
import { type Drift, drift } from "../statistics/drift.ts";
import type { Factor } from "../statistics/factor-terms.ts";
import { type GamesHowellPair, gamesHowell } from "../statistics/games-howell.ts";
import { holm } from "../statistics/holm.ts";
import { type FactorModel, factorModel } from "../statistics/linear-model.ts";
import { allPairs, criticalT } from "../statistics/pair-comparison.ts";
import { type TukeyPair, tukey } from "../statistics/tukey.ts";
import { type WelchAnova, welchAnova } from "../statistics/welch-anova.ts";
import type { ComparedTable } from "./compared-table.ts";
import type { Design } from "./design.ts";
import { analyseGroup, type GroupAnalysis, type Resampling } from "./group-analysis.ts";
import { analysePair, type PairAnalysis } from "./pair-analysis.ts";

/** How a table is compared. */
export interface ComparisonSettings {
  /** Which variant the others are held against; null: the first that appears. */
  readonly baseline: string | null;
  /** Within which a difference would not matter, in the unit of the values; null where equivalence is not asked. */
  readonly margin: number | null;
  /** Coverage probability, between 0 and 1. */
  readonly confidence: number;
  /** Null for no bootstrap. */
  readonly resampling: Resampling | null;
}

/** Every analysis of one table, before it is put into words. Indices are places in the design's levels. */
export interface TableAnalysis {
  readonly table: ComparedTable;
  readonly settings: ComparisonSettings;
  readonly design: Design;
  readonly groups: readonly GroupAnalysis[];
  readonly pairs: readonly PairAnalysis[];
  readonly holmP: readonly (number | null)[];
  readonly brownForsythe: BrownForsythe;
  readonly anova: Anova;
  readonly welchAnova: WelchAnova;
  readonly tukey: readonly TukeyPair[];
  readonly gamesHowell: readonly GamesHowellPair[];
  readonly blocked: BlockedAnalysis | null;
  readonly factorList: readonly Factor[];
  readonly factors: FactorModel | null;
  /** Null where the table does not tell the order of all its runs. */
  readonly drift: Drift | null;
}

/** Analyses a table by every method that its design has a place for. */
export function analyseTable(table: ComparedTable, design: Design, settings: ComparisonSettings): TableAnalysis {
  const { confidence, margin, resampling } = settings;
  const { levels } = design;
  const byLevel = Map.groupBy(table.rows, ({ level }) => level);
  const groups = levels.map((level) => analyseGroup(level, byLevel.get(level) ?? [], confidence, resampling));
  const values = groups.map((group) => group.values);
  const critical = criticalT(confidence, groups.length);
  const pairs = allPairs(groups.length).map(({ first, second }) =>
    analysePair(groups[first] as GroupAnalysis, groups[second] as GroupAnalysis, confidence, margin, critical),
  );
  const factorList = table.factors.map((name, place) => ({
    name,
    levels: [...new Set(table.rows.map(({ factors }) => factors[place] ?? ""))],
  }));
  const factorRows = table.rows.map(({ value, factors }) => ({ value, levels: factors }));
  const orders = table.rows.flatMap(({ order }) => (order === null ? [] : [order]));
  const inOrder = orders.length === table.rows.length;
  return {
    table,
    settings,
    design,
    groups,
    pairs,
    holmP: holm(pairs.map(({ welch }) => welch.p)),
    brownForsythe: brownForsythe(values),
    anova: anova(values),
    welchAnova: welchAnova(values),
    tukey: tukey(values, confidence),
    gamesHowell: gamesHowell(values, confidence),
    blocked: design.hasBlocks
      ? blockedAnalysis(
          table.rows.map(({ value, level, block }) => ({ value, level, block: block ?? "" })),
          levels,
          confidence,
        )
      : null,
    factorList,
    factors: factorList.length === 0 ? null : factorModel(factorRows, factorList, confidence),
    drift: inOrder
      ? drift(
          table.rows.map(({ value }) => value),
          orders,
          table.rows.map(({ level }) => level),
        )
      : null,
  };
}
