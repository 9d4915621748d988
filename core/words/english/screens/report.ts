/** The Report page. */
export const report = {
  title: "What to hand over",
  preview: "Preview of the report",
  save: "Save it",
  saveLead: "The PDF and the web page hold the same report. The other two are for recomputing it.",
  preparing: "Making the report…",
};
