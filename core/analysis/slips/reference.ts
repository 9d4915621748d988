import type { InSteps } from "../../numeric/in-steps.ts";
import { type PhaseName, type PotNumber, phaseNames } from "../../readings/phase.ts";
import type { NumberedRun } from "./numbered-run.ts";
import { inflationByFew, medianOfSorted, robustScale } from "./robust.ts";
import { type Watched, type WatchedName, watchedOf } from "./watched.ts";

/** How far from the others a value must lie to be asked about. */
export const outsideLimits = {
  /** Other runs from which on the variant's own scatter is looked at. */
  fewestOthers: 4,
  /**
   * Robust standard deviations. Iglewicz and Hoaglin (1993) have 3.5 for one value of one sample; some sixty are looked at in a
   * run here, and 4.2 keeps good runs quiet.
   */
  deviations: 4.2,
  /** With two or three others, of the scatter that boil tests usually have or these few show, whichever is more. */
  deviationsOfFew: 6.5,
  fewestOfFew: 2,
  /**
   * With fewer others of the variant, all of the study's: as far beyond what they have as so many times the usual scatter, for
   * variants differ; and as far from the variant's other run, if there is one.
   */
  fewestOfAll: 3,
  roomBesideAll: 14,
  /** Groups of more runs are taken as a whole: one run more or less does not move their middle. */
  largestLeftOneOut: 40,
} as const;

/** So that for few, with their higher limit, the study's own scatter counts as for more. */
const pooledShareOfFew = outsideLimits.deviations / outsideLimits.deviationsOfFew;

/** Where a value lies among those of the other runs. */
export interface Deviation {
  readonly value: number;
  readonly median: number;
  /** Over the limit for so many others: 1 is at the limit. */
  readonly excess: number;
  /** In robust standard deviations, with its sign. */
  readonly score: number;
  readonly others: number;
  /** The others are of the run's variant, or of the whole study. */
  readonly among: "variant" | "study";
  /** Smallest and largest of the others that are not odd themselves. */
  readonly low: number;
  readonly high: number;
}

/** A deviation, with what it is of. */
export interface Judged extends Deviation {
  readonly watched: Watched;
  readonly phase: PhaseName;
}

interface Group {
  readonly sorted: Float64Array;
  /** Of the whole group, once somebody asked. */
  whole: Middle | null;
}

/** Centre and scatter of some values. */
interface Middle {
  readonly sorted: Float64Array;
  readonly centre: number;
  readonly scale: number;
  /** Limits and the usual values between them, once they were worked out. */
  usual: Usual | null;
}

interface Usual {
  readonly scale: number;
  readonly limit: number;
  readonly low: number;
  readonly high: number;
}

function middleOf(sorted: Float64Array): Middle {
  const centre = medianOfSorted(sorted);
  return { sorted, centre, scale: robustScale(sorted, centre), usual: null };
}

/** What the counted runs of a study have in everything that is compared. */
export class Reference {
  readonly watched: readonly Watched[];
  readonly runs: readonly NumberedRun[];
  /** By what is compared, phase and variant; empty for the whole study. */
  readonly #groups = new Map<Watched, Map<PhaseName, Map<string, Group>>>();
  readonly #byName: ReadonlyMap<string, Watched>;
  readonly #scatter = new Map<string, number>();

  private constructor(runs: readonly NumberedRun[]) {
    this.runs = runs;
    this.watched = watchedOf(runs.reduce((most, run) => Math.max(most, potsOf(run)), 1));
    this.#byName = new Map(this.watched.map((one) => [`${one.name}${one.pot}`, one]));
  }

  static *inSteps(runs: readonly NumberedRun[]): InSteps<Reference> {
    const reference = new Reference(runs);
    for (const phase of phaseNames) {
      const having = runs.flatMap((run) => {
        const one = run.isCounted ? run.phases.find((other) => other.phase === phase) : undefined;
        return one === undefined ? [] : [{ run, phase: one }];
      });
      if (having.length === 0) continue;
      for (const watched of reference.watched) {
        reference.#gather(watched, phase, having);
        yield;
      }
    }
    return reference;
  }

