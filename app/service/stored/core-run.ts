import type { Reading, Run } from "../../../core/index.ts";
import type { StoredReading, StoredRun, StoredVariant } from "../../store/content.ts";
import { buildPhase } from "./build-phase.ts";

const reading = ({ act, value }: StoredReading): Reading => ({ id: String(act), value });

/** The variant's levels, overlaid by the run's own; null takes one away. The variant's come first, in its order. */
function factorsOf(
  ofVariant: ReadonlyMap<string, string>,
  ofRun: ReadonlyMap<string, string | null>,
): ReadonlyMap<string, string> {
  // A run that says nothing of its own shares the variant's levels.
  if (ofRun.size === 0) return ofVariant;
  const factors = new Map(ofVariant);
  for (const [factor, level] of ofRun) {
    if (level === null) factors.delete(factor);
    else factors.set(factor, level);
  }
  return factors;
}

/**
 * A run as the core has it, the inverse of `storedRun`. Identifiers: the run's is its item number, a phase's `item/phase`, a
 * reading's its act. A needed reading that is not stored (which only a left-out run may lack) has no number: NaN.
 */
export function coreRun(stored: StoredRun, item: number, variant: StoredVariant): Run {
  return {
    id: String(item),
    name: stored.name,
    variant: variant.name,
    method: stored.method,
    date: stored.date,
    order: stored.order,
    block: stored.block,
    operator: stored.operator,
    factors: factorsOf(variant.levels, stored.levels),
    leftOut: stored.leftOut,
    phases: stored.phases.map(({ phase, timing, sourceRow, readings, texts }) =>
      buildPhase({ id: `${item}/${phase}`, phase, timing, sourceRow, readings, texts, reading }),
    ),
  };
}
