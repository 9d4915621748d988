/** Files that are handed over. */
export const save = {
  saving: "Making the file…",
  saved: (file: string) => `${file} was handed to your downloads.`,
  labels: {
    "report.pdf": "Save as PDF",
    "report.html": "Save as web page",
    "readings.csv": "Save the readings (CSV)",
    "settings.json": "Save the settings (JSON)",
    "results.json": "Save all results (JSON)",
    "runs.csv": "Save the table of runs (CSV)",
    "record.csv": "Save the record (CSV)",
    study: "Download a copy",
  },
};
