import { isHoldingPhase } from "../../readings/phase.ts";
import { readingText } from "../../readings/rules/reading-text.ts";
import { type Locale, wordsFor } from "../../words/index.ts";
import { isUsualVolume } from "../run-facts.ts";
import { type PhaseNumbers, type PotNumbers, waterOf } from "../run-numbers.ts";
import { type NumberedRun, type Suspicion, touch } from "./numbered-run.ts";
import { resemblance } from "./resemblance.ts";
import { phaseBefore, woodBurned } from "./watched.ts";

/**
 * How far the phases of one run may lie apart. It is asked where there are too few other runs to tell what is usual. Common practice,
 * no source: the second start of a heavy stove takes half of what the first does.
 */
export const withinRunLimits = {
  /** Counted runs of the study, up to which a run is looked at by itself. */
  mostRuns: 3,
  /** Share of the water by which the starts of two phases with fresh water differ. */
  waterShare: 0.06,
  /** Share of the water that a pot loses or gains between boiling and simmering. */
  goesOnShare: 0.05,
  /** K between two phases with fresh water. */
  kelvin: 7,
  /** Wood burnt and time, over those of the phase before. */
  leastRatio: 0.45,
  mostRatio: 1.8,
  /** Levels of power differ, and a simmer is no boil. */
  leastRatioOfOthers: 0.25,
  mostRatioOfOthers: 3,
  /** Wood that goes on from the phase before, with such a ratio, was hardly weighed anew. */
  leastRatioGoingOn: 0.7,
  mostRatioGoingOn: 1.4,
  /** About a usual volume of water, where one slip is undone: share. */
  volumeShare: 0.015,
} as const;

const isFresh = ({ phase }: PhaseNumbers) => !isHoldingPhase(phase);

/** What two phases of one run, or the weighings of one pot, show by themselves. */
export function withinRunSuspicions(run: NumberedRun, locale: Locale): Suspicion[] {
  return [...unusualVolume(run, locale), ...run.phases.flatMap((phase) => besideBefore(phase, run, locale))];
}

/** Pot 1's water at the start that is no usual volume, and would be with one slip undone: asked at the first such phase. */
function unusualVolume(run: NumberedRun, locale: Locale): Suspicion[] {
  const { questions } = wordsFor(locale);
  const text = (value: number) => readingText(Math.round(value * 10) / 10, locale);
  for (const phase of run.phases.filter(isFresh)) {
    const pot = phase.pots.find((one) => one.pot === 1);
    if (pot === undefined || pot.isNet || isUsualVolume(waterOf(pot, "start"))) continue;
    const meant = meantByVolume(pot, phase.pots.find((one) => one.pot === 2)?.empty ?? Number.NaN);
    if (meant === null) continue;
    const [rule, hint, value] = meant;
    const columns = ["pot1_empty_g", "pot1_start_g", "pot1_end_g"];
    const others = rule === "potsSwapped" ? columns.map((column) => column.replace("1", "2")) : [];
    const touches = run.phases.flatMap((one) => touch(one.phase, ...columns, ...others));
    const message = questions.unusualVolume(
      text(pot.start),
      text(pot.empty),
      text(pot.start - pot.empty),
      questions.volumeMeant[hint](text(value), text(pot.start - value)),
    );
    const column = rule === "valueSlipped" ? "pot1_empty_g" : "pot1_start_g";
    return [{ rule, phase: phase.phase, column, message, touches }];
  }
  return [];
}

/** The slip that makes a usual volume of it: rule, words, and the mass to take off instead of the empty pot's. */
function meantByVolume(
  { start, empty }: PotNumbers,
  otherEmpty: number,
): readonly [string, "water" | "twice" | "swapped" | "exchanged", number] | null {
  const isVolume = (grams: number) => isUsualVolume(grams, withinRunLimits.volumeShare);
  if (isVolume(start)) return ["missingTare", "water", 0];
  if (isVolume(start - otherEmpty)) return ["potsSwapped", "swapped", otherEmpty];
  if (isVolume(start - 2 * empty)) return ["missingTare", "twice", 2 * empty];
  const found = resemblance(empty, (other) => (isVolume(start - other) ? Math.abs(other - empty) : null));
  return found?.kind === "exchanged" ? ["valueSlipped", "exchanged", found.value] : null;
}

function besideBefore(phase: PhaseNumbers, run: NumberedRun, locale: Locale): Suspicion[] {
  const before = phaseBefore(phase, run);
  if (before === undefined) return [];
  const { questions } = wordsFor(locale);
  const text = (value: number) => readingText(Math.round(value * 10) / 10, locale);
  const limits = withinRunLimits;
  const found: Suspicion[] = [];
  const ask = (column: string, message: string, ...columns: readonly string[]) => {
    const touches = [before, phase].flatMap((one) => touch(one.phase, ...columns));
    found.push({ rule: "phasesUnlike", phase: phase.phase, column, message, touches });
  };
  for (const pot of phase.pots) {
    const earlier = before.pots.find((one) => one.pot === pot.pot);
    if (earlier === undefined) continue;
    const masses = ["empty_g", "start_g", "end_g"].map((name) => `pot${pot.pot}_${name}`);
    const [here, there] = [waterOf(pot, "start"), waterOf(earlier, isFresh(phase) ? "start" : "end")];
    const share = isFresh(phase) ? limits.waterShare : limits.goesOnShare;
    if (Math.abs(here - there) > share * Math.max(here, there)) {
      const say = isFresh(phase) ? questions.otherWater : questions.otherWaterGoingOn;
      ask(
        `pot${pot.pot}_${pot.isNet ? "water_" : ""}start_g`,
        say(pot.pot, text(here), text(there), before.phase),
        ...masses,
      );
    }
    if (isFresh(phase) && Math.abs(pot.from - earlier.from) > limits.kelvin) {
      const column = `pot${pot.pot}_start_C`;
      ask(column, questions.otherStart(pot.pot, text(pot.from), text(earlier.from), before.phase), column);
    }
  }
  const isRepeat = phase.phase === "hot-start";
  const [least, most] = isRepeat
    ? [limits.leastRatio, limits.mostRatio]
    : [limits.leastRatioOfOthers, limits.mostRatioOfOthers];
  const [wood, earlierWood] = [woodBurned(phase), woodBurned(before)];
  const ratio = wood / earlierWood;
  const goesOn = phase.woods[0]?.before === before.woods[0]?.after;
  const isGoingOn = isRepeat && goesOn && (ratio < limits.leastRatioGoingOn || ratio > limits.mostRatioGoingOn);
  if (ratio < least || ratio > most || isGoingOn) {
    const message = questions.otherWood(text(wood), text(earlierWood), before.phase, isGoingOn);
    ask("fuel_start_g", message, "fuel_start_g", "fuel_end_g");
  }
  const times = phase.minutes / before.minutes;
  if (isFresh(phase) && (times < least || times > most)) {
    const column = Number.isNaN(phase.start) ? "duration_min" : "end";
    const message = questions.otherLength(text(phase.minutes), text(before.minutes), before.phase);
    ask(column, message, "start", "end", "duration_min");
  }
  return found;
}
