import { formatFixed } from "../format/number.ts";
import { moistureWetFromDry } from "../fuel/moisture.ts";
import { phaseInputs, readingsAsRead } from "../method/phase-inputs.ts";
import { plainNumbers } from "../numeric/arithmetic.ts";
import { type FuelEntry, isBoilingPhase, isHoldingPhase, type Phase } from "../readings/phase.ts";
import type { Settings } from "../readings/settings.ts";
import { waterAtAltitude, waterAtPressure } from "../water/water-properties.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import type { Question } from "./question.ts";
import { decimalsShowing, type Found, type PhaseContext, type Rule, slack } from "./question-rule.ts";
import type { RunResults } from "./run-results.ts";
import { stoveRules } from "./stove-questions.ts";
import { unitRules } from "./unit-questions.ts";

/**
 * Limits beyond which a reading is questioned. Common practice, no source, but for the simmer's length and range and the
 * water's volume, which are the protocol's (Water Boiling Test 4.2.3).
 */
export const questionLimits = {
  kelvinUnderBoiling: 2,
  kelvinUnderBoilingAtSimmer: 6,
  highestEfficiency: 0.6,
  lowestEfficiency: 0.03,
  highestCharShare: 0.35,
  highestMoisture: 0.35,
  lowestMoisture: 0.01,
  kelvinOffComputedBoiling: 1,
  simmerMinutes: 45,
  simmerMinutesTolerance: 1,
  warmestStart: 35,
  startVolumesGrams: [5000, 2500],
  startVolumeTolerance: 0.05,
  fewestRuns: 3,
} as const;

function boilingPointOf({ run, phase, settings }: PhaseContext): number | null {
  const { boilingPoint } = phaseInputs(plainNumbers, run, phase, settings, readingsAsRead);
  return boilingPoint.given ? boilingPoint.value : null;
}

const endUnderBoiling: Rule = (context) => {
  const { phase, locale } = context;
  const boiling = boilingPointOf(context);
  const end = phase.pots[0]?.temperatureEnd.value;
  if (boiling === null || end === undefined) return null;
  const { questions } = wordsFor(locale);
  const { kelvinUnderBoiling, kelvinUnderBoilingAtSimmer } = questionLimits;
  const holding = isHoldingPhase(phase.phase);
  if (!holding && !isBoilingPhase(phase.phase)) return null;
  const limit = holding ? kelvinUnderBoilingAtSimmer : kelvinUnderBoiling;
  if (!(boiling - end - slack > limit)) return null;
  const decimals = decimalsShowing(1, (rounded) => rounded(boiling) - rounded(end) > limit + slack);
  const texts = [formatFixed(end, decimals, locale), formatFixed(boiling, decimals, locale)] as const;
  return holding
    ? { rule: "simmerFarBelowBoiling", column: "pot1_end_C", message: questions.simmerFarBelowBoiling(...texts) }
    : { rule: "endBelowBoiling", column: "pot1_end_C", message: questions.endBelowBoiling(...texts) };
};

const oddEfficiency: Rule = ({ run, phase, results, locale }) => {
  const quantity = run.method === "wbt" ? "thermalEfficiency" : "isoEfficiencyWithoutChar";
  const efficiency = results.phases.find((other) => other.phase === phase.phase)?.values.get(quantity);
  if (efficiency === undefined) return null;
  const { questions } = wordsFor(locale);
  const { highestEfficiency, lowestEfficiency } = questionLimits;
  const isOdd = (value: number) => value > highestEfficiency + slack || value < lowestEfficiency - slack;
  if (!isOdd(efficiency)) return null;
  const decimals = decimalsShowing(1, (rounded) => isOdd(rounded(efficiency * 100) / 100));
  const shown = formatFixed(efficiency * 100, decimals, locale);
  return efficiency > highestEfficiency
    ? { rule: "efficiencyHigh", column: null, message: questions.efficiencyHigh(shown) }
    : { rule: "efficiencyLow", column: null, message: questions.efficiencyLow(shown) };
};

