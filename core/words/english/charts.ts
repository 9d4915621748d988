/** Words that only charts need. */
export const charts = {
  noChange: "no change",
  leftOut: "left out",
  /** A run pointed at: its name and what it measured. */
  runValue: (name: string, value: string, isLeftOut: boolean) => `${name}: ${value}${isLeftOut ? " (left out)" : ""}`,
};
