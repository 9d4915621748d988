import { type Locale, wordsFor } from "../../words/index.ts";
import type { NumberedRun, Suspicion } from "./numbered-run.ts";
import { judge } from "./outside.ts";
import type { Judged, Reference } from "./reference.ts";
import type { WatchedName } from "./watched.ts";

/** Limits of a run that looks like another variant's. Common practice, no source. */
export const wrongVariantLimits = {
  /** Share of the robust limit: beyond it off from its own variant, within it like the other one. */
  off: 0.6,
  like: 0.4,
  /** So many of its results have to be off from its own variant, and usual in the other. */
  fewestOff: 3,
  /** Other blocks in which each variant has one run, before a block that has two of one and none of another is asked about. */
  fewestFullBlocks: 2,
} as const;

const telling: readonly WatchedName[] = ["woodBurned", "waterLost", "duration", "efficiency", "firepower", "char"];

interface Doubled {
  readonly block: string;
  readonly lacking: string;
  readonly twin: NumberedRun;
}

/** Runs that may have been given to the wrong variant: by their factors, by the plan of the blocks, by what they did. */
export class Variants {
  readonly #runs: readonly NumberedRun[];
  readonly #names: readonly string[];
  readonly #byVariant: ReadonlyMap<string, readonly NumberedRun[]>;
  readonly #levels = new Map<string, ReadonlyMap<string, number>>();
  readonly #doubled: ReadonlyMap<NumberedRun, Doubled>;

  constructor(runs: readonly NumberedRun[]) {
    this.#runs = runs.filter(({ isCounted }) => isCounted);
    this.#byVariant = Map.groupBy(this.#runs, ({ facts }) => facts.variant);
    this.#names = [...this.#byVariant.keys()];
    this.#doubled = this.#doubledInBlocks();
  }

  suspicions(run: NumberedRun, all: readonly Judged[], reference: Reference, locale: Locale): Suspicion[] {
    const { questions } = wordsFor(locale);
    const { variant } = run.facts;
    const touches = ["variant", ...run.phases.map(({ phase }) => `${phase}/*`)];
    const as = { phase: null, column: "variant", touches };
    const factor = this.#oddFactor(run);
    if (factor !== null) {
      const message = questions.factorOfVariant(factor.name, factor.level, variant, factor.usual);
      return [{ ...as, rule: "wrongVariant", message }];
    }
    const doubled = this.#doubled.get(run);
    const like = this.#like(run, all, reference, doubled === undefined ? wrongVariantLimits.fewestOff : 1);
    if (doubled !== undefined && (like === null || like.variant === doubled.lacking)) {
      if (like !== null || this.#leans(run, doubled, reference) > this.#leans(doubled.twin, doubled, reference)) {
        const message = questions.variantTwiceInBlock(doubled.block, variant, doubled.lacking);
        return [{ ...as, rule: "wrongVariant", message }];
      }
      return [];
    }
    if (like === null) return [];
    return [{ ...as, rule: "wrongVariant", message: questions.likeOtherVariant(variant, like.variant, like.off) }];
  }

  /** A factor of which all other runs of the variant have one level, and this one another. */
  #oddFactor(run: NumberedRun): { readonly name: string; readonly level: string; readonly usual: string } | null {
    const { variant, factors } = run.facts;
    const runs = this.#byVariant.get(variant)?.length ?? 0;
    if (runs < 3) return null;
    for (const [name, level] of factors) {
      const counts = this.#levelsOf(variant, name);
      const [usual] = [...counts.keys()].filter((one) => one !== level);
      if (counts.size === 2 && counts.get(level) === 1 && usual !== undefined && counts.get(usual) === runs - 1) {
        return { name, level, usual };
      }
    }
    return null;
  }

  /** How often each level of a factor stands with the variant's runs. */
  #levelsOf(variant: string, factor: string): ReadonlyMap<string, number> {
    const key = JSON.stringify([variant, factor]);
    const known = this.#levels.get(key);
    if (known !== undefined) return known;
    const counts = new Map<string, number>();
    for (const { facts } of this.#byVariant.get(variant) ?? []) {
      const level = facts.factors.get(factor);
      if (level !== undefined) counts.set(level, (counts.get(level) ?? 0) + 1);
    }
    this.#levels.set(key, counts);
    return counts;
  }

  /** In blocks that elsewhere have one run of each variant: both runs of a variant that is there twice, where one is lacking. */
  #doubledInBlocks(): Map<NumberedRun, Doubled> {
    const blocks = [...Map.groupBy(this.#runs, ({ facts }) => facts.block ?? facts.date)].flatMap(([block, runs]) =>
      block === null ? [] : [{ block, runs, counts: Map.groupBy(runs, ({ facts }) => facts.variant) }],
    );
    const found = new Map<NumberedRun, Doubled>();
    const all = this.#names.length;
    const full = blocks.filter(({ runs, counts }) => runs.length === all && counts.size === all).length;
    if (all < 2 || full < wrongVariantLimits.fewestFullBlocks || full * 2 < blocks.length) return found;
    for (const { block, runs, counts } of blocks) {
      if (runs.length !== all || counts.size !== all - 1) continue;
      const lacking = this.#names.find((name) => !counts.has(name)) ?? "";
      for (const some of counts.values()) {
        const [one, other] = some;
        if (some.length !== 2 || one === undefined || other === undefined) continue;
        found.set(one, { block, lacking, twin: other });
        found.set(other, { block, lacking, twin: one });
      }
    }
    return found;
  }

  /** How much more the run's results fit the lacking variant than its own. */
  #leans(run: NumberedRun, { lacking }: Doubled, reference: Reference): number {
    const there: NumberedRun = { ...run, isCounted: false, facts: { ...run.facts, variant: lacking } };
    const items = run.phases.flatMap(({ phase }) =>
      reference.watched.flatMap((watched) => (telling.includes(watched.name) ? [{ watched, phase }] : [])),
    );
    const off = (of: NumberedRun, item: (typeof items)[number]) =>
      Math.min(2, judge(item, of, reference)?.excess ?? 0) ** 2;
    return items.reduce((total, item) => total + off(run, item) - off(there, item), 0);
  }

  /** The variant that the run's results fit, where they do not fit its own. */
  #like(
    run: NumberedRun,
    all: readonly Judged[],
    reference: Reference,
    fewest: number,
  ): { variant: string; off: number } | null {
    const items = all.filter(({ watched }) => telling.includes(watched.name));
    const own = items.map(({ excess }): number | null => excess);
    const isOff = own.map((excess) => excess !== null && excess > wrongVariantLimits.off);
    const off = isOff.filter(Boolean).length;
    if (off < fewest) return null;
    for (const variant of this.#names) {
      if (variant === run.facts.variant) continue;
      const there: NumberedRun = { ...run, isCounted: false, facts: { ...run.facts, variant } };
      const excesses = items.map((item) => judge(item, there, reference)?.excess ?? null);
      if (excesses.some((excess) => excess !== null && excess > wrongVariantLimits.off)) continue;
      if (items.some((_, index) => isOff[index] && !((excesses[index] ?? 1) < wrongVariantLimits.like))) continue;
      return { variant, off };
    }
    return null;
  }
}
