import { readingText } from "../readings/rules/reading-text.ts";
import type { PotSettings, Settings } from "../readings/settings.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import type { Question } from "./question.ts";
import { slack } from "./question-rule.ts";
import type { RunFacts } from "./run-facts.ts";
import { BoilingPoints, unpackRun } from "./run-numbers.ts";
import { emptyMassLimits } from "./slips/empty-masses.ts";
import { type Suspicion, touch } from "./slips/numbered-run.ts";

/** Limits of empty masses beside the pots that are set up. Common practice, no source. */
export const potLimits = {
  /** g; as between two weighings of one pot. */
  grams: emptyMassLimits.grams,
  /** From so many runs with one mass on, it is a pot that was not set up, and one question for all of them. */
  fewestOfOnePot: 4,
  runsNamed: 3,
} as const;

interface OddPot {
  readonly run: RunFacts;
  readonly suspicion: Suspicion;
  readonly empty: number;
}

/** What a run's pot 1 weighs, where that is no pot of the set-up. */
function oddPotOf(run: RunFacts, pots: readonly PotSettings[], boilingPoints: BoilingPoints, locale: Locale): OddPot[] {
  const { questions } = wordsFor(locale);
  const offOf = (empty: number) => Math.min(...pots.map(({ emptyMass }) => Math.abs(emptyMass - empty)));
  for (const { phase, pots: weighed } of unpackRun(run.numbers, boilingPoints)) {
    const empty = weighed.find(({ pot }) => pot === 1)?.empty ?? Number.NaN;
    if (!(offOf(empty) > potLimits.grams + slack)) continue;
    const nearest = pots.reduce((best, pot) =>
      Math.abs(pot.emptyMass - empty) < Math.abs(best.emptyMass - empty) ? pot : best,
    );
    const message = questions.potNotSetUp(
      readingText(empty, locale),
      nearest.name,
      readingText(nearest.emptyMass, locale),
      pots.length,
    );
    const column = "pot1_empty_g";
    const touches = touch(phase, column, "pot1_start_g", "pot1_end_g");
    return [{ run, empty, suspicion: { rule: "potNotSetUp", phase, column, message, touches } }];
  }
  return [];
}

export interface PotQuestions {
  readonly ofRuns: ReadonlyMap<RunFacts, readonly Suspicion[]>;
  readonly ofStudy: readonly Question[];
}

/**
 * Empty masses of pot 1 that no pot of the set-up has; where none is set up, nothing is asked. Where several runs have one and
 * the same, the pot is asked about once.
 */
export function potQuestions(runs: readonly RunFacts[], { pots = [] }: Settings, locale: Locale): PotQuestions {
  if (pots.length === 0) return { ofRuns: new Map(), ofStudy: [] };
  const boilingPoints = new BoilingPoints();
  const odd = runs
    .filter(({ leftOut, onBench }) => leftOut === null || onBench === true)
    .flatMap((run) => oddPotOf(run, pots, boilingPoints, locale))
    .toSorted((one, other) => one.empty - other.empty);
  const groups: OddPot[][] = [];
  for (const one of odd) {
    const last = groups.at(-1);
    if (last !== undefined && one.empty - (last[0]?.empty ?? 0) <= potLimits.grams + slack) last.push(one);
    else groups.push([one]);
  }
  const isMany = (group: readonly OddPot[]) => group.length >= potLimits.fewestOfOnePot;
  return {
    ofRuns: new Map(
      groups
        .filter((group) => !isMany(group))
        .flatMap((group) => group.map(({ run, suspicion }) => [run, [suspicion]])),
    ),
    ofStudy: groups.filter(isMany).map((group) => groupQuestion(group, locale)),
  };
}

function groupQuestion(group: readonly OddPot[], locale: Locale): Question {
  const text = (value: number) => readingText(value, locale);
  const message = wordsFor(locale).questions.potsNotSetUp(
    text(group[0]?.empty ?? Number.NaN),
    text(group.at(-1)?.empty ?? Number.NaN),
    group.length,
    group.slice(0, potLimits.runsNamed).map(({ run }) => run.name),
  );
  return { rule: "potNotSetUp", run: null, variant: null, phase: null, column: "pot1_empty_g", message };
}
