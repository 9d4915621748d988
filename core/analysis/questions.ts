import { formatFixed } from "../format/number.ts";
import { moistureWetFromDry } from "../fuel/moisture.ts";
import { phaseInputs, readingsAsRead } from "../method/phase-inputs.ts";
import { plainNumbers } from "../numeric/arithmetic.ts";
import { type FuelEntry, isBoilingPhase, isHoldingPhase, type Phase, type PotReadings } from "../readings/phase.ts";
import type { Settings } from "../readings/settings.ts";
import type { Run } from "../readings/study.ts";
import { waterAtAltitude, waterAtPressure } from "../water/water-properties.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import type { Question } from "./question.ts";
import type { RunResults } from "./run-results.ts";

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
  kelvinOffComputedBoiling: 1,
  simmerMinutes: 45,
  simmerMinutesTolerance: 1,
  warmestStart: 35,
  startVolumesGrams: [5000, 2500],
  startVolumeTolerance: 0.05,
  fewestRuns: 3,
} as const;

interface PhaseContext {
  readonly run: Run;
  readonly phase: Phase;
  readonly results: RunResults;
  readonly settings: Settings;
  readonly locale: Locale;
}

type Found = { readonly rule: string; readonly column: string | null; readonly message: string };
type Rule = (context: PhaseContext) => Found | readonly Found[] | null;

/** Differences of readings carry rounding in their last bits; a limit is passed only beyond this. */
const slack = 1e-9;

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
  const under = boiling - end - slack;
  const texts = [formatFixed(end, 1, locale), formatFixed(boiling, 1, locale)] as const;
  if (isBoilingPhase(phase.phase) && under > questionLimits.kelvinUnderBoiling) {
    return { rule: "endBelowBoiling", column: "pot1_end_C", message: questions.endBelowBoiling(...texts) };
  }
  if (isHoldingPhase(phase.phase) && under > questionLimits.kelvinUnderBoilingAtSimmer) {
    return { rule: "simmerFarBelowBoiling", column: "pot1_end_C", message: questions.simmerFarBelowBoiling(...texts) };
  }
  return null;
};

const oddEfficiency: Rule = ({ run, phase, results, locale }) => {
  const quantity = run.method === "wbt" ? "thermalEfficiency" : "isoEfficiencyWithoutChar";
  const efficiency = results.phases.find((other) => other.phase === phase.phase)?.values.get(quantity);
  if (efficiency === undefined) return null;
  const { questions } = wordsFor(locale);
  const shown = formatFixed(efficiency * 100, 1, locale);
  if (efficiency > questionLimits.highestEfficiency) {
    return { rule: "efficiencyHigh", column: null, message: questions.efficiencyHigh(shown) };
  }
  if (efficiency < questionLimits.lowestEfficiency) {
    return { rule: "efficiencyLow", column: null, message: questions.efficiencyLow(shown) };
  }
  return null;
};

const muchChar: Rule = ({ run, phase, settings, locale }) => {
  const { charFormed, fuels } = phaseInputs(plainNumbers, run, phase, settings, readingsAsRead);
  if (!charFormed.given || !fuels.every((fuel) => fuel.moisture.given)) return null;
  const dryFuel = fuels.reduce(
    (total, fuel) => total + fuel.consumed * (1 - (fuel.moisture.given ? fuel.moisture.value : 0)),
    0,
  );
  const share = charFormed.value / dryFuel;
  if (!(dryFuel > 0) || !(share > questionLimits.highestCharShare + slack)) return null;
  const texts = [charFormed.value, dryFuel, share * 100].map((value) => formatFixed(value, 0, locale));
  const [char = "", fuel = "", percent = ""] = texts;
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
    if (moisture <= questionLimits.highestMoisture + slack) return [];
    const message = questions.moistureHigh(formatFixed(moisture * 100, 1, locale));
    return [{ rule: "moistureHigh", column, message }];
  });
};

const boilingPointOff: Rule = ({ phase, locale }) => {
  const { measured, pressure, altitude } = phase.boilingPoint;
  if (measured === null) return null;
  const water =
    pressure !== null ? waterAtPressure(pressure.value) : altitude !== null ? waterAtAltitude(altitude.value) : null;
  if (water === null || !water.ok) return null;
  if (Math.abs(measured.value - water.boilingPoint) <= questionLimits.kelvinOffComputedBoiling + slack) return null;
  const message = wordsFor(locale).questions.boilingPointOff(
    formatFixed(measured.value, 1, locale),
    formatFixed(water.boilingPoint, 1, locale),
  );
  return { rule: "boilingPointOff", column: "boiling_C", message };
};

