import type { ChartSpecification } from "../../core/index.ts";
import { budgetChartHeight, planBudget } from "./plan-budget.ts";
import { planRows, rowsChartHeight } from "./plan-rows.ts";

/** Where everything of a chart stands, in pixels from its upper left corner. Scales turn values into places within it. */
export interface ChartPlan {
  readonly fontSize: number;
  readonly runs: PartPlan | null;
  readonly change: PartPlan | null;
}

/** One axis with its rows: the runs (or the shares of a budget), or the change from the baseline. */
export interface PartPlan {
  readonly area: Area;
  readonly title: readonly string[];
  readonly titleLeft: number;
  /** Baseline of the title's first line. */
  readonly titleBaseline: number;
  readonly tickBaseline: number;
  readonly rows: readonly RowPlan[];
  /** Texts beside and above marks stay between these. */
  readonly textLeft: number;
  readonly textRight: number;
}

export interface RowPlan {
  /** Index into the specification's rows. */
  readonly row: number;
  /** Middle of the marks. */
  readonly middle: number;
  /** Marks shrink where rows are lower than usual: 1 at the usual height. */
  readonly scale: number;
  /** Lines of the variant's name; none where another part already shows it. */
  readonly label: readonly string[];
  readonly labelBaseline: number;
}

export interface Area {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Width of a text in pixels at a size in pixels, in the regular or the bold weight. */
export type MeasureAt = (text: string, size: number, weight: 400 | 600) => number;

const stripHeight = 24;
const stripPadding = 5;

/** Height in pixels that a chart needs at a width. */
export function chartHeight(specification: ChartSpecification, width: number): number {
  switch (specification.kind) {
    case "change-strip":
      return stripHeight;
    case "budget":
      return budgetChartHeight(specification, width);
    case "runs-and-change":
      return rowsChartHeight(specification, width);
  }
}

/** Places everything; where the height differs from `chartHeight`, rows share the difference. */
export function planChart(
  specification: ChartSpecification,
  width: number,
  height: number,
  measure: MeasureAt,
): ChartPlan {
  if (specification.kind === "budget") return planBudget(specification, width, height, measure);
  if (specification.kind === "runs-and-change") return planRows(specification, width, height, measure);
  const area = { left: stripPadding, right: Math.max(stripPadding + 1, width - stripPadding), top: 0, bottom: height };
  const row = { row: 0, middle: height / 2, scale: 1, label: [], labelBaseline: 0 };
  const change = {
    area,
    title: [],
    titleLeft: 0,
    titleBaseline: 0,
    tickBaseline: 0,
    rows: [row],
    textLeft: 0,
    textRight: width,
  };
  return { fontSize: 12, runs: null, change };
}
