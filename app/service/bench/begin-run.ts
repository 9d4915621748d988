import { type ProcedureOptions, type Run, type RunFacts, wordsFor } from "../../../core/index.ts";
import type { BenchBeginView } from "../../contract/index.ts";
import type { Change, StoredPhase, StoredRun } from "../../store/index.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import type { StudyContent } from "../study/study-content.ts";
import { type BenchRecord, benchRecord, formOf, phasesOf, recordChange } from "./bench-record.ts";
import { machineTime } from "./machine-time.ts";
import { dateTextOf, type MachineTime } from "./run-clock.ts";

/** A phase in which nothing stands yet. */
export function blankPhase(phase: StoredPhase["phase"]): StoredPhase {
  return { phase, timing: "time", sourceRow: null, readings: new Map(), texts: new Map() };
}

/** Next free number in the manner of the study's names: after "R24" comes "R25"; "1" where no name ends in a number. */
export function nextRunName(names: readonly string[], latest: string | null): string {
  const [, stem = "", digits = ""] = /^(.*?)(\d{1,9})$/s.exec(latest ?? "") ?? [];
  const numbers = names.flatMap((name) => {
    const rest = name.startsWith(stem) ? name.slice(stem.length) : "";
    return /^\d{1,9}$/.test(rest) ? [Number(rest)] : [];
  });
  const taken = new Set(names);
  for (let number = numbers.reduce((most, one) => Math.max(most, one), 0) + 1; ; number += 1) {
    const name = `${stem}${String(number).padStart(digits.startsWith("0") ? digits.length : 1, "0")}`;
    if (!taken.has(name)) return name;
  }
}

/** The run that was made last: by order, or else by its place in the study. */
export function latestRun(content: StudyContent): RunFacts | null {
  const facts = content.facts();
  const ordered = facts.filter(({ order }) => order !== null);
  if (ordered.length === 0) return facts.at(-1) ?? null;
  return ordered.reduce((latest, one) => ((one.order ?? 0) >= (latest.order ?? 0) ? one : latest));
}

function nextName(content: StudyContent): string {
  return nextRunName(
    content.lines().map(({ name }) => name),
    latestRun(content)?.name ?? content.lines().at(-1)?.name ?? null,
  );
}

/** The form that the latest run had. */
function latestForm(content: StudyContent): ProcedureOptions {
  const latest = latestRun(content);
  if (latest === null) return { pots: 1, charAtHotStart: false, emissions: false };
  const item = Number(latest.id);
  const record = benchRecord(content.head, item)?.record;
  if (record !== undefined) return record;
  const found = content.run(item);
  return found === null ? { pots: 1, charAtHotStart: false, emissions: false } : formOf(found.run);
}

/** What a new run would begin with. */
export function beginView(content: StudyContent): BenchBeginView {
  const { pots, charAtHotStart, emissions } = latestForm(content);
  const variants = [...content.head.variants.values()].sort((one, other) => one.position - other.position);
  return {
    run: nextName(content),
    variants: variants.map(({ name }) => name),
    variant: latestRun(content)?.variant ?? variants[0]?.name ?? null,
    ...{ pots, charAtHotStart, emissions },
  };
}

export type BeginRun = { readonly variant: string } & ProcedureOptions;

/** Begins a run: all phases of the study's method, nothing read, left out until it is finished. */
export function beginRun(
  { variant: name, pots, charAtHotStart, emissions }: BeginRun,
  { content, database, who, locale }: EditContext,
  now: MachineTime = machineTime(),
): Prepared {
  const { head } = content;
  const facts = content.facts();
  const date = dateTextOf(now.wall);
  const latestOfDay = facts
    .filter((run) => run.date === date)
    .reduce<RunFacts | null>((latest, one) => ((one.order ?? 0) >= (latest?.order ?? 0) ? one : latest), null);
  const known = [...head.variants].find(([, variant]) => variant.name === name);
  const variant = known?.[0] ?? database.nextItem("variant");
  const position = Math.max(-1, ...[...head.variants.values()].map((one) => one.position)) + 1;
  const item = database.nextItem("run");
  const run: StoredRun = {
    name: nextName(content),
    position: content.lines().reduce((most, line) => Math.max(most, line.position), -1) + 1,
    variant,
    method: head.method,
    date,
    order: Math.floor(facts.reduce((most, { order }) => Math.max(most, order ?? 0), 0)) + 1,
    block: latestOfDay?.block ?? null,
    operator: who,
    leftOut: wordsFor(locale).benchWork.notFinished,
    levels: new Map(),
    attachment: null,
    phases: phasesOf(head.method).map(blankPhase),
  };
  const record: BenchRecord = { state: "open", pots, charAtHotStart, emissions, anchors: {} };
  const changes: Change[] = [
    ...(known === undefined
      ? [{ subject: "variant", item: variant, after: { name, position, levels: new Map() } } as const]
      : []),
    { subject: "run", item, after: run },
    ...recordChange(item, null, record, database),
  ];
  return {
    note: { what: "beginRun", about: { run: run.name, variant: name }, why: null },
    changes,
    run: String(item),
  };
}

/** Whether anything stands in a phase beside what is read once for the run. */
export function isBegun(
  run: Run,
  phase: Run["phases"][number]["phase"],
  cells: ReadonlyMap<string, string>,
  lasting: ReadonlySet<string>,
): boolean {
  const [first] = run.phases;
  const own = [...cells.keys()].filter((column) => !runWide.has(column) && !column.startsWith("factor:"));
  if (first?.phase === phase) return own.length > 0;
  return own.some((column) => !lasting.has(column));
}

const runWide: ReadonlySet<string> = new Set([
  ...["run", "variant", "phase", "date", "order", "block", "operator", "excluded"],
]);
