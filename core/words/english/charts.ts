/** Words that only charts need. */
export const charts = {
  noChange: "no change",
  percentagePoints: "percentage points",
  changeFrom: (baseline: string, unit: string) => `change from ${baseline}${unit === "" ? "" : `, ${unit}`}`,
  alternative: (title: string, rows: string) => `Chart of ${title}, every run a point, by variant. ${rows}`,
  rowAlternative: (variant: string, runs: number, mean: string | null, change: string | null) =>
    `${[
      `${variant}: ${runs === 1 ? "1 run" : `${runs} runs`}`,
      ...(mean === null ? [] : [`mean ${mean}`]),
      ...(change === null ? [] : [`change ${change}`]),
    ].join(", ")}.`,
  /** A run pointed at: its name and what it measured. */
  runValue: (name: string, value: string, isLeftOut: boolean) => `${name}: ${value}${isLeftOut ? " (left out)" : ""}`,
};
