import type { PhaseName } from "../../readings/phase.ts";
import { readingText } from "../../readings/rules/reading-text.ts";
import { type Locale, wordsFor } from "../../words/index.ts";
import { type NumberedRun, type Suspicion, touch } from "./numbered-run.ts";
import { judge } from "./outside.ts";
import type { Reference } from "./reference.ts";
import { phaseBefore } from "./watched.ts";

/** Limits of what is carried over from one phase to the next. Common practice, no source. */
export const carriedLimits = {
  /** Share of the other runs that do the same, up to which it is odd; and from which on it is the habit here. */
  seldom: 0.1,
  usually: 0.8,
  fewestOthers: 2,
  /** Share of the robust limit that the wood burnt must lie off for one equal weighing to be odd. */
  excessWithOneEqual: 0.4,
  /** Where the equal mass is no round one, as bundles are weighed out, and so is hardly equal by chance. */
  excessWithOddEqual: 0.25,
  /** What bundles are weighed out to, and how near to it, g: equal masses there say nothing by themselves. */
  roundTo: 250,
  nearRound: 25,
  /** Share of the other runs' phases that begin as near as that to the phase before: bundles of a set mass. */
  nearBefore: 0.12,
  /** Balances that show steps of 10 g make equal masses often. */
  balanceStep: 10,
} as const;

type How = "both" | "before" | "after" | "goesOn" | "anew";

function howOf(run: NumberedRun, name: PhaseName): How | null {
  const phase = run.phases.find((one) => one.phase === name);
  const previous = phase === undefined ? undefined : phaseBefore(phase, run);
  const [wood, earlier] = [phase?.woods[0], previous?.woods[0]];
  if (wood === undefined || earlier === undefined || Number.isNaN(wood.before) || Number.isNaN(earlier.after))
    return null;
  if (wood.before === earlier.before) return wood.after === earlier.after ? "both" : "before";
  if (wood.after === earlier.after && wood.after > 0) return "after";
  return wood.before === earlier.after ? "goesOn" : "anew";
}

function beginsNearBefore(run: NumberedRun, name: PhaseName): boolean {
  const phase = run.phases.find((one) => one.phase === name);
  const earlier = phase === undefined ? undefined : phaseBefore(phase, run)?.woods[0];
  const [wood] = phase?.woods ?? [];
  return (
    wood !== undefined && earlier !== undefined && Math.abs(wood.before - earlier.before) <= carriedLimits.nearRound
  );
}

/** Whether one weighing that equals the phase before's was carried over, by how odd the wood burnt is with it. */
function isTelling(equal: number, excess: number | null, isBundle: boolean): boolean {
  const { excessWithOneEqual, excessWithOddEqual, roundTo, nearRound, balanceStep } = carriedLimits;
  if (isBundle || Math.abs(equal - Math.round(equal / roundTo) * roundTo) <= nearRound) return (excess ?? 0) > 1;
  if (equal % balanceStep === 0) return (excess ?? 0) > excessWithOneEqual;
  return excess === null || excess > excessWithOddEqual;
}

/** How the runs of a study weigh their wood from phase to phase, to ask runs that do otherwise. */
export class CarriedOver {
  readonly #counts = new Map<PhaseName, Map<How, number>>();
  /** By phase, how many begin with about as much wood as the phase before. */
  readonly #near = new Map<PhaseName, number>();

  constructor(runs: readonly NumberedRun[]) {
    for (const run of runs) {
      if (!run.isCounted) continue;
      for (const { phase } of run.phases) {
        this.#add(phase, howOf(run, phase));
        if (beginsNearBefore(run, phase)) this.#near.set(phase, (this.#near.get(phase) ?? 0) + 1);
      }
    }
  }

  #areBundles(run: NumberedRun, phase: PhaseName): boolean {
    const own = run.isCounted && beginsNearBefore(run, phase) ? 1 : 0;
    const others = [...(this.#counts.get(phase)?.values() ?? [])].reduce((sum, count) => sum + count, 0) - own;
    return ((this.#near.get(phase) ?? 0) - own) / Math.max(1, others) > carriedLimits.nearBefore;
  }

  #add(phase: PhaseName, how: How | null): void {
    if (how === null) return;
    const counts = this.#counts.get(phase) ?? new Map<How, number>();
    counts.set(how, (counts.get(how) ?? 0) + 1);
    this.#counts.set(phase, counts);
  }

  /** Share of the other runs that do it in one of these ways; null where too few have both phases. */
  #share(run: NumberedRun, phase: PhaseName, own: How, ...ways: readonly How[]): number | null {
    const counts = this.#counts.get(phase);
    if (counts === undefined) return null;
    const total = [...counts.values()].reduce((sum, count) => sum + count, 0) - (run.isCounted ? 1 : 0);
    if (total < carriedLimits.fewestOthers) return null;
    const such = ways.reduce((sum, way) => sum + (counts.get(way) ?? 0), 0);
    return (such - (run.isCounted && ways.includes(own) ? 1 : 0)) / total;
  }

  suspicions(run: NumberedRun, reference: Reference, locale: Locale): Suspicion[] {
    const { questions } = wordsFor(locale);
    return run.phases.flatMap((phase): Suspicion[] => {
      const how = howOf(run, phase.phase);
      const previous = phaseBefore(phase, run);
      const [wood, earlier] = [phase.woods[0], previous?.woods[0]];
      if (how === null || previous === undefined || wood === undefined || earlier === undefined) return [];
      const text = (value: number) => readingText(value, locale);
      const touches = touch(phase.phase, "fuel_start_g", "fuel_end_g");
      const ask = (rule: string, column: string, message: string) => [
        { rule, phase: phase.phase, column, message, touches },
      ];
      if (how === "both") {
        const share = this.#share(run, phase.phase, how, "both");
        if (share !== null && share > carriedLimits.seldom) return [];
        const message = questions.woodRepeated(text(wood.before), text(wood.after), previous.phase);
        return ask("woodRepeated", "fuel_start_g", message);
      }
      const excess = () => {
        const watched = reference.find("woodBurned");
        return watched === undefined ? null : (judge({ watched, phase: phase.phase }, run, reference)?.excess ?? null);
      };
      const isOff = () => (excess() ?? 0) > carriedLimits.excessWithOneEqual;
      if (how === "before" || how === "after") {
        const share = this.#share(run, phase.phase, how, how, "both");
        const isHabit = share !== null && share > carriedLimits.seldom;
        if (
          isHabit ||
          !isTelling(
            how === "before" ? wood.before : wood.after,
            excess(),
            how === "before" && this.#areBundles(run, phase.phase),
          )
        )
          return [];
        const column = how === "before" ? "fuel_start_g" : "fuel_end_g";
        const value = how === "before" ? wood.before : wood.after;
        return ask(
          "woodRepeated",
          column,
          questions.oneWoodRepeated(questions.reading(column), text(value), previous.phase),
        );
      }
      const share = this.#share(run, phase.phase, how, "goesOn");
      if (share === null) return [];
      if (how === "goesOn" && share <= carriedLimits.seldom) {
        return ask("woodGoesOn", "fuel_start_g", questions.woodGoesOn(text(wood.before), previous.phase));
      }
      // More wood than was left may have been brought; less has gone somewhere.
      if (how === "anew" && share >= carriedLimits.usually && (wood.before < earlier.after || isOff())) {
        const message = questions.woodAnew(text(wood.before), text(earlier.after), previous.phase);
        return ask("woodGoesOn", "fuel_start_g", message);
      }
      return [];
    });
  }
}
