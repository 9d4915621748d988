import type { ImportView } from "../../app/contract/index.ts";
import { grid, ofRun, readingColumns } from "./fixture.ts";

/** Invented files on their way in, as the door would tell of them. */

const fileColumns = ["run", "variant", "phase", ...readingColumns];

export const goodImport: ImportView = {
  importId: "import-1",
  readingsFile: "week-12.csv",
  settingsFile: null,
  columns: fileColumns,
  rows: grid.part.map((one, index) => ({
    row: 2 + index,
    cells: [
      one.run,
      one.variant,
      one.phase,
      ...one.cells.slice(ofRun.length, ofRun.length + readingColumns.length).map((cell) => String(cell ?? "")),
    ],
    leftOut: false,
  })),
  problems: [],
  notes: ["Semicolons separate the cells; decimal commas were read as points."],
  summary: { runs: 24, phases: 72, variants: 4 },
  acceptable: true,
  suggestedName: "week-12",
};

/** The same file with an error in a cell, a question, a row that is wrong as a whole. */
export const defectiveImport: ImportView = {
  ...goodImport,
  rows: goodImport.rows.map((row) =>
    row.row === 5 ? { ...row, cells: row.cells.map((cell, column) => (column === 7 ? "1o47" : cell)) } : row,
  ),
  problems: [
    {
      severity: "error",
      rule: "number",
      file: "week-12.csv",
      row: 5,
      column: "fuel_end_g",
      cell: "1o47",
      run: "R02",
      phase: "cold-start",
      message: "“1o47” is not a number. Write digits with a decimal point, or leave the cell empty.",
    },
    {
      severity: "question",
      rule: "moisture-high",
      file: "week-12.csv",
      row: 35,
      column: "moisture_wet_percent",
      cell: "36",
      run: "R12",
      phase: "cold-start",
      message: "36 % is unusually wet. Was the meter set to wet basis?",
    },
    {
      severity: "error",
      rule: "same-phase-twice",
      file: "week-12.csv",
      row: 40,
      column: null,
      cell: null,
      run: "R13",
      phase: "cold-start",
      message: "Run R13 has its cold start twice, in rows 38 and 40. Leave one of them out.",
    },
  ],
  summary: null,
  acceptable: false,
};
