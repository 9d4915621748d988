import type { Phase, Reading, Run } from "../../../core/index.ts";
import type { StoredPhase, StoredReading, StoredRun } from "../../store/content.ts";
import { eachReading, textsOf, timingOf } from "./read-off-phase.ts";

/** Where a run stands in the study, which the run itself does not know. */
export interface RunPlace {
  readonly position: number;
  /** Item number of its variant. */
  readonly variant: number;
  readonly variantLevels: ReadonlyMap<string, string>;
  readonly attachment: number | null;
}

const noLevels: ReadonlyMap<string, string | null> = new Map();

/** Levels in which a run differs from its variant. */
function levelsOf(
  factors: ReadonlyMap<string, string>,
  ofVariant: ReadonlyMap<string, string>,
): ReadonlyMap<string, string | null> {
  let levels: Map<string, string | null> | null = null;
  for (const [factor, level] of factors) {
    if (ofVariant.get(factor) === level) continue;
    levels ??= new Map();
    levels.set(factor, level);
  }
  for (const factor of ofVariant.keys()) {
    if (factors.has(factor)) continue;
    levels ??= new Map();
    levels.set(factor, null);
  }
  return levels ?? noLevels;
}

function storedPhase(phase: Phase, stored: (reading: Reading) => StoredReading): StoredPhase {
  const readings = new Map<string, StoredReading>();
  eachReading(phase, (column, reading) => readings.set(column, stored(reading)));
  return {
    phase: phase.phase,
    timing: timingOf(phase),
    sourceRow: phase.sourceRow,
    readings,
    texts: textsOf(phase),
  };
}

/** Largest order that a study file takes, as its schema has it; readings are bounded by the rules for each. */
const largestOrder = 1e12;

/** Whether the file takes the run's order: no rule of readings bounds it. */
export const isOrderKept = ({ order }: Run): boolean => order === null || Math.abs(order) <= largestOrder;

/** A run as it is stored, each reading by what `stored` says. */
export function storedRunWith(run: Run, place: RunPlace, stored: (reading: Reading) => StoredReading): StoredRun {
  return {
    name: run.name,
    position: place.position,
    variant: place.variant,
    method: run.method,
    date: run.date,
    order: run.order,
    block: run.block,
    operator: run.operator,
    leftOut: run.leftOut,
    levels: levelsOf(run.factors, place.variantLevels),
    attachment: place.attachment,
    phases: run.phases.map((phase) => storedPhase(phase, stored)),
  };
}

/**
 * Everything that is in a run, as it is stored: readings by their column in the layout's units, times in minutes, texts by
 * column. Readings of one `id` are one act. At most four fuel entries a phase, as the layout has.
 */
export function storedRun(run: Run, at: RunPlace & { readonly act: () => number }): StoredRun {
  const known = new Map<string, StoredReading>();
  return storedRunWith(run, at, ({ id, value }) => {
    let reading = known.get(id);
    if (reading === undefined) {
      reading = { act: at.act(), value };
      known.set(id, reading);
    }
    return reading;
  });
}
