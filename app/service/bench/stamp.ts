import { wordsFor } from "../../../core/index.ts";
import type { Edit } from "../../contract/index.ts";
import { refuse } from "../refused.ts";
import { runChanges } from "../study/edit-changes.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import { type BenchRecord, benchRecord, recordChange } from "./bench-record.ts";
import { cellsOf } from "./lasting-cells.ts";
import { machineTime } from "./machine-time.ts";
import { type ClockAnchor, clockTextOf, dateTextOf, type MachineTime, wallSince } from "./run-clock.ts";

/** The anchor of a stamped cell; null where none was kept, or another text stands there by now. */
export function anchorAt(
  { anchors }: BenchRecord,
  phase: string,
  column: string,
  cells: ReadonlyMap<string, string>,
): ClockAnchor | null {
  const key = `${phase} ${column}`;
  const anchor = Object.hasOwn(anchors, key) ? anchors[key] : undefined;
  if (anchor === undefined) return null;
  const there = cells.get(column);
  // A cell shows a dated time where the day matters, and no seconds where there are none.
  const plain = (text: string) =>
    text
      .replace(/^.*T/, "")
      .replace(/Z$/, "")
      .replace(/^(\d\d:\d\d)$/, "$1:00");
  return there !== undefined && plain(there) === plain(anchor.text) ? anchor : null;
}

/** Writes the time of now into a clock cell. */
export function stamp(
  { run: id, phase, column }: Omit<Extract<Edit, { kind: "stamp" }>, "kind">,
  { content, database, locale }: EditContext,
  now: MachineTime = machineTime(),
): Prepared {
  const words = wordsFor(locale);
  const item = Number(id);
  const { run } = content.run(item) ?? refuse(words.record.runGone);
  const kept = benchRecord(content.head, item);
  if (kept === null || kept.record.state !== "open") refuse(words.benchWork.notOnBench(run.name));
  if (!run.phases.some((one) => one.phase === phase)) refuse(words.benchWork.notAStep(run.name));
  const begun = column === "start" ? null : anchorAt(kept.record, phase, "start", cellsOf(run, phase));
  // A phase whose start was stamped goes on by that clock, so that its length is right whatever the time was set to.
  const wall = begun === null ? now.wall : wallSince(begun, now);
  const text = clockTextOf(wall);
  const cells = [
    { phase, column, text },
    ...(run.date === null ? [{ phase: null, column: "date", text: dateTextOf(wall) }] : []),
  ];
  const anchor: ClockAnchor = { wall: now.wall, uptime: now.uptime, boot: now.boot, text };
  const anchors = { ...kept.record.anchors, [`${phase} ${column}`]: anchor };
  return {
    note: { what: "stamp", about: { run: run.name, phase, column, at: text }, why: null },
    changes: [
      ...runChanges(item, cells, content, database, locale),
      ...recordChange(item, kept, { ...kept.record, anchors }, database),
    ],
  };
}
