import { wordsFor } from "../../words/index.ts";
import type { PhaseRule } from "./phase-rule.ts";
import { longestPhaseMinutes } from "./reading-domain.ts";
import { readingText } from "./reading-text.ts";

/** Minutes between two clock readings are taken to the millisecond: noise of the subtraction is no time. */
const millisecond = 1 / 60_000;

export const endBeforeStart: PhaseRule = {
  rule: "end-before-start",
  check({ timing }) {
    if (timing.kind !== "clock" || !(timing.end.value - timing.start.value < -millisecond / 2)) return [];
    return [{ column: "end", message: (locale) => wordsFor(locale).problems.phase.endBeforeStart() }];
  },
};

export const durationNotPositive: PhaseRule = {
  rule: "duration-not-positive",
  check({ timing }) {
    if (timing.kind !== "clock" || !(Math.abs(timing.end.value - timing.start.value) < millisecond / 2)) return [];
    return [{ column: "end", message: (locale) => wordsFor(locale).problems.phase.noTimePassed() }];
  },
};

export const durationTooLong: PhaseRule = {
  rule: "duration-too-long",
  check({ timing }) {
    if (timing.kind !== "clock") return [];
    const minutes = timing.end.value - timing.start.value;
    if (!(minutes > longestPhaseMinutes + millisecond / 2)) return [];
    const pastMidnight =
      timing.written === "time" && Math.floor(timing.end.value / 1440) > Math.floor(timing.start.value / 1440);
    return [
      {
        column: "end",
        message: (locale) =>
          wordsFor(locale).problems.phase.tooLong({
            hours: readingText(Math.round((minutes / 60) * 100) / 100, locale),
            pastMidnight,
          }),
      },
    ];
  },
};

export const boiledOutsidePhase: PhaseRule = {
  rule: "boiled-outside-phase",
  check({ timing, boiledAt }) {
    if (timing.kind !== "clock" || boiledAt === null) return [];
    const early = boiledAt.value < timing.start.value - millisecond / 2;
    const late = boiledAt.value > timing.end.value + millisecond / 2;
    // A phase that ends before it starts is reported as such.
    if (!(early || late) || timing.end.value < timing.start.value) return [];
    return [{ column: "boiled_at", message: (locale) => wordsFor(locale).problems.phase.boiledOutside() }];
  },
};
