import { formatFixed } from "../format/number.ts";
import { wordsFor } from "../words/index.ts";
import { decimalsShowing, type Found, type Rule, slack } from "./question-rule.ts";

/** Limits beyond which a number looks as if it stood under another unit's heading. Common practice, no source. */
export const unitLimits = {
  lowestHydrogenPercent: 1,
  shortestPhaseMinutes: 2,
  /** Of the fuel that burned, by mass. */
  highestMonoxideShare: 0.3,
  highestParticleShare: 0.1,
} as const;

const lowHydrogen: Rule = ({ phase, locale }) =>
  phase.fuels.flatMap(({ calorific }, index): Found[] => {
    const hydrogen = calorific?.kind === "gross" ? (calorific.hydrogenPercent?.value ?? null) : null;
    if (hydrogen === null || hydrogen >= unitLimits.lowestHydrogenPercent) return [];
    const column = `${index === 0 ? "" : `fuel${index + 1}_`}hydrogen_percent`;
    const message = wordsFor(locale).questions.hydrogenLow(formatFixed(hydrogen, 2, locale));
    return [{ rule: "hydrogenLow", column, message }];
  });

/** A simmer's length has a question of its own. */
const shortPhase: Rule = ({ phase, results, locale }) => {
  if (phase.phase === "simmer") return null;
  const minutes = results.phases.find((other) => other.phase === phase.phase)?.values.get("duration");
  const { shortestPhaseMinutes } = unitLimits;
  const isShort = (value: number) => value < shortestPhaseMinutes - slack;
  if (minutes === undefined || !isShort(minutes)) return null;
  const decimals = decimalsShowing(1, (rounded) => isShort(rounded(minutes)));
  const column = phase.timing.kind === "clock" ? "end" : "duration_min";
  const message = wordsFor(locale).questions.shortPhase(formatFixed(minutes, decimals, locale));
  return { rule: "shortPhase", column, message };
};

/** Emissions that outweigh what the burned fuel could give: another unit, most likely. */
const muchEmission: Rule = ({ phase, locale }) => {
  const fuel = phase.fuels.reduce((total, { massBefore, massAfter }) => total + massBefore.value - massAfter.value, 0);
  const { questions } = wordsFor(locale);
  const ask = (column: "co_g" | "pm25_mg", value: number | undefined, grams: number, highest: number): Found[] => {
    if (value === undefined || !(fuel > 0) || !(grams > highest * fuel * (1 + slack))) return [];
    const texts = [formatFixed(value, 0, locale), formatFixed(fuel, 0, locale)] as const;
    const message = column === "co_g" ? questions.muchMonoxide(...texts) : questions.muchParticles(...texts);
    return [{ rule: column === "co_g" ? "muchMonoxide" : "muchParticles", column, message }];
  };
  const monoxide = phase.carbonMonoxide?.value;
  const particles = phase.particulateMatter?.value;
  return [
    ...ask("co_g", monoxide, monoxide ?? 0, unitLimits.highestMonoxideShare),
    ...ask("pm25_mg", particles, (particles ?? 0) / 1000, unitLimits.highestParticleShare),
  ];
};

/** Questions about units, phase by phase. */
export const unitRules: readonly Rule[] = [lowHydrogen, shortPhase, muchEmission];