const muchChar: Rule = ({ run, phase, settings, locale }) => {
  // Of a run that is not finished the char may yet be weighed: another phase's does not stand in for it.
  if (run.leftOut !== null && phase.char === null) return null;
  const { charFormed, fuels } = phaseInputs(plainNumbers, run, phase, settings, readingsAsRead);
  if (!charFormed.given || !fuels.every((fuel) => fuel.moisture.given)) return null;
  const dryFuel = fuels.reduce(
    (total, fuel) => total + fuel.consumed * (1 - (fuel.moisture.given ? fuel.moisture.value : 0)),
    0,
  );
  const share = charFormed.value / dryFuel;
  if (!(dryFuel > 0) || !(share > questionLimits.highestCharShare + slack)) return null;
  const decimals = decimalsShowing(
    0,
    (rounded) => rounded(share * 100) / 100 > questionLimits.highestCharShare + slack,
  );
  const [char, fuel] = [formatFixed(charFormed.value, 0, locale), formatFixed(dryFuel, 0, locale)];
  const percent = formatFixed(share * 100, decimals, locale);
  const column = phase.char?.kind === "net" ? "char_g" : "char_with_container_g";
  return { rule: "muchChar", column, message: wordsFor(locale).questions.muchChar(char, fuel, percent) };
};

function wetMoisture(entry: FuelEntry): number | null {
  if (entry.moisture === null) return null;
  const fraction = entry.moisture.percent.value / 100;
  return entry.moisture.basis === "wet" ? fraction : moistureWetFromDry(plainNumbers, fraction);
}

const oddMoisture: Rule = ({ phase, locale }) => {
  const { questions } = wordsFor(locale);
  return phase.fuels.flatMap((entry, index): Found[] => {
    const moisture = wetMoisture(entry);
    if (moisture === null || entry.moisture === null) return [];
    const column = `${index === 0 ? "" : `fuel${index + 1}_`}moisture_${entry.moisture.basis}_percent`;
    if (moisture === 0) return [{ rule: "moistureZero", column, message: questions.moistureZero }];
    if (moisture < questionLimits.lowestMoisture - slack) {
      const percent = entry.moisture.percent.value;
      const message = questions.moistureLow(formatFixed(percent, 2, locale));
      return [{ rule: "moistureLow", column, message }];
    }
    if (moisture <= questionLimits.highestMoisture + slack) return [];
    const highest = questionLimits.highestMoisture + slack;
    const decimals = decimalsShowing(1, (rounded) => rounded(moisture * 100) / 100 > highest);
    const message = questions.moistureHigh(
      formatFixed(moisture * 100, decimals, locale),
      entry.moisture.basis === "wet",
    );
    return [{ rule: "moistureHigh", column, message }];
  });
};

const boilingPointOff: Rule = ({ phase, locale }) => {
  const { measured, pressure, altitude } = phase.boilingPoint;
  if (measured === null) return null;
  const water =
    pressure !== null ? waterAtPressure(pressure.value) : altitude !== null ? waterAtAltitude(altitude.value) : null;
  if (water === null || !water.ok) return null;
  const { boilingPoint } = water;
  const isOff = (one: number, other: number) => Math.abs(one - other) > questionLimits.kelvinOffComputedBoiling + slack;
  if (!isOff(measured.value, boilingPoint)) return null;
  const decimals = decimalsShowing(1, (rounded) => isOff(rounded(measured.value), rounded(boilingPoint)));
  const message = wordsFor(locale).questions.boilingPointOff(
    formatFixed(measured.value, decimals, locale),
    formatFixed(boilingPoint, decimals, locale),
  );
  return { rule: "boilingPointOff", column: "boiling_C", message };
};

