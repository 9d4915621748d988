import { type PhaseName, phaseNames } from "../readings/phase.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import type { Question } from "./question.ts";
import { questionRules } from "./rule-set.ts";
import { type Suspicion, touch } from "./slips/numbered-run.ts";

const ranks = new Map(questionRules.map(({ name }, rank) => [name, rank]));

/** Rules that rest on more readings of their phase than the column they are shown at. */
const restsOn: Readonly<Record<string, readonly string[]>> = {
  sameReadings: ["*"],
  efficiencyHigh: ["*"],
  efficiencyLow: ["*"],
  muchChar: ["char_with_container_g", "char_container_g", "char_g", "fuel_start_g", "fuel_end_g"],
  muchWaterLost: ["start", "end"],
  noChar: ["char_with_container_g", "char_container_g"],
  shortPhase: ["start", "end"],
  simmerDuration: ["start", "end"],
  longBoil: ["start", "end"],
  muchWood: ["fuel_start_g", "fuel_end_g", "start", "end"],
  littleWood: ["fuel_start_g", "fuel_end_g", "start", "end"],
  endBelowBoiling: ["pot1_end_C", "boiling_C"],
  simmerFarBelowBoiling: ["pot1_end_C", "boiling_C"],
  "mass-unit": ["fuel_start_g", "fuel_end_g", "char_with_container_g", "char_container_g", "char_g"],
};

function touchesOf({ rule, phase, column }: Question): string[] {
  if (phase === null) return [];
  const touches = touch(phase, ...(restsOn[rule] ?? []), ...(column === null ? [] : [column]));
  const [, pot] = /^(pot\d)_(?:water_)?(?:start|end|empty)_g$/.exec(column ?? "") ?? [];
  if (pot !== undefined) touches.push(...touch(phase, `${pot}_start_g`, `${pot}_end_g`, `${pot}_empty_g`));
  if (rule === "charAtStartDiffers") touches.push(...touch("hot-start", "char_with_container_g", "char_g"));
  return touches;
}

/** What is the same all day, or in all phases of a run: one slip of it shows in each. */
const ofDay = new Set(["moisture_wet_percent", "moisture_dry_percent", "air_C", "boiling_C"]);

/** What one slip may show in more places than one: those of a run's clock, of its weather and wood, of the pots on one stove. */
function shared({ rule, phase, column }: Suspicion): string[] {
  if (rule === "timeOfDay" || rule === "outOfOrder") return ["run/moment"];
  if (phase === null || column === null || (rule !== "outsideRuns" && rule !== "waterAtStart")) return [];
  const [, moment] = /^pot\d_(start|end)_g$/.exec(column) ?? [];
  if (moment !== undefined) return touch(phase, `pots_${moment}_g`);
  return ofDay.has(column) ? [`run/${column}`] : [];
}

/** A question as one about readings, so that it can be told whether another rests on the same ones. */
export function asSuspicion(question: Question): Suspicion {
  return { ...question, touches: touchesOf(question) };
}

/** What has been asked of a run, reading by reading. */
class Asked {
  readonly #readings = new Set<string>();
  readonly #phases = new Set<string>();

  has(touches: readonly string[]): boolean {
    return touches.some((one) => {
      const [phase = "", column] = one.split("/");
      return column === "*" ? this.#phases.has(phase) : this.#readings.has(one) || this.#readings.has(`${phase}/*`);
    });
  }

  add(touches: readonly string[]): void {
    for (const one of touches) {
      this.#readings.add(one);
      this.#phases.add(one.split("/")[0] ?? "");
    }
  }
}

/** Rules that the readings layout promises: what they say stays, with what tells more about it behind. */
const promised = new Set([
  ...["efficiencyHigh", "efficiencyLow", "muchChar", "moistureZero", "moistureLow", "moistureHigh", "warmStart"],
  ...["endBelowBoiling", "simmerFarBelowBoiling", "boilingPointOff", "simmerDuration", "shortPhase", "sameReadings"],
]);

/** Rules that name the weighing behind an efficiency or a share of char that cannot be. */
const saysItAll = new Set(["muchWaterLost", "muchWood", "littleWood", "noChar"]);

/**
 * One question for one slip: of all that was seen in a run, those that rest on different readings, the most telling first. What
 * was asked when the file was read stays.
 */
export function oneQuestionEach(
  { name, variant }: { readonly name: string; readonly variant: string },
  read: readonly Question[],
  seen: readonly Suspicion[],
): Question[] {
  const asked = new Asked();
  for (const question of read) asked.add(touchesOf(question));
  const rankOf = ({ rule }: Suspicion) => ranks.get(rule) ?? ranks.size;
  const kept: Suspicion[] = [];
  for (const one of seen.toSorted((first, second) => rankOf(first) - rankOf(second))) {
    const touches = [...one.touches, ...shared(one)];
    if (!asked.has(touches)) {
      asked.add(touches);
      kept.push(one);
      continue;
    }
    const at = promised.has(one.rule) ? kept.findIndex((other) => sharesReading(one, other)) : -1;
    const telling = kept[at];
    if (telling === undefined || promised.has(telling.rule) || saysItAll.has(telling.rule)) continue;
    const more = one.column === null ? telling.message : telling.hint;
    const message = more == null ? one.message : `${one.message} ${more}`;
    kept[at] = { ...one, column: one.column ?? telling.column, message, touches: [...one.touches, ...telling.touches] };
  }
  // As the sheet goes: phase by phase.
  const order: readonly (PhaseName | null)[] = [null, ...phaseNames];
  return kept
    .toSorted((one, other) => order.indexOf(one.phase) - order.indexOf(other.phase))
    .map(({ rule, phase, column, message }) => ({ rule, run: name, variant, phase, column, message }));
}

/** Masses of a phase that stand in another unit are one slip of its row: asked at the first of them. */
export function oneForUnits(read: readonly Question[], locale: Locale): Question[] {
  const { moreMasses } = wordsFor(locale).questions;
  const ofPhase = Map.groupBy(
    read.filter(({ rule }) => rule === "mass-unit"),
    ({ phase }) => phase,
  );
  return read.flatMap((question): Question[] => {
    const alike = question.rule === "mass-unit" ? (ofPhase.get(question.phase) ?? []) : [question];
    if (alike[0] !== question) return [];
    const others = alike.length - 1;
    return [others === 0 ? question : { ...question, message: `${question.message} ${moreMasses(others)}` }];
  });
}

function sharesReading(one: Suspicion, other: Suspicion): boolean {
  if (one.phase === null || one.phase !== other.phase) return false;
  const asked = new Asked();
  asked.add(other.touches);
  return asked.has(one.touches);
}