  #gather(
    watched: Watched,
    phase: PhaseName,
    having: readonly { readonly run: NumberedRun; readonly phase: NumberedRun["phases"][number] }[],
  ): void {
    const byGroup = new Map<string, number[]>();
    const all: number[] = [];
    for (const one of having) {
      const value = watched.of(one.phase, one.run);
      if (!Number.isFinite(value)) continue;
      all.push(value);
      const key = groupKey(watched, one.run.facts.variant);
      const values = byGroup.get(key);
      if (values === undefined) byGroup.set(key, [value]);
      else values.push(value);
    }
    const residuals: number[] = [];
    const groups = new Map<string, Group>();
    const ofWatched = this.#groups.get(watched) ?? new Map<PhaseName, Map<string, Group>>();
    this.#groups.set(watched, ofWatched.set(phase, groups));
    for (const [key, values] of byGroup) {
      const sorted = Float64Array.from(values).sort();
      groups.set(key, { sorted, whole: null });
      const { length } = values;
      if (length < 3) continue;
      const centre = medianOfSorted(sorted);
      const size = watched.least.share > 0 ? Math.abs(centre) : 1;
      if (size > 0) {
        for (const value of values) residuals.push(((value - centre) / size) * Math.sqrt(length / (length - 1)));
      }
    }
    const isFewSomewhere = [...byGroup.values()].some((values) => values.length <= outsideLimits.fewestOfFew);
    if (watched.among === "variant" && isFewSomewhere) {
      groups.set(allVariants, { sorted: Float64Array.from(all).sort(), whole: null });
    }
    if (residuals.length > 0) this.#scatter.set(`${watched.name}${watched.pot}/${phase}`, robustScale(residuals, 0));
  }

  find(name: WatchedName, pot: PotNumber = 1): Watched | undefined {
    return this.#byName.get(`${name}${pot}`);
  }

  /**
   * Where a value lies among those of the other runs; null where too few others have one.
   *
   * @param standing what the run itself has, where the value is another that is tried in its place
   */
  deviation(watched: Watched, phase: PhaseName, run: NumberedRun, value: number, standing = value): Deviation | null {
    const groups = this.#groups.get(watched)?.get(phase);
    const group = groups?.get(groupKey(watched, run.facts.variant));
    if (!Number.isFinite(value)) return null;
    const own = run.isCounted ? standing : null;
    const others = group === undefined ? null : withoutOne(group, own);
    const length = others?.sorted.length ?? 0;
    if (others === null || length < outsideLimits.fewestOfFew) {
      const all = watched.among === "variant" ? groups?.get(allVariants) : undefined;
      return all === undefined
        ? null
        : besideAll(watched, value, withoutOne(all, own).sorted, others?.sorted[0] ?? null);
    }
    others.usual ??= this.#usual(watched, phase, others);
    const { scale, limit, low, high } = others.usual;
    const score = (value - others.centre) / scale;
    const { among } = watched;
    return { value, median: others.centre, score, others: length, among, excess: Math.abs(score) / limit, low, high };
  }

  #usual({ name, pot, least }: Watched, phase: PhaseName, { sorted, centre, scale: own }: Middle): Usual {
    const { length } = sorted;
    const size = least.share > 0 ? Math.abs(centre) : 1;
    const isFew = length < outsideLimits.fewestOthers;
    const pooled = (this.#scatter.get(`${name}${pot}/${phase}`) ?? 0) * size;
    const halfRange = ((sorted[length - 1] ?? 0) - (sorted[0] ?? 0)) / 2;
    // Two or three may lie close together by chance where others scatter more.
    const seen = isFew ? Math.max(halfRange, pooled * pooledShareOfFew) : Math.max(pooled, own);
    const scale = Math.max(least.absolute, least.share * size, seen) * inflationByFew(length);
    // The scatter that a handful shows is itself uncertain.
    const limit = isFew ? outsideLimits.deviationsOfFew : outsideLimits.deviations * (1 + 1 / length);
    const isUsual = (other: number) => Math.abs(other - centre) <= limit * scale;
    return { scale, limit, low: sorted.find(isUsual) ?? centre, high: sorted.findLast(isUsual) ?? centre };
  }
}

/** Where a value lies beside the runs of all variants. @param nearest what the variant's only other run has */
function besideAll({ least }: Watched, value: number, sorted: Float64Array, nearest: number | null): Deviation | null {
  const [low, high] = [sorted[0] ?? 0, sorted.at(-1) ?? 0];
  if (sorted.length < outsideLimits.fewestOfAll || !(low > 0) || !(value > 0) || least.share === 0) return null;
  const room = Math.log(1 + outsideLimits.roomBesideAll * least.share);
  const median = medianOfSorted(sorted);
  const away = Math.log(value / median);
  const edge = away > 0 ? Math.log(high / median) : Math.log(median / low);
  const fromNearest = nearest === null ? Number.POSITIVE_INFINITY : Math.abs(Math.log(value / nearest)) / room;
  const excess = Math.min(Math.abs(away) / (edge + room), fromNearest);
  const score = Math.sign(away) * excess * outsideLimits.deviationsOfFew;
  return { value, median, score, excess, others: sorted.length, among: "study", low, high };
}

function potsOf({ phases }: NumberedRun): number {
  return Math.max(0, ...phases.flatMap(({ pots }) => pots.map(({ pot }) => pot)));
}

/** Key of a study's runs of all variants, which no name of a variant is. */
const allVariants = "\u0000";

function groupKey({ among }: Watched, variant: string): string {
  return among === "variant" ? variant : "";
}

function withoutOne(group: Group, value: number | null): Middle {
  const { sorted } = group;
  const at = value === null || sorted.length > outsideLimits.largestLeftOneOut ? -1 : sorted.indexOf(value);
  if (at !== -1) return middleOf(sorted.filter((_, index) => index !== at));
  group.whole ??= middleOf(sorted);
  return group.whole;
}
