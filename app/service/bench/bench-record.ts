import { type PhaseName, type ProcedureOptions, phaseNames, type Run } from "../../../core/index.ts";
import type { Change, StoredHead, StoredRemark, StudyDatabase } from "../../store/index.ts";
import type { ClockAnchor } from "./run-clock.ts";

/** How far a run on the Bench is: what its remark keeps. */
export interface BenchRecord extends ProcedureOptions {
  readonly state: "open" | "abandoned";
  /** By "PHASE COLUMN": when and by which clock it was stamped. */
  readonly anchors: Readonly<Record<string, ClockAnchor>>;
}

const isObject = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null;

function anchorOf(value: unknown): ClockAnchor | null {
  if (!isObject(value)) return null;
  const { wall, uptime, boot, text } = value;
  if (typeof wall !== "number" || typeof uptime !== "number" || typeof text !== "string") return null;
  return { wall, uptime, boot: typeof boot === "string" ? boot : null, text };
}

/** What a remark says of a run on the Bench; null where it is none of ours. */
function recordOf(value: unknown): BenchRecord | null {
  if (!isObject(value)) return null;
  const { state, pots, charAtHotStart, emissions, anchors } = value;
  if (state !== "open" && state !== "abandoned") return null;
  const known: Record<string, ClockAnchor> = {};
  for (const [key, one] of Object.entries(isObject(anchors) ? anchors : {})) {
    const anchor = anchorOf(one);
    if (anchor !== null) known[key] = anchor;
  }
  return {
    state,
    pots: pots === 2 || pots === 3 || pots === 4 ? pots : 1,
    charAtHotStart: charAtHotStart === true,
    emissions: emissions === true,
    anchors: known,
  };
}

/** The Bench's remark about a run, with its item number. */
export interface KeptRecord {
  readonly item: number;
  readonly record: BenchRecord;
}

export function benchRecord(head: StoredHead, run: number): KeptRecord | null {
  for (const [item, remark] of head.remarks) {
    if (remark.kind !== "bench" || remark.run !== run) continue;
    const record = recordOf(remark.value);
    if (record !== null) return { item, record };
  }
  return null;
}

/** All runs that are on the Bench, the abandoned ones too, by item number. */
export function benchRecords(head: StoredHead): ReadonlyMap<number, BenchRecord> {
  const found = new Map<number, BenchRecord>();
  for (const { kind, run, value } of head.remarks.values()) {
    const record = kind === "bench" && run !== null ? recordOf(value) : null;
    if (run !== null && record !== null) found.set(run, record);
  }
  return found;
}

/** Item numbers of the runs that are being made: on the Bench, and not abandoned. */
export function runsOnBench(head: StoredHead): ReadonlySet<number> {
  return new Set([...benchRecords(head)].flatMap(([run, { state }]) => (state === "open" ? [run] : [])));
}

/** Puts a record in the place of the one that is there, or takes it away. */
export function recordChange(
  run: number,
  there: KeptRecord | null,
  after: BenchRecord | null,
  database: StudyDatabase,
): Change[] {
  if (after === null) return there === null ? [] : [{ subject: "remark", item: there.item, after: null }];
  if (there !== null && JSON.stringify(there.record) === JSON.stringify(after)) return [];
  const remark: StoredRemark = { kind: "bench", run, value: after };
  return [{ subject: "remark", item: there?.item ?? database.nextItem("remark"), after: remark }];
}

/** The form of the sheet that a run's readings show, where nobody said which it is. */
export function formOf(run: Run): ProcedureOptions {
  const pots = run.phases.flatMap((phase) => phase.pots.map(({ pot }) => pot));
  const of = (name: PhaseName) => run.phases.find(({ phase }) => phase === name);
  return {
    pots: ([4, 3, 2] as const).find((pot) => pots.includes(pot)) ?? 1,
    charAtHotStart: of("hot-start")?.char != null || of("simmer")?.charAtStart != null,
    emissions: run.phases.some((phase) => phase.carbonMonoxide !== null || phase.particulateMatter !== null),
  };
}

/** The phases of a method, in the order of the procedure. */
export function phasesOf(method: Run["method"]): readonly PhaseName[] {
  return method === "wbt" ? phaseNames.slice(0, 3) : phaseNames.slice(3);
}
