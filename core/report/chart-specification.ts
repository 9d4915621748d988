/**
 * A chart as data: what is shown, never how many pixels. All texts are ready for a person; numbers are in the shown unit.
 * `app/chart` turns it into one Chart.js configuration that is drawn on screen, in HTML (SVG) and in PDF alike.
 */
export type ChartSpecification = RunsAndChangeChart | ChangeStrip | BudgetChart;

/** Number and text: the value to place, the text to print. */
export interface LabelledInterval {
  readonly value: number;
  /** null: no end on this side (unbounded, or too few runs). */
  readonly lower: number | null;
  readonly upper: number | null;
  /** "591", "21 % less". */
  readonly text: string;
}

export interface VariantRow {
  readonly variant: string;
  /** Position of the variant in the study, from 0: chooses colour and shape, the same everywhere. */
  readonly index: number;
  /** Every run of the variant. Runs that were left out are drawn as such (crossed, soft) and do not count. */
  readonly runs: readonly { readonly name: string; readonly value: number; readonly leftOut: boolean }[];
  /** Mean with its interval; null where there is no run to average. */
  readonly mean: LabelledInterval | null;
  /** Change from the baseline; null for the baseline itself and where it cannot be computed. */
  readonly change: LabelledInterval | null;
  /** True for the one variant that the others are compared with. */
  readonly isBaseline: boolean;
}

/** Left: runs as points and means with intervals, a row a variant. Right: change from the baseline on an axis of its own. */
export interface RunsAndChangeChart {
  readonly kind: "runs-and-change";
  /** "wood for 5 litres, g". */
  readonly valueTitle: string;
  /** "change from no skirt, wide gap", with the unit unless it is per cent; null: only the left part is drawn. */
  readonly changeTitle: string | null;
  /** What follows the number at a tick: "%", or "" where the title tells the unit. */
  readonly changeUnit: string;
  /** What to print at zero: "no change". */
  readonly noChangeText: string;
  /** Suggested number of decimals for the ticks of the value axis. */
  readonly decimals: number;
  readonly rows: readonly VariantRow[];
  /** The whole chart in words, for those who do not see it. */
  readonly textAlternative: string;
}

/** One small interval about "no change", for a cell of a table. All strips of a table share `extent`. */
export interface ChangeStrip {
  readonly kind: "change-strip";
  readonly change: LabelledInterval;
  /** Half-width of the axis, in the unit of `change`, > 0. */
  readonly extent: number;
  readonly tone: "sure" | "open";
  readonly textAlternative: string;
}

/** What an uncertainty is made of: a bar for each part, the largest first. */
export interface BudgetChart {
  readonly kind: "budget";
  /** "share of the variance, %". */
  readonly shareTitle: string;
  readonly rows: readonly {
    readonly name: string;
    /** Per cent of the variance; all rows make 100. */
    readonly share: number;
    readonly text: string;
    /** Scatter from run to run is drawn apart from instruments and values. */
    readonly isScatter: boolean;
  }[];
  readonly textAlternative: string;
}