const simmerDuration: Rule = ({ phase, results, locale }) => {
  if (phase.phase !== "simmer") return null;
  const minutes = results.phases.find((other) => other.phase === "simmer")?.values.get("duration");
  if (minutes === undefined) return null;
  const off = Math.abs(minutes - questionLimits.simmerMinutes);
  if (off <= questionLimits.simmerMinutesTolerance + slack) return null;
  const column = phase.timing.kind === "clock" ? "end" : "duration_min";
  const message = wordsFor(locale).questions.simmerDuration(formatFixed(minutes, 1, locale));
  return { rule: "simmerDuration", column, message };
};

const warmStart: Rule = ({ phase, locale }) => {
  if (phase.phase === "simmer" || phase.phase === "medium-power" || phase.phase === "low-power") return null;
  return phase.pots
    .filter((pot) => pot.temperatureStart.value > questionLimits.warmestStart)
    .map((pot) => ({
      rule: "warmStart",
      column: `pot${pot.pot}_start_C`,
      message: wordsFor(locale).questions.warmStart(formatFixed(pot.temperatureStart.value, 1, locale)),
    }));
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
  if (weighed === null) return null;
  const column = "char_at_start_g";
  if (phase.charAtStart === null) return { rule: "charAtStartEmpty", column, message: questions.charAtStartEmpty };
  if (Math.abs(phase.charAtStart.value - weighed) <= slack * Math.max(1, weighed)) return null;
  const texts = [formatFixed(phase.charAtStart.value, 1, locale), formatFixed(weighed, 1, locale)] as const;
  return { rule: "charAtStartDiffers", column, message: questions.charAtStartDiffers(...texts) };
};

const rules: readonly Rule[] = [
  endUnderBoiling,
  oddEfficiency,
  muchChar,
  oddMoisture,
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

function fingerprint(phase: Phase): string {
  const pots = phase.pots.map(({ pot, masses, temperatureStart, temperatureEnd }) => [
    pot,
    ...(masses.kind === "net"
      ? [masses.waterStart.value, masses.waterEnd.value]
      : [masses.empty.value, masses.start.value, masses.end.value]),
    temperatureStart.value,
    temperatureEnd.value,
  ]);
  const fuels = phase.fuels.map(({ massBefore, massAfter }) => [massBefore.value, massAfter.value]);
  return JSON.stringify([phase.phase, fuels, pots]);
}

/** Phases whose weighings and temperatures all equal those of another run: a row copied, most likely. */
export function sameReadingsQuestions(runs: readonly Run[], locale: Locale): Question[] {
  const first = new Map<string, Run>();
  const found: Question[] = [];
  for (const run of runs) {
    for (const phase of run.phases) {
      const print = fingerprint(phase);
      const other = first.get(print);
      if (other === undefined) first.set(print, run);
      else {
        const message = wordsFor(locale).questions.sameReadings(other.name, phase.phase);
        found.push({
          rule: "sameReadings",
          run: run.name,
          variant: run.variant,
          phase: phase.phase,
          column: null,
          message,
        });
      }
    }
  }
  return found;
}

function waterAtStart(pot: PotReadings | undefined): number | null {
  if (pot?.pot !== 1) return null;
  const { masses } = pot;
  return masses.kind === "net" ? masses.waterStart.value : masses.start.value - masses.empty.value;
}

function isUsualVolume(grams: number): boolean {
  return questionLimits.startVolumesGrams.some(
    (usual) => Math.abs(grams - usual) <= usual * questionLimits.startVolumeTolerance + slack,
  );
}

/** How many examples a question about the whole study names. */
const examplesShown = 3;

/** Questions about variants and the study as a whole; runs that were left out do not count. */
export function questionsOfStudy(runs: readonly Run[], locale: Locale): Question[] {
  const { questions } = wordsFor(locale);
  const counted = runs.filter((run) => run.leftOut === null);
  const unusual = counted.flatMap((run) =>
    run.phases
      .filter(({ phase }) => isBoilingPhase(phase))
      .flatMap((phase) => {
        const grams = waterAtStart(phase.pots[0]);
        if (grams === null || isUsualVolume(grams)) return [];
        return [questions.waterAtStartOf(run.name, phase.phase, formatFixed(grams / 1000, 2, locale))];
      }),
  );
  const found: Question[] = [];
  const about = (rule: string, variant: string | null, column: string | null, message: string) =>
    found.push({ rule, run: null, variant, phase: null, column, message });
  if (unusual.length > 0) {
    const shown = unusual.slice(0, examplesShown);
    const rest = unusual.length - shown.length;
    const list = [...shown, ...(rest > 0 ? [questions.andMore(rest)] : [])].join("; ");
    about("waterAtStart", null, "pot1_start_g", questions.waterAtStart(list));
  }
  for (const variant of new Set(runs.map((run) => run.variant))) {
    const count = counted.filter((run) => run.variant === variant).length;
    if (count > 0 && count < questionLimits.fewestRuns) {
      about("fewRuns", variant, null, questions.fewRuns(variant, count));
    }
  }
  return found;
}
