import type { PhaseName, Run } from "../../../core/index.ts";
import type { Change, RunField, StoredPhase, StoredReading, StoredRun } from "../../store/content.ts";
import { storedRunWith } from "./stored-run.ts";

/** What a run does not know of itself. */
export interface ChangesPlace {
  readonly item: number;
  /** Item number and levels of the variant that the run now names. */
  readonly variant: number;
  readonly variantLevels: ReadonlyMap<string, string>;
  /** The next act that no reading of the study has. */
  readonly act: () => number;
}

/** Fields of a run, but for the levels. */
const fields = ["name", "variant", "method", "date", "order", "block", "operator", "leftOut"] as const;

/** Acts by the identifiers that `coreRun` gives: a known one stays, anything else is a new act. */
function actsOf(before: StoredRun, act: () => number): (reading: { id: string; value: number }) => StoredReading {
  const known = new Map<string, StoredReading>();
  for (const { readings } of before.phases) {
    for (const reading of readings.values()) known.set(String(reading.act), reading);
  }
  const made = new Map<string, StoredReading>();
  return ({ id, value }) => {
    const there = known.get(id) ?? made.get(id);
    if (there !== undefined && there.value === value) return there;
    const reading = { act: act(), value };
    made.set(id, reading);
    return reading;
  };
}

function isSameLevels(left: StoredRun["levels"], right: StoredRun["levels"]): boolean {
  return left.size === right.size && [...left].every(([factor, level]) => right.get(factor) === level);
}

function phaseChanges(item: number, before: StoredPhase, after: StoredPhase): Change[] {
  const { phase } = after;
  if (before.sourceRow !== after.sourceRow) return [{ subject: "phase", item, phase, after }];
  const changes: Change[] = [];
  if (before.timing !== after.timing) changes.push({ subject: "timing", item, phase, after: after.timing });
  for (const field of before.readings.keys()) {
    if (!after.readings.has(field)) changes.push({ subject: "reading", item, phase, field, after: null });
  }
  for (const [field, reading] of after.readings) {
    const there = before.readings.get(field);
    if (there !== undefined && there.act === reading.act && there.value === reading.value) continue;
    changes.push({ subject: "reading", item, phase, field, after: reading });
  }
  for (const field of before.texts.keys()) {
    if (!after.texts.has(field)) changes.push({ subject: "text", item, phase, field, after: null });
  }
  for (const [field, text] of after.texts) {
    if (before.texts.get(field) !== text) changes.push({ subject: "text", item, phase, field, after: text });
  }
  return changes;
}

/**
 * The fewest changes that make a stored run the run that `editedRun` made of it (of `coreRun(before)`): acts that are untouched
 * keep their number. Position and attachment are not the run's, and stay.
 */
export function changesOf(before: StoredRun, after: Run, at: ChangesPlace): Change[] {
  const { item, variant, variantLevels, act } = at;
  const { position, attachment } = before;
  const place = { position, variant, variantLevels, attachment };
  const target = storedRunWith(after, place, actsOf(before, act));
  const changes: Change[] = [];
  const setField = (field: RunField) => changes.push({ subject: "runField", item, field, after: target[field] });
  for (const field of fields) if (before[field] !== target[field]) setField(field);
  if (!isSameLevels(before.levels, target.levels)) setField("levels");
  const phases = (run: StoredRun) =>
    new Map<PhaseName, StoredPhase>(run.phases.map((phase) => [phase.phase, phase] as const));
  const [there, wanted] = [phases(before), phases(target)];
  for (const phase of there.keys()) {
    if (!wanted.has(phase)) changes.push({ subject: "phase", item, phase, after: null });
  }
  for (const [phase, stored] of wanted) {
    const former = there.get(phase);
    if (former === undefined) changes.push({ subject: "phase", item, phase, after: stored });
    else changes.push(...phaseChanges(item, former, stored));
  }
  return changes;
}
