import { bench } from "./screens/bench.ts";
import { changes } from "./screens/changes.ts";
import { compare } from "./screens/compare.ts";
import { cover } from "./screens/cover.ts";
import { grid } from "./screens/grid.ts";
import { help } from "./screens/help.ts";
import { importing } from "./screens/importing.ts";
import { questions } from "./screens/questions.ts";
import { phaseName, readingName } from "./screens/reading-name.ts";
import { report } from "./screens/report.ts";
import { runs } from "./screens/runs.ts";
import { save } from "./screens/save.ts";
import { setUp } from "./screens/set-up.ts";
import { studies } from "./screens/studies.ts";
import { study } from "./screens/study.ts";
import { trouble } from "./screens/trouble.ts";
import { uncertainty } from "./screens/uncertainty.ts";

/** Everything that is read on the screens: labels, sentences, keys. */
export const screens = {
  program: "Boilbench",
  tabs: { study: "Study", bench: "Bench", runs: "Runs", import: "Import", compare: "Compare", report: "Report" },
  phase: phaseName,
  reading: readingName,
  waiting: "One moment…",
  dash: "—",
  separator: " · ",

  cover,
  trouble,
  save,
  study,
  setUp,
  questions,
  bench,
  grid,
  studies,
  changes,
  runs,
  importing,
  compare,
  uncertainty,
  report,
  help,

  cautions: [
    "Burning fuel gives off carbon monoxide, which kills without warning: test outdoors or under an extraction hood with a CO alarm.",
    "Hot char re-ignites; boiling water and hot metal burn.",
    "Follow the laboratory’s safety rules, local codes and licensed practice.",
    "A boil test compares stoves under laboratory conditions: it does not predict fuel use in kitchens, and ratings here are not a certification.",
  ],
};
