import { type Locale, type Phase, type Run, wordsFor } from "../../../core/index.ts";
import type { Edit } from "../../contract/index.ts";
import { refuse } from "../refused.ts";
import type { CellEdit } from "../stored/index.ts";
import { runChanges } from "../study/edit-changes.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import { blankPhase } from "./begin-run.ts";
import { type BenchRecord, benchRecord, formOf, phasesOf, recordChange } from "./bench-record.ts";
import { begunPhases, lacksOf } from "./lacks.ts";
import { lackingCells } from "./lasting-cells.ts";

function found(id: string, { content, locale }: EditContext) {
  const item = Number(id);
  const there = content.run(item) ?? refuse(wordsFor(locale).record.runGone);
  return { item, ...there, kept: benchRecord(content.head, item) };
}

/** What a finished run is made of: what the first phase has and later ones lack is theirs, and phases not begun are gone. */
function finished(run: Run, form: BenchRecord, locale: Locale): { readonly from: Run; readonly cells: CellEdit[] } {
  const begun = begunPhases(run, form);
  const from: Run = { ...run, phases: run.phases.filter(({ phase }) => begun.includes(phase)) };
  const cells = lackingCells(from, form);
  const lacks = lacksOf(from, form, locale, cells);
  if (lacks.length > 0) refuse(wordsFor(locale).benchWork.cannotFinish(run.name, lacks));
  return { from, cells };
}

/** The run counts; refused, naming it, while a needed reading lacks. */
export function finishRun(id: string, context: EditContext, what = "finishRun", why: string | null = null): Prepared {
  const { content, database, locale } = context;
  const { item, run, kept } = found(id, context);
  if (kept === null) refuse(wordsFor(locale).benchWork.notOnBench(run.name));
  const { from, cells } = finished(run, kept.record, locale);
  const changes = runChanges(
    item,
    [...cells, { phase: null, column: "excluded", text: "" }],
    content,
    database,
    locale,
    from,
  );
  return { note: { what, about: { run: run.name }, why }, changes };
}

/** The run stays as it is, left out with the reason. */
export function abandonRun(id: string, reason: string, context: EditContext, what = "abandonRun"): Prepared {
  const { content, database, locale } = context;
  const { item, run, kept } = found(id, context);
  const words = wordsFor(locale).benchWork;
  if (kept === null) refuse(run.leftOut === null ? words.counts(run.name) : words.alreadyAbandoned(run.name));
  if (kept.record.state === "abandoned") refuse(words.alreadyAbandoned(run.name));
  const cells = [{ phase: null, column: "excluded", text: reason }];
  return {
    note: { what, about: { run: run.name }, why: reason },
    changes: [
      ...runChanges(item, cells, content, database, locale),
      ...recordChange(item, kept, { ...kept.record, state: "abandoned" }, database),
    ],
  };
}

/** An abandoned run, or one that counts, is on the Bench again, with all phases of its method. */
export function takeUpRun(id: string, context: EditContext): Prepared {
  const { content, database, locale } = context;
  const { item, stored, run, kept } = found(id, context);
  const { notFinished, alreadyOnBench } = wordsFor(locale).benchWork;
  if (kept?.record.state === "open") refuse(alreadyOnBench(run.name));
  const missing = phasesOf(run.method).filter((phase) => !stored.phases.some((one) => one.phase === phase));
  const cells = [{ phase: null, column: "excluded", text: notFinished }];
  const changes = [
    ...missing.map((phase) => ({ subject: "phase", item, phase, after: blankPhase(phase) }) as const),
    ...runChanges(item, cells, content, database, locale),
  ];
  const record: BenchRecord = { anchors: {}, ...(kept?.record ?? formOf(run)), state: "open" };
  return {
    note: { what: "takeUpRun", about: { run: run.name }, why: null },
    changes: [...changes, ...recordChange(item, kept, record, database)],
  };
}

/** Of which form the sheet is; a pot that has readings cannot be taken off it. */
export function benchForm(edit: Extract<Edit, { kind: "benchForm" }>, context: EditContext): Prepared {
  const { locale, database } = context;
  const { item, run, kept } = found(edit.run, context);
  const words = wordsFor(locale).benchWork;
  if (kept === null || kept.record.state !== "open") refuse(words.notOnBench(run.name));
  const potsRead = run.phases.flatMap(({ pots }: Phase) => pots.map(({ pot }) => pot)).filter((pot) => pot > edit.pots);
  const [potRead] = potsRead;
  if (potRead !== undefined) refuse(words.potsHaveReadings(potRead));
  const { pots, charAtHotStart, emissions } = edit;
  return {
    note: { what: "benchForm", about: { run: run.name }, why: null },
    changes: recordChange(item, kept, { ...kept.record, pots, charAtHotStart, emissions }, database),
  };
}

/** Leaving out and bringing back of a run on the Bench: abandoning and finishing it. Null for other runs. */
export function countingOnBench(
  { kind, run: id, reason }: Extract<Edit, { kind: "leaveOut" | "bringBack" }>,
  context: EditContext,
): Prepared | null {
  const kept = benchRecord(context.content.head, Number(id));
  if (kept === null) return null;
  if (kind === "bringBack") return finishRun(id, context, "bringBack", reason);
  return kept.record.state === "open" ? abandonRun(id, reason, context, "leaveOut") : null;
}
