/** Words that only charts need. */
export const charts = {
  noChange: "no change",
  leftOut: "left out",
};
