import { effectiveCalorificValue, netFromGross } from "../../fuel/calorific-value.ts";
import { moistureWetFromDry } from "../../fuel/moisture.ts";
import { plainNumbers } from "../../numeric/arithmetic.ts";
import { wordsFor } from "../../words/index.ts";
import type { CharReading, FuelEntry, Phase } from "../phase.ts";
import { localBoilingPoint } from "./local-boiling-point.ts";
import type { PhaseRule, PhaseRuleContext } from "./phase-rule.ts";
import { readingText } from "./reading-text.ts";

/** Hydrogen of wood where it was not measured, per cent of the dry fuel (calculations.md, section 5). */
const usualHydrogenPercent = 6;

/** Name of a fuel entry's column: `fuel_start_g`, `fuel2_start_g`. */
function fuelColumn(index: number, rest: string): string {
  return `fuel${index === 0 ? "" : index + 1}_${rest}`;
}

export const fuelGained: PhaseRule = {
  rule: "fuel-gained",
  check: (phase) =>
    phase.fuels.flatMap(({ massBefore, massAfter }, index) => {
      if (!(massAfter.value > massBefore.value)) return [];
      return {
        column: fuelColumn(index, "end_g"),
        message: (locale) =>
          wordsFor(locale).problems.phase.fuelGained({
            before: readingText(massBefore.value, locale),
            after: readingText(massAfter.value, locale),
          }),
      };
    }),
};

export const charLighterThanContainer: PhaseRule = {
  rule: "char-lighter-than-container",
  check({ char }) {
    if (char?.kind !== "weighed" || !(char.withContainer.value < char.container.value)) return [];
    return [
      {
        column: "char_with_container_g",
        message: (locale) =>
          wordsFor(locale).problems.phase.charLighterThanContainer({
            container: readingText(char.container.value, locale),
            withContainer: readingText(char.withContainer.value, locale),
          }),
      },
    ];
  },
};

/** Net calorific value of a fuel entry, kJ/kg dry; null where neither the row nor the settings give one. */
function netCalorific(entry: FuelEntry, settings: PhaseRuleContext["settings"]): number | null {
  const { calorific } = entry;
  const fuel = entry.fuel === null ? undefined : settings.fuels.get(entry.fuel);
  if (calorific?.kind === "net") return calorific.value.value;
  if (calorific === null && fuel?.netCalorific) return fuel.netCalorific.value;
  const gross = calorific?.value.value ?? fuel?.grossCalorific?.value;
  if (gross === undefined) return null;
  const hydrogen = calorific?.hydrogenPercent?.value ?? fuel?.hydrogenPercent?.value ?? usualHydrogenPercent;
  return netFromGross(plainNumbers, gross, hydrogen / 100);
}

/**
 * Energy that the fuel of a phase brought, kJ; null where a moisture or calorific value is not known. Without air
 * temperature or boiling point the fuel's water counts as removed free of charge, which only makes the rule milder.
 */
function fuelEnergy(phase: Phase, settings: PhaseRuleContext["settings"]): number | null {
  const air = phase.airTemperature?.value ?? null;
  const boiling = localBoilingPoint(phase.boilingPoint);
  let energy = 0;
  for (const entry of phase.fuels) {
    const net = netCalorific(entry, settings);
    if (net === null || entry.moisture === null) return null;
    const fraction = entry.moisture.percent.value / 100;
    const moisture = entry.moisture.basis === "wet" ? fraction : moistureWetFromDry(plainNumbers, fraction);
    const perKilogram =
      air === null || boiling === null
        ? net * (1 - moisture)
        : effectiveCalorificValue(plainNumbers, net, moisture, boiling, air);
    energy += ((entry.massBefore.value - entry.massAfter.value) / 1000) * perKilogram;
  }
  return energy;
}

function netChar(char: CharReading): number {
  return char.kind === "net" ? char.mass.value : char.withContainer.value - char.container.value;
}

/** Char in the bed when the phase began, g; null where it is not known. */
function charAtStart(phase: Phase, runPhases: readonly Phase[]): number | null {
  if (phase.charAtStart !== null) return phase.charAtStart.value;
  if (phase.phase !== "simmer") return 0;
  const of = (name: string): CharReading | null => runPhases.find((other) => other.phase === name)?.char ?? null;
  const before = of("hot-start") ?? of("cold-start");
  return before === null ? null : netChar(before);
}

export const charEnergy: PhaseRule = {
  rule: "char-energy",
  check(phase, { settings, runPhases }) {
    const atStart = charAtStart(phase, runPhases);
    const fuel = fuelEnergy(phase, settings);
    if (phase.char === null || atStart === null || fuel === null) return [];
    const formed = netChar(phase.char) - atStart;
    const perKilogram = phase.charCalorific?.value ?? settings.charNetCalorific.value;
    const charKilojoules = (formed / 1000) * perKilogram;
    if (!(formed > 0 && charKilojoules > fuel)) return [];
    return [
      {
        column: phase.char.kind === "net" ? "char_g" : "char_with_container_g",
        message: (locale) =>
          wordsFor(locale).problems.phase.charEnergy({
            char: readingText(Math.round(formed * 10) / 10, locale),
            charEnergy: readingText(Math.round(charKilojoules), locale),
            fuelEnergy: readingText(Math.round(fuel), locale),
          }),
      },
    ];
  },
};
