import { wordsFor } from "../../words/index.ts";
import { isBoilingPhase, type PotReadings } from "../phase.ts";
import type { Instrument, Settings } from "../settings.ts";
import { localBoilingPoint } from "./local-boiling-point.ts";
import type { PhaseRule, PhaseRuleFinding } from "./phase-rule.ts";
import { readingText } from "./reading-text.ts";

/** Water may be this much hotter than the boiling point: superheating and thermometer together, K. */
const hotterThanBoiling = 5;

/** What two weighings may differ by where nothing is known of the balance, g: two digits of a 1 g balance. */
const unknownBalanceAllowance = 2;

export const potLighterThanEmpty: PhaseRule = {
  rule: "pot-lighter-than-empty",
  check: (phase) =>
    phase.pots.flatMap(({ pot, masses }) => {
      if (masses.kind !== "weighed") return [];
      const finding = (moment: "start" | "end"): readonly PhaseRuleFinding[] =>
        masses[moment].value < masses.empty.value
          ? [
              {
                column: `pot${pot}_${moment}_g`,
                message: (locale) =>
                  wordsFor(locale).problems.phase.potLighterThanEmpty({
                    withWater: readingText(masses[moment].value, locale),
                    empty: readingText(masses.empty.value, locale),
                  }),
              },
            ]
          : [];
      return [...finding("start"), ...finding("end")];
    }),
};

function instrumentOf(settings: Pick<Settings, "instruments">, role: "potBalance"): Instrument | null {
  let found = settings.instruments.get(role);
  // Roles may point at one another; a circle, which reading refuses, ends after as many steps as there are roles.
  for (let step = 0; found !== undefined && "sameAs" in found && step < 16; step += 1) {
    found = settings.instruments.get(found.sameAs);
  }
  return found === undefined || "sameAs" in found ? null : found;
}

/**
 * By how much a pot may seem to have gained, g: the bounded errors of the two weighings at their worst, and the normal ones
 * at a coverage factor of 2 (JCGM 100:2008, 6.2.1). What both weighings share cancels, or all but cancels, in the difference.
 */
function gainExplained(settings: Pick<Settings, "instruments">, start: number, end: number): number {
  const balance = instrumentOf(settings, "potBalance");
  if (balance === null) return unknownBalanceAllowance;
  let bounded = 0;
  let variance = 0;
  for (const { kind, size, distribution } of balance.components) {
    if (kind === "shared") continue;
    for (const reading of [start, end]) {
      if ("halfWidth" in size) bounded += size.halfWidth;
      else if ("relativeHalfWidth" in size) bounded += size.relativeHalfWidth * reading;
      else {
        const standard =
          "standardUncertainty" in size
            ? size.standardUncertainty
            : "relativeStandardUncertainty" in size
              ? size.relativeStandardUncertainty * reading
              : ("expandedUncertainty" in size
                  ? size.expandedUncertainty
                  : size.relativeExpandedUncertainty * reading) / size.coverageFactor;
        if (distribution === "normal") variance += standard ** 2;
        else bounded += standard * Math.sqrt(distribution === "rectangular" ? 3 : 6);
      }
    }
  }
  return bounded + 2 * Math.sqrt(variance);
}

function startAndEnd({ masses }: PotReadings): { start: number; end: number; column: string } {
  return masses.kind === "weighed"
    ? { start: masses.start.value, end: masses.end.value, column: "end_g" }
    : { start: masses.waterStart.value, end: masses.waterEnd.value, column: "water_end_g" };
}

export const potGained: PhaseRule = {
  rule: "pot-gained",
  check: (phase, { settings }) =>
    phase.pots.flatMap((readings) => {
      const { start, end, column } = startAndEnd(readings);
      const allowed = gainExplained(settings, start, end);
      // Half a microgram of room for decimals that binary numbers cannot hold.
      if (!(end - start > allowed + 5e-7)) return [];
      return {
        column: `pot${readings.pot}_${column}`,
        message: (locale) =>
          wordsFor(locale).problems.phase.potGained({
            start: readingText(start, locale),
            end: readingText(end, locale),
            allowed: readingText(Math.round(allowed * 100) / 100, locale),
          }),
      };
    }),
};

export const waterCooled: PhaseRule = {
  rule: "water-cooled",
  mayHappenWhenAbandoned: true,
  check(phase) {
    if (!isBoilingPhase(phase.phase)) return [];
    return phase.pots.flatMap(({ pot, temperatureStart, temperatureEnd }) => {
      if (!(temperatureEnd.value < temperatureStart.value)) return [];
      return {
        column: `pot${pot}_end_C`,
        message: (locale) =>
          wordsFor(locale).problems.phase.waterCooled({
            start: readingText(temperatureStart.value, locale),
            end: readingText(temperatureEnd.value, locale),
          }),
      };
    });
  },
};

export const waterAboveBoiling: PhaseRule = {
  rule: "water-above-boiling",
  check(phase) {
    const boiling = localBoilingPoint(phase.boilingPoint);
    if (boiling === null) return [];
    return phase.pots.flatMap(({ pot, temperatureStart, temperatureEnd }) =>
      (["start", "end"] as const).flatMap((moment) => {
        const temperature = (moment === "start" ? temperatureStart : temperatureEnd).value;
        if (!(temperature - boiling > hotterThanBoiling + 1e-9)) return [];
        return {
          column: `pot${pot}_${moment}_C`,
          message: (locale) =>
            wordsFor(locale).problems.phase.waterAboveBoiling({
              temperature: readingText(temperature, locale),
              boiling: readingText(Math.round(boiling * 10) / 10, locale),
            }),
        };
      }),
    );
  },
};
