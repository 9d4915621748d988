import { formatFixed } from "../format/number.ts";
import { atOnce, type InSteps } from "../numeric/in-steps.ts";
import type { Method } from "../readings/phase.ts";
import type { Settings } from "../readings/settings.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { balanceQuestions } from "./balance-questions.ts";
import { calibrationQuestions, calibrationSuspicions } from "./calibration-questions.ts";
import { clockErrorQuestions } from "./clock-error-questions.ts";
import { asSuspicion, oneForUnits, oneQuestionEach } from "./one-slip.ts";
import { potQuestions } from "./pot-questions.ts";
import type { AnsweredQuestion, Question } from "./question.ts";
import { decimalsShowing } from "./question-rule.ts";
import { questionLimits } from "./questions.ts";
import { isUsualVolume, type RunFacts } from "./run-facts.ts";
import { slipSuspicions } from "./slip-questions.ts";

/** The questions about a study: open ones of each run, by its id, and of variants and of the whole; and those that were answered. */
export interface StudyQuestions {
  readonly runQuestions: ReadonlyMap<string, readonly Question[]>;
  readonly questions: readonly Question[];
  /** Closed, in the same order: of the whole first. */
  readonly answered: readonly AnsweredQuestion[];
}

/**
 * All questions about a study, all of them open.
 *
 * @param readingQuestions questions that arose in reading the file; each is kept with its run, or with the study
 */
export function studyQuestions(
  runs: readonly RunFacts[],
  settings: Settings,
  locale: Locale,
  readingQuestions: readonly Question[] = [],
): StudyQuestions {
  return atOnce(studyQuestionsInSteps(runs, settings, locale, readingQuestions));
}

/** The same, with a pause after each run: for studies of thousands of runs. */
export function* studyQuestionsInSteps(
  runs: readonly RunFacts[],
  settings: Settings,
  locale: Locale,
  readingQuestions: readonly Question[] = [],
): InSteps<StudyQuestions> {
  const sameByRun = Map.groupBy(sameReadingsQuestions(runs, locale), ({ run }) => run);
  yield;
  const slips = yield* slipSuspicions(runs, locale);
  const pots = potQuestions(runs, settings, locale);
  const names = new Set(runs.map(({ name }) => name));
  const readByRun = Map.groupBy(readingQuestions, ({ run }) => (run !== null && names.has(run) ? run : null));
  const runQuestions = new Map<string, readonly Question[]>();
  for (const run of runs) {
    yield;
    const read = readByRun.get(run.name) ?? [];
    const own = [...run.questions, ...(sameByRun.get(run.name) ?? [])].map(asSuspicion);
    const ofSetUp = [
      ...(pots.ofRuns.get(run) ?? []),
      ...(run.onBench === true ? calibrationSuspicions(run, settings, locale) : []),
    ];
    runQuestions.set(run.id, [
      ...oneForUnits(read, locale),
      ...oneQuestionEach(run, read, [...own, ...(slips.get(run) ?? []), ...ofSetUp]),
    ]);
  }
  yield;
  return {
    runQuestions,
    questions: [
      ...(readByRun.get(null) ?? []),
      ...methodQuestions(runs, settings.method, locale),
      ...calorificQuestions(runs, settings, locale),
      ...questionsOfStudy(runs, locale),
      ...calibrationQuestions(runs, settings, locale),
      ...balanceQuestions(settings, locale),
      ...clockErrorQuestions(settings, locale),
      ...pots.ofStudy,
    ],
    answered: [],
  };
}

/** Phases whose weighings and temperatures all equal those of another run: a row copied, most likely. */
export function sameReadingsQuestions(runs: readonly RunFacts[], locale: Locale): Question[] {
  const first = new Map<string, RunFacts>();
  // A run that is still being made is the later one.
  const inOrder = runs.toSorted((one, other) => Number(one.onBench ?? 0) - Number(other.onBench ?? 0));
  return inOrder.flatMap((run) =>
    run.prints.flatMap(({ phase, print }): Question[] => {
      const other = first.get(print);
      if (other === undefined) {
        first.set(print, run);
        return [];
      }
      const message = wordsFor(locale).questions.sameReadings(other.name, phase);
      return [{ rule: "sameReadings", run: run.name, variant: run.variant, phase, column: null, message }];
    }),
  );
}

/** How many examples a question about the whole study names. */
const examplesShown = 3;

/** Questions about variants and the study as a whole; runs that were left out do not count. */
export function questionsOfStudy(runs: readonly RunFacts[], locale: Locale): Question[] {
  const { questions } = wordsFor(locale);
  const counted = runs.filter((run) => run.leftOut === null);
  const unusual = counted.flatMap(({ name, unusualStarts }) =>
    unusualStarts.map(({ phase, grams }) => {
      const decimals = decimalsShowing(2, (rounded) => !isUsualVolume(rounded(grams / 1000) * 1000));
      return questions.waterAtStartOf(name, phase, formatFixed(grams / 1000, decimals, locale));
    }),
  );
  const found: Question[] = [];
  const about = (rule: string, variant: string | null, column: string | null, message: string) =>
    found.push({ rule, run: null, variant, phase: null, column, message });
  if (unusual.length > 0) {
    const shown = unusual.slice(0, examplesShown);
    const rest = unusual.length - shown.length;
    const list = [...shown, ...(rest > 0 ? [questions.andMore(rest)] : [])].join("; ");
    about("waterAtStart", null, "pot1_start_g", questions.waterAtStart(list));
  }
  for (const variant of new Set(runs.map((run) => run.variant))) {
    const count = counted.filter((run) => run.variant === variant).length;
    if (count > 0 && count < questionLimits.fewestRuns) {
      about("fewRuns", variant, null, questions.fewRuns(variant, count));
    }
  }
  return found;
}

/** One question where runs follow another method than the study's: their phases say which, and their results follow them. */
export function methodQuestions(runs: readonly RunFacts[], method: Method, locale: Locale): Question[] {
  const others = runs.filter((run) => run.leftOut === null && run.method !== method);
  const [first] = others;
  if (first === undefined) return [];
  const words = wordsFor(locale);
  const message = words.questions.otherMethod(
    words.quantities.methods[method],
    words.quantities.methods[first.method],
    others.length,
    first.name,
  );
  return [{ rule: "otherMethod", run: null, variant: null, phase: null, column: "phase", message }];
}

/** One question for each fuel of which no calorific value is known: efficiency, power and specific consumption need one. */
export function calorificQuestions(runs: readonly RunFacts[], settings: Settings, locale: Locale): Question[] {
  const without = new Map<string | null, number>();
  for (const { fuels } of runs) {
    for (const { fuel, isKnown } of fuels) if (!isKnown) without.set(fuel, (without.get(fuel) ?? 0) + 1);
  }
  return [...without].map(([fuel, count]) => ({
    rule: "noCalorific",
    run: null,
    variant: null,
    phase: null,
    column: "net_calorific_kJ_per_kg",
    message: wordsFor(locale).questions.noCalorific(fuel, count, fuel === null ? null : namedAlike(fuel, settings)),
  }));
}

/** A fuel of the settings whose name differs in capitals and blanks only; null where there is none. */
function namedAlike(fuel: string, settings: Settings): string | null {
  const plain = (name: string) =>
    name
      .normalize("NFKC")
      .toLowerCase()
      .replaceAll(/[\s_-]/g, "");
  return [...settings.fuels.keys()].find((name) => name !== fuel && plain(name) === plain(fuel)) ?? null;
}