const simmerDuration: Rule = ({ phase, results, locale }) => {
  if (phase.phase !== "simmer") return null;
  const minutes = results.phases.find((other) => other.phase === "simmer")?.values.get("duration");
  if (minutes === undefined) return null;
  const { simmerMinutes, simmerMinutesTolerance } = questionLimits;
  const isOff = (value: number) => Math.abs(value - simmerMinutes) > simmerMinutesTolerance + slack;
  if (!isOff(minutes)) return null;
  const column = phase.timing.kind === "clock" ? "end" : "duration_min";
  const decimals = decimalsShowing(1, (rounded) => isOff(rounded(minutes)));
  const message = wordsFor(locale).questions.simmerDuration(formatFixed(minutes, decimals, locale));
  return { rule: "simmerDuration", column, message };
};

/** Water that is drawn fresh has 7 to 38 °C: 45 to 100 °F. Common practice, no source. */
const fahrenheitFrom = 45;
const isUsualStart = (celsius: number) => celsius <= 38;

const warmStart: Rule = ({ phase, locale }) => {
  if (phase.phase === "simmer" || phase.phase === "medium-power" || phase.phase === "low-power") return null;
  const isWarm = (celsius: number) => celsius > questionLimits.warmestStart;
  return phase.pots.flatMap(({ pot, temperatureStart: { value } }) => {
    if (!isWarm(value)) return [];
    const shown = formatFixed(
      value,
      decimalsShowing(1, (rounded) => isWarm(rounded(value))),
      locale,
    );
    const asFahrenheit = (value - 32) / 1.8;
    const celsius = value >= fahrenheitFrom && isUsualStart(asFahrenheit) ? formatFixed(asFahrenheit, 1, locale) : null;
    const message = wordsFor(locale).questions.warmStart(shown, celsius);
    return { rule: "warmStart", column: `pot${pot}_start_C`, message };
  });
};

function charInBed(phase: Phase | undefined): number | null {
  if (phase?.char == null) return null;
  const { char } = phase;
  return char.kind === "net" ? char.mass.value : char.withContainer.value - char.container.value;
}

const charAtSimmerStart: Rule = ({ run, phase, locale }) => {
  if (phase.phase !== "simmer") return null;
  const { questions } = wordsFor(locale);
  const weighed = charInBed(run.phases.find((other) => other.phase === "hot-start"));
  // A run that was left out may lack the container, or the whole simmer.
  if (weighed === null || Number.isNaN(weighed)) return null;
  const isBegun = phase.timing.kind === "duration" || Number.isFinite(phase.timing.start.value);
  if (run.leftOut !== null && phase.charAtStart === null && !isBegun) return null;
  const column = "char_at_start_g";
  if (phase.charAtStart === null) return { rule: "charAtStartEmpty", column, message: questions.charAtStartEmpty };
  if (Math.abs(phase.charAtStart.value - weighed) <= slack * Math.max(1, weighed)) return null;
  const { value } = phase.charAtStart;
  const decimals = decimalsShowing(1, (rounded) => rounded(value) !== rounded(weighed));
  const texts = [formatFixed(value, decimals, locale), formatFixed(weighed, decimals, locale)] as const;
  return { rule: "charAtStartDiffers", column, message: questions.charAtStartDiffers(...texts) };
};

const rules: readonly Rule[] = [
  endUnderBoiling,
  oddEfficiency,
  muchChar,
  oddMoisture,
  ...unitRules,
  ...stoveRules,
  boilingPointOff,
  simmerDuration,
  warmStart,
  charAtSimmerStart,
];

/** The questions about one run, phase by phase. */
export function questionsOfRun(results: RunResults, settings: Settings, locale: Locale): Question[] {
  const { run } = results;
  return run.phases.flatMap((phase) =>
    rules.flatMap((rule) => {
      const found = rule({ run, phase, results, settings, locale }) ?? [];
      return [found].flat().map((one) => ({ ...one, run: run.name, variant: run.variant, phase: phase.phase }));
    }),
  );
}
