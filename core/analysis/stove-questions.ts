import { formatFixed } from "../format/number.ts";
import { isBoilingPhase, isHoldingPhase, type Phase, type PotReadings } from "../readings/phase.ts";
import { readingText } from "../readings/rules/reading-text.ts";
import { wordsFor } from "../words/index.ts";
import { decimalsShowing, type Found, type PhaseContext, type Rule, slack } from "./question-rule.ts";

/** What wood stoves for one or two pots do not go beyond, with room to spare. Common practice, no source. */
export const stoveLimits = {
  /** Water lost from all pots, g/min: 3 kW that all go into steam give 80. */
  fastestLoss: 80,
  /** Share of the water of a pot that a boiling phase may lose, and a simmer. */
  largestLoss: 0.4,
  largestSimmerLoss: 0.75,
  /** Wood burnt, g/min: about 25 kW, and about 0.3 kW. */
  mostWood: 90,
  leastWood: 1,
  longestBoilMinutes: 150,
  /** Char that was weighed, as a share of the wood burnt in a boiling phase. */
  leastChar: 0.004,
  /** What a wood fire leaves at the least, as a share: less than a coarse balance's step (g) may be weighed as none. */
  littleChar: 0.03,
  coarseStep: 10,
} as const;

const netWater = ({ masses }: PotReadings, moment: "start" | "end") =>
  masses.kind === "net"
    ? (moment === "start" ? masses.waterStart : masses.waterEnd).value
    : masses[moment].value - masses.empty.value;

const lengthOf = ({ phase, results }: PhaseContext) =>
  results.phases.find((other) => other.phase === phase.phase)?.values.get("duration");

/** A mass as a sentence has it: g, from a kilogram on kg. */
function massText(grams: number, { locale }: PhaseContext): string {
  return grams >= 1000 ? `${formatFixed(grams / 1000, 1, locale)} kg` : `${formatFixed(grams, 0, locale)} g`;
}

const muchWaterLost: Rule = (context) => {
  const { phase, locale } = context;
  const minutes = lengthOf(context);
  const { questions } = wordsFor(locale);
  const simmer = isHoldingPhase(phase.phase);
  if (!simmer && !isBoilingPhase(phase.phase)) return null;
  return phase.pots.flatMap((pot): Found[] => {
    const [start, end] = [netWater(pot, "start"), netWater(pot, "end")];
    const lost = start - end;
    const share = simmer ? stoveLimits.largestSimmerLoss : stoveLimits.largestLoss;
    const isFast = minutes !== undefined && lost > stoveLimits.fastestLoss * minutes + slack;
    if (!isFast && !(lost > share * start + slack)) return [];
    const length = minutes === undefined ? null : formatFixed(minutes, 0, locale);
    const message = questions.muchWaterLost(massText(lost, context), massText(start, context), length);
    const column = pot.masses.kind === "net" ? "water_end_g" : "end_g";
    return [{ rule: "muchWaterLost", column: `pot${pot.pot}_${column}`, message }];
  });
};

function woodBurnt({ fuels }: Phase): number {
  return fuels.reduce((total, { massBefore, massAfter }) => total + massBefore.value - massAfter.value, 0);
}

const oddWood: Rule = (context) => {
  const { phase, locale } = context;
  const minutes = lengthOf(context);
  const burnt = woodBurnt(phase);
  if (minutes === undefined || !(minutes > 0) || !Number.isFinite(burnt)) return null;
  const rate = burnt / minutes;
  const isOdd = (value: number) => value > stoveLimits.mostWood + slack || value < stoveLimits.leastWood - slack;
  if (!isOdd(rate)) return null;
  const decimals = decimalsShowing(1, (rounded) => isOdd(rounded(rate)));
  const { questions } = wordsFor(locale);
  const [length, shown] = [formatFixed(minutes, 0, locale), formatFixed(rate, decimals, locale)];
  const wood = readingText(Math.round(burnt * 10) / 10, locale);
  return rate > stoveLimits.mostWood
    ? { rule: "muchWood", column: "fuel_end_g", message: questions.muchWood(wood, length, shown) }
    : { rule: "littleWood", column: "fuel_end_g", message: questions.littleWood(wood, length, shown) };
};

const longBoil: Rule = (context) => {
  const minutes = isBoilingPhase(context.phase.phase) ? lengthOf(context) : undefined;
  if (minutes === undefined || !(minutes > stoveLimits.longestBoilMinutes + slack)) return null;
  const { phase, locale } = context;
  const message = wordsFor(locale).questions.longBoil(formatFixed(minutes, 0, locale));
  return { rule: "longBoil", column: phase.timing.kind === "clock" ? "end" : "duration_min", message };
};

const noChar: Rule = ({ phase, locale }) => {
  const { char } = phase;
  if (char?.kind !== "weighed" || !isBoilingPhase(phase.phase)) return null;
  const net = char.withContainer.value - char.container.value;
  if (!(net < stoveLimits.leastChar * woodBurnt(phase))) return null;
  const [container, withContainer] = [char.container.value, char.withContainer.value];
  const { littleChar, coarseStep } = stoveLimits;
  const weighings = [
    container,
    withContainer,
    ...phase.fuels.flatMap((one) => [one.massBefore.value, one.massAfter.value]),
  ];
  const isCoarse = weighings.every((value) => value % coarseStep === 0);
  if (isCoarse && littleChar * woodBurnt(phase) < coarseStep) return null;
  const message = wordsFor(locale).questions.noChar(readingText(withContainer, locale), readingText(container, locale));
  return { rule: "noChar", column: "char_with_container_g", message };
};

/** Questions about what no such stove does, phase by phase. */
export const stoveRules: readonly Rule[] = [muchWaterLost, oddWood, longBoil, noChar];
