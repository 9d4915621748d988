import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openFiles, program } from "../../app/service/index.ts";

const folder = join(import.meta.dirname, "..", "..", "sample-data", "defective");

interface Expected {
  readonly file: string;
  readonly computed?: { readonly run: string | null; readonly phase: string | null };
}
const expected = JSON.parse(readFileSync(join(folder, "expected.json"), "utf8")) as { readings: Expected[] };

/** The rule that each file of the folder is there to set off; the folder's README says in words what is odd in it. */
const rules: Record<string, string> = {
  "question-end-below-boiling.csv": "endBelowBoiling",
  "question-efficiency-above.csv": "efficiencyHigh",
  "question-efficiency-below.csv": "efficiencyLow",
  "question-much-char.csv": "muchChar",
  "question-moisture-high.csv": "moistureHigh",
  "question-moisture-zero.csv": "moistureZero",
  "question-boiling-point-off.csv": "boilingPointOff",
  "question-simmer-duration.csv": "simmerDuration",
  "question-simmer-below-boiling.csv": "simmerFarBelowBoiling",
  "question-warm-start.csv": "warmStart",
  "question-water-at-start.csv": "waterAtStart",
  "question-char-at-start-empty.csv": "charAtStartEmpty",
  "question-char-at-start-differs.csv": "charAtStartDiffers",
  "question-same-readings.csv": "sameReadings",
  "question-few-runs.csv": "fewRuns",
  "question-moisture-low.csv": "moistureLow",
  "question-hydrogen-low.csv": "hydrogenLow",
  "question-short-phase.csv": "shortPhase",
  "question-much-emission.csv": "muchMonoxide",
  "question-several-equal.csv": "severalEqual",
  "question-date-far.csv": "dateFar",
  "question-date-of-block.csv": "dateOfBlock",
  "question-out-of-order.csv": "outOfOrder",
  "question-phase-before-previous.csv": "phaseBeforePrevious",
  "question-long-pause.csv": "longPause",
  "question-time-of-day.csv": "timeOfDay",
  "question-pots-swapped.csv": "potsSwapped",
  "question-empty-mass.csv": "emptyMass",
  "question-moisture-basis.csv": "moistureBasis",
  "question-wood-repeated.csv": "woodRepeated",
  "question-wood-goes-on.csv": "woodGoesOn",
  "question-exchanged.csv": "exchanged",
  "question-missing-tare.csv": "missingTare",
  "question-other-unit.csv": "otherUnit",
  "question-value-slipped.csv": "valueSlipped",
  "question-overlap.csv": "overlap",
  "question-long-boil.csv": "longBoil",
  "question-much-water-lost.csv": "muchWaterLost",
  "question-much-wood.csv": "muchWood",
  "question-little-wood.csv": "littleWood",
  "question-no-char.csv": "noChar",
  "question-wrong-variant.csv": "wrongVariant",
  "question-outside-runs.csv": "outsideRuns",
  "question-phases-unlike.csv": "phasesUnlike",
  "question-result-outside.csv": "resultOutside",
  "question-calibration.csv": "calibration",
  "question-balance-without-gain.csv": "balanceWithoutGain",
  "question-clock-error-of-reading.csv": "clockErrorOfReading",
  "question-pot-not-set-up.csv": "potNotSetUp",
};

function questionsOf(file: string) {
  const readings = { name: file, bytes: readFileSync(join(folder, file)) };
  const beside = file.replace(/\.csv$/, ".settings.json");
  const path = join(folder, beside);
  const settings = existsSync(path) ? { name: beside, bytes: readFileSync(path) } : null;
  const read = openFiles({ readings, settings, locale: "en" }, program);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("\n"));
  const { results } = read.open;
  return [...results.questions, ...[...results.runQuestions.values()].flat()];
}

describe("each question that takes a computation has a file that sets it off", () => {
  const computed = expected.readings.filter((one) => one.computed !== undefined);

  it("there is a file for every such question", () => {
    expect(computed.map(({ file }) => file).sort()).toEqual(Object.keys(rules).sort());
  });

  for (const { file, computed: place } of computed) {
    it(`${file}: ${rules[file]}, at its place, and nothing else`, () => {
      const questions = questionsOf(file);
      expect(new Set(questions.map(({ rule }) => rule))).toEqual(new Set([rules[file]]));
      expect(questions[0]).toMatchObject({ run: place?.run, phase: place?.phase });
    });
  }
});
