import { balanceLimits } from "./balance-questions.ts";
import { calibrationLimits } from "./calibration-questions.ts";
import { clockErrorLimits } from "./clock-error-questions.ts";
import { potLimits } from "./pot-questions.ts";
import { questionLimits } from "./questions.ts";
import { carriedLimits } from "./slips/carried-over.ts";
import { clockLimits } from "./slips/clocks.ts";
import { copiedLimits } from "./slips/copied.ts";
import { dateLimits } from "./slips/dates.ts";
import { emptyMassLimits } from "./slips/empty-masses.ts";
import { exchangedLimits } from "./slips/exchanged.ts";
import { moistureLimits } from "./slips/moisture.ts";
import { outsideLimits } from "./slips/reference.ts";
import { withinRunLimits } from "./slips/within-run.ts";
import { wrongVariantLimits } from "./slips/wrong-variant.ts";
import { stoveLimits } from "./stove-questions.ts";
import { unitLimits } from "./unit-questions.ts";

/** What a question is about: it is asked there, and from there its limit is reckoned. */
export type QuestionLevel = "run" | "phase" | "variant" | "study";

/** One of the questions that are asked of readings and results. */
export interface QuestionRule {
  /** As {@link Question.rule} has it. */
  readonly name: string;
  readonly level: QuestionLevel;
  /** Its limits, by name. */
  readonly limits: Readonly<Record<string, unknown>>;
  readonly source: string;
}

const practice = "common practice, no source";
const protocol = "Water Boiling Test 4.2.3 (from memory)";
const robust = "Iglewicz and Hoaglin 1993; Davies and Gather 1993 (from memory); the multiplier is ours";

const rule = (
  name: string,
  level: QuestionLevel,
  limits: Readonly<Record<string, unknown>>,
  source = practice,
): QuestionRule => ({ name, level, limits, source });

/**
 * All questions, the most telling first: where several see the same slip, the first of them is asked and the others keep still.
 * Import, command line and screens ask the same, since all go through `analyseRun` and `studyQuestions`.
 */
export const questionRules: readonly QuestionRule[] = [
  rule("sameReadings", "run", {}),
  rule("severalEqual", "run", copiedLimits),
  rule("dateFar", "run", dateLimits),
  rule("dateOfBlock", "run", dateLimits),
  rule("phaseBeforePrevious", "phase", {}, protocol),
  rule("longPause", "phase", clockLimits, protocol),
  rule("timeOfDay", "run", clockLimits),
  rule("outOfOrder", "run", dateLimits),
  rule("potsSwapped", "run", emptyMassLimits),
  rule("emptyMass", "phase", emptyMassLimits),
  rule("potNotSetUp", "phase", potLimits),
  rule("moistureBasis", "phase", moistureLimits),
  rule("woodRepeated", "phase", carriedLimits),
  rule("woodGoesOn", "phase", carriedLimits),
  rule("noChar", "phase", stoveLimits),
  rule("exchanged", "phase", exchangedLimits),
  rule("missingTare", "phase", outsideLimits, robust),
  rule("otherUnit", "phase", outsideLimits, robust),
  rule("valueSlipped", "phase", outsideLimits, robust),
  rule("overlap", "run", clockLimits),
  // What one run shows by itself.
  rule("moistureZero", "phase", {}),
  rule("moistureLow", "phase", questionLimits),
  rule("moistureHigh", "phase", questionLimits),
  rule("hydrogenLow", "phase", unitLimits),
  rule("muchMonoxide", "phase", unitLimits),
  rule("muchParticles", "phase", unitLimits),
  rule("shortPhase", "phase", unitLimits),
  rule("longBoil", "phase", stoveLimits),
  rule("muchWaterLost", "phase", stoveLimits),
  rule("muchWood", "phase", stoveLimits),
  rule("littleWood", "phase", stoveLimits),
  rule("warmStart", "phase", questionLimits),
  rule("endBelowBoiling", "phase", questionLimits),
  rule("simmerFarBelowBoiling", "phase", questionLimits, protocol),
  rule("boilingPointOff", "phase", questionLimits),
  rule("simmerDuration", "phase", questionLimits, protocol),
  rule("charAtStartEmpty", "phase", {}),
  rule("charAtStartDiffers", "phase", {}),
  // What the other runs show.
  rule("waterAtStart", "study", questionLimits, protocol),
  rule("wrongVariant", "run", wrongVariantLimits),
  rule("outsideRuns", "phase", outsideLimits, robust),
  rule("muchChar", "phase", questionLimits),
  rule("efficiencyHigh", "phase", questionLimits),
  rule("efficiencyLow", "phase", questionLimits),
  rule("resultOutside", "phase", outsideLimits, robust),
  rule("phasesUnlike", "phase", withinRunLimits),
  rule("fewRuns", "variant", questionLimits),
  rule("otherMethod", "study", {}),
  rule("noCalorific", "study", {}),
  rule("calibration", "study", calibrationLimits),
  rule(
    "balanceWithoutGain",
    "study",
    balanceLimits,
    "JCGM 100:2008, 5.2.2 (from memory): what two readings share cancels in their difference",
  ),
  rule("clockErrorOfReading", "study", clockErrorLimits),
];
