import { benchWork } from "./bench.ts";
import { cellsOfRuns } from "./cells-of-runs.ts";
import { charts } from "./charts.ts";
import { commandLine } from "./command-line.ts";
import { comparison } from "./comparison.ts";
import { comparisonTable } from "./comparison-table.ts";
import { findings } from "./findings.ts";
import { hosts } from "./hosts.ts";
import { missingWords } from "./missing.ts";
import { planning } from "./planning.ts";
import { problems } from "./problems.ts";
import { procedure } from "./procedure.ts";
import { quantityWords } from "./quantities.ts";
import { notes, questions } from "./questions.ts";
import { ratings } from "./ratings.ts";
import { record } from "./record.ts";
import { report, settingsWords } from "./report.ts";
import { screens } from "./screens.ts";
import { service } from "./service.ts";
import { setUpWork } from "./set-up.ts";
import { studyFile } from "./study-file.ts";
import { uncertainty } from "./uncertainty.ts";

/** All English words, by where they are used. Its type is what every other language must fill. */
export const english = {
  benchWork,
  cellsOfRuns,
  charts,
  commandLine,
  comparison,
  comparisonTable,
  findings,
  hosts,
  missing: missingWords,
  notes,
  planning,
  problems,
  procedure,
  quantities: quantityWords,
  questions,
  ratings,
  record,
  report,
  screens,
  service,
  settings: settingsWords,
  setUpWork,
  studyFile,
  uncertainty,
};
