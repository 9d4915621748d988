import { type PhaseName, phaseNames } from "../../readings/phase.ts";
import type { NumberedRun } from "./numbered-run.ts";
import { inflationByFew, medianOfSorted, robustScale } from "./robust.ts";
import { type Watched, watchedOf } from "./watched.ts";

/** How far from the others a value must lie to be asked about. */
export const outsideLimits = {
  /** Other runs from which on the variant's own scatter is looked at. */
  fewestOthers: 4,
  /**
   * Robust standard deviations. Iglewicz and Hoaglin (1993) have 3.5 for one value of one sample; some sixty are looked at in a
   * run here, and five keeps good runs quiet.
   */
  deviations: 5,
  /** With two or three others, of the scatter that boil tests usually have or these few show, whichever is more. */
  deviationsOfFew: 8,
  fewestOfFew: 2,
  /** Groups of more runs are taken as a whole: one run more or less does not move their middle. */
  largestLeftOneOut: 40,
} as const;

/** Where a value lies among those of the other runs. */
export interface Deviation {
  readonly value: number;
  readonly median: number;
  /** Over the limit for so many others: 1 is at the limit. */
  readonly excess: number;
  /** In robust standard deviations, with its sign. */
  readonly score: number;
  readonly others: number;
  /** Smallest and largest of the others that are not odd themselves. */
  readonly low: number;
  readonly high: number;
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
}

function middleOf(sorted: Float64Array): Middle {
  const centre = medianOfSorted(sorted);
  return { sorted, centre, scale: robustScale(sorted, centre) };
}

/** What the counted runs of a study have in everything that is compared. */
export class Reference {
  readonly watched: readonly Watched[];
  readonly runs: readonly NumberedRun[];
  readonly #groups = new Map<string, Group>();
  readonly #scatter = new Map<string, number>();

  constructor(runs: readonly NumberedRun[]) {
    this.runs = runs;
    this.watched = watchedOf(Math.max(1, ...runs.map(potsOf)));
    for (const phase of phaseNames) {
      const having = runs.flatMap((run) => {
        const one = run.isCounted ? run.phases.find((other) => other.phase === phase) : undefined;
        return one === undefined ? [] : [{ run, phase: one }];
      });
      if (having.length > 0) for (const watched of this.watched) this.#gather(watched, phase, having);
    }
  }

  #gather(
    watched: Watched,
    phase: PhaseName,
    having: readonly { readonly run: NumberedRun; readonly phase: NumberedRun["phases"][number] }[],
  ): void {
    const byGroup = new Map<string, number[]>();
    for (const one of having) {
      const value = watched.of(one.phase, one.run);
      if (!Number.isFinite(value)) continue;
      const key = groupKey(watched, phase, one.run.facts.variant);
      const values = byGroup.get(key);
      if (values === undefined) byGroup.set(key, [value]);
      else values.push(value);
    }
    const residuals: number[] = [];
    for (const [key, values] of byGroup) {
      const sorted = Float64Array.from(values).sort();
      this.#groups.set(key, { sorted, whole: null });
      const { length } = values;
      if (length < 3) continue;
      const centre = medianOfSorted(sorted);
      const size = watched.least.share > 0 ? Math.abs(centre) : 1;
      if (size > 0) {
        for (const value of values) residuals.push(((value - centre) / size) * Math.sqrt(length / (length - 1)));
      }
    }
    if (residuals.length > 0) this.#scatter.set(`${watched.name}${watched.pot}/${phase}`, robustScale(residuals, 0));
  }

  /**
   * Where a value lies among those of the other runs; null where too few others have one.
   *
   * @param standing what the run itself has, where the value is another that is tried in its place
   */
  deviation(watched: Watched, phase: PhaseName, run: NumberedRun, value: number, standing = value): Deviation | null {
    const group = this.#groups.get(groupKey(watched, phase, run.facts.variant));
    if (group === undefined || !Number.isFinite(value)) return null;
    const { sorted: others, centre, scale: own } = withoutOne(group, run.isCounted ? standing : null);
    const { length } = others;
    if (length < outsideLimits.fewestOfFew) return null;
    const { absolute, share } = watched.least;
    const size = share > 0 ? Math.abs(centre) : 1;
    const pooled = (this.#scatter.get(`${watched.name}${watched.pot}/${phase}`) ?? 0) * size;
    const isFew = length < outsideLimits.fewestOthers;
    const seen = isFew ? ((others[length - 1] ?? 0) - (others[0] ?? 0)) / 2 : Math.max(pooled, own);
    const scale = Math.max(absolute, share * size, seen) * inflationByFew(length);
    const score = (value - centre) / scale;
    const limit = isFew ? outsideLimits.deviationsOfFew : outsideLimits.deviations;
    const isUsual = (other: number) => Math.abs(other - centre) <= limit * scale;
    return {
      ...{ value, median: centre, score, others: length },
      excess: Math.abs(score) / limit,
      low: others.find(isUsual) ?? centre,
      high: others.findLast(isUsual) ?? centre,
    };
  }
}

function potsOf({ phases }: NumberedRun): number {
  return Math.max(0, ...phases.flatMap(({ pots }) => pots.map(({ pot }) => pot)));
}

function groupKey({ name, pot, among }: Watched, phase: PhaseName, variant: string): string {
  return `${name}${pot}/${phase}/${among === "variant" ? variant : ""}`;
}

function withoutOne(group: Group, value: number | null): Middle {
  const { sorted } = group;
  const at = value === null || sorted.length > outsideLimits.largestLeftOneOut ? -1 : sorted.indexOf(value);
  if (at !== -1) return middleOf(sorted.filter((_, index) => index !== at));
  group.whole ??= middleOf(sorted);
  return group.whole;
}
