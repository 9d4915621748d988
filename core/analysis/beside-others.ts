import type { Settings } from "../readings/settings.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { calibrationSuspicions } from "./calibration-questions.ts";
import { asSuspicion, oneForUnits, oneQuestionEach } from "./one-slip.ts";
import { potQuestions } from "./pot-questions.ts";
import type { Question } from "./question.ts";
import type { RunFacts } from "./run-facts.ts";
import { BoilingPoints } from "./run-numbers.ts";
import { OtherRuns } from "./slip-questions.ts";
import { numberedRun } from "./slips/numbered-run.ts";

/**
 * What the other runs of a study tell about one that is still being made, worked out once: its questions come as it is typed in,
 * however many others there are. They are those that `studyQuestions` has for it.
 */
export class BesideOthers {
  readonly #others: readonly RunFacts[];
  readonly #boilingPoints = new BoilingPoints();
  readonly #otherRuns: OtherRuns;
  readonly #prints = new Map<string, string>();

  constructor(others: readonly RunFacts[]) {
    this.#others = others;
    this.#otherRuns = new OtherRuns(others.map((one) => numberedRun(one, this.#boilingPoints)));
    for (const { name, prints } of others) {
      for (const { print } of prints) if (!this.#prints.has(print)) this.#prints.set(print, name);
    }
  }

  /** Whether these are the runs that it was made of. */
  isOf(others: readonly RunFacts[]): boolean {
    return others.length === this.#others.length && others.every((one, index) => one === this.#others[index]);
  }

  /** @param read questions that arose in reading the run's cells */
  questionsOf(run: RunFacts, settings: Settings, read: readonly Question[], locale: Locale): Question[] {
    const { questions } = wordsFor(locale);
    const same = run.prints.flatMap(({ phase, print }): Question[] => {
      const other = this.#prints.get(print);
      if (other === undefined) return [];
      const message = questions.sameReadings(other, phase);
      return [{ rule: "sameReadings", run: run.name, variant: run.variant, phase, column: null, message }];
    });
    const slips = this.#otherRuns.suspicions(numberedRun(run, this.#boilingPoints), locale);
    const ofSetUp = [
      ...(potQuestions([...this.#others, run], settings, locale).ofRuns.get(run) ?? []),
      ...calibrationSuspicions(run, settings, locale),
    ];
    const own = [...run.questions, ...same].map(asSuspicion);
    return [...oneForUnits(read, locale), ...oneQuestionEach(run, read, [...own, ...slips, ...ofSetUp])];
  }
}
