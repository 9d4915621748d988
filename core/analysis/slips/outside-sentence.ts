import { formatFixed } from "../../format/number.ts";
import { readingText } from "../../readings/rules/reading-text.ts";
import { type Locale, wordsFor } from "../../words/index.ts";
import { type PhaseNumbers, waterOf } from "../run-numbers.ts";
import { clockText } from "./clock-text.ts";
import { type NumberedRun, phaseOf } from "./numbered-run.ts";
import type { Judged } from "./reference.ts";
import type { SlipKind } from "./resemblance.ts";
import { phaseBefore, type WatchedName } from "./watched.ts";

/** What may have been meant, and how it came to be written otherwise. */
export interface Meant {
  readonly kind: SlipKind | "fahrenheit" | "kelvin" | "withoutPot" | "potTwice";
  readonly column: string;
  readonly value: number;
}

/** Unit and decimals that a sentence shows. */
const shown: Readonly<
  Record<WatchedName, { readonly unit: string; readonly decimals: number; readonly times?: number }>
> = {
  woodBefore: { unit: "g", decimals: 0 },
  woodAfter: { unit: "g", decimals: 0 },
  woodBurned: { unit: "g", decimals: 0 },
  waterAtStart: { unit: "g", decimals: 0 },
  waterLost: { unit: "g", decimals: 0 },
  potGoesOn: { unit: "g", decimals: 0 },
  char: { unit: "g", decimals: 0 },
  woodToBefore: { unit: "%", decimals: 0, times: 100 },
  durationToBefore: { unit: "%", decimals: 0, times: 100 },
  temperatureAtStart: { unit: "°C", decimals: 1 },
  startInRun: { unit: "K", decimals: 1 },
  endUnderBoiling: { unit: "K", decimals: 1 },
  endOfLevel: { unit: "K", decimals: 1 },
  air: { unit: "°C", decimals: 1 },
  airInRun: { unit: "K", decimals: 1 },
  boiling: { unit: "°C", decimals: 1 },
  moisture: { unit: "%", decimals: 1 },
  moistureInRun: { unit: "%", decimals: 1 },
  duration: { unit: "min", decimals: 0 },
  pause: { unit: "min", decimals: 0 },
  efficiency: { unit: "%", decimals: 1, times: 100 },
  firepower: { unit: "kW", decimals: 1, times: 0.001 },
};

/** "1912 − 378": what a value was reckoned from; null where it stands in the sheet as it is. */
function arithmeticOf({ watched, phase: name }: Judged, run: NumberedRun, locale: Locale): string | null {
  const phase = phaseOf(run, name);
  if (phase === undefined) return null;
  const text = (value: number) => readingText(Math.round(value * 1000) / 1000, locale);
  const pot = phase.pots.find((one) => one.pot === watched.pot);
  switch (watched.name) {
    case "woodBurned":
      return phase.woods.map(({ before, after }) => `${text(before)} − ${text(after)}`).join(" + ");
    case "waterAtStart":
      return pot === undefined || Number.isNaN(pot.empty) ? null : `${text(pot.start)} − ${text(pot.empty)}`;
    case "waterLost":
      return pot === undefined ? null : `${text(pot.start)} − ${text(pot.end)}`;
    case "potGoesOn": {
      const before = phaseBefore(phase, run)?.pots.find((one) => one.pot === watched.pot);
      if (pot === undefined || before === undefined) return null;
      return `${text(waterOf(pot, "start"))} − ${text(waterOf(before, "end"))}`;
    }
    case "char":
      return Number.isNaN(phase.withContainer) ? null : `${text(phase.withContainer)} − ${text(phase.container)}`;
    case "endUnderBoiling":
    case "endOfLevel":
      return pot === undefined ? null : `${text(Math.round(phase.boilingHere * 10) / 10)} − ${text(pot.to)}`;
    case "startInRun": {
      const before = phaseBefore(phase, run)?.pots.find((one) => one.pot === watched.pot);
      return pot === undefined || before === undefined ? null : `${text(pot.from)} − ${text(before.from)}`;
    }
    case "woodToBefore":
    case "durationToBefore": {
      const before = phaseBefore(phase, run);
      if (before === undefined) return null;
      const amount = (of: PhaseNumbers) =>
        watched.name === "durationToBefore"
          ? of.minutes
          : of.woods.reduce((total, wood) => total + wood.before - wood.after, 0);
      return `${text(amount(phase))} / ${text(amount(before))}`;
    }
    case "duration":
      return Number.isNaN(phase.start) ? null : `${clockText(phase.start)} – ${clockText(phase.end)}`;
    case "pause": {
      const before = phaseBefore(phase, run);
      return before === undefined ? null : `${clockText(before.end)} – ${clockText(phase.start)}`;
    }
    default:
      return null;
  }
}

/** What is odd, with the arithmetic, what the others have, what may have been meant, and what to look at. */
export function outsideSentence({
  worst,
  run,
  phase,
  meant,
  column,
  locale,
}: {
  readonly worst: Judged;
  readonly run: NumberedRun;
  readonly phase: PhaseNumbers;
  readonly meant: Meant | null;
  readonly column: string | null;
  readonly locale: Locale;
}): { readonly message: string; readonly hint: string | null } {
  const { questions } = wordsFor(locale);
  const { watched, value, low, high, others, among } = worst;
  const { unit, decimals, times = 1 } = shown[watched.name];
  const number = (of: number) => formatFixed(of * times, decimals, locale);
  const hint =
    meant === null
      ? null
      : questions.meant[meant.kind](questions.reading(meant.column), readingText(meant.value, locale));
  const message = questions.outside({
    what: questions.watched[watched.name](watched.pot),
    arithmetic: arithmeticOf(worst, run, locale),
    here: number(value),
    low: number(low),
    high: number(high),
    unit,
    others,
    variant: among === "variant" ? run.facts.variant : null,
    hint,
    look: column === null ? questions.lookAtPhase(phase.phase) : questions.lookAt(questions.reading(column)),
  });
  return { message, hint };
}
