import type { Phase, Problem, Reading } from "../../../core/index.ts";
import { buildPhase } from "./build-phase.ts";
import { timeColumns } from "./phase-columns.ts";
import type { PhaseSheet } from "./phase-sheet.ts";
import { eachReading, textsOf, timingOf } from "./read-off-phase.ts";

const times: ReadonlySet<string> = new Set(timeColumns);

const isSameMoment = (left: number, right: number) => Math.round(left * 60_000) === Math.round(right * 60_000);

/** A phase as it stood and as its edited row reads. */
interface PhaseReread {
  readonly sheet: PhaseSheet;
  readonly after: Phase;
}

/** Readings that stay as they were, and those that the edit made, by column. */
interface Sorted {
  readonly kept: Map<string, Reading>;
  readonly made: Map<string, Reading>;
}

const timesEdited = ({ edited }: PhaseSheet) => timeColumns.some((column) => edited.has(column));

function sorted({ sheet, after }: PhaseReread, errors: readonly Problem[]): Sorted {
  const kept = new Map<string, Reading>();
  const made = new Map<string, Reading>();
  const { edited, readings } = sheet;
  const rereadTimes = timesEdited(sheet);
  if (!rereadTimes) {
    for (const column of timeColumns) {
      const before = readings.get(column);
      if (before !== undefined) kept.set(column, before);
    }
  }
  eachReading(after, (column, reading) => {
    const before = readings.get(column);
    if (times.has(column)) {
      if (!rereadTimes) return;
      // A clock time is read to the millisecond, and one of another day is another.
      if (before !== undefined && isSameMoment(before.value, reading.value)) kept.set(column, before);
      else made.set(column, reading);
    } else if (before !== undefined && (!edited.has(column) || before.value === reading.value)) {
      kept.set(column, before);
    } else made.set(column, reading);
  });
  // What was refused as it stands stood there before, and is not lost by an edit elsewhere.
  for (const { phase, column } of errors) {
    if (phase !== after.phase || column === null || edited.has(column)) continue;
    const before = readings.get(column);
    if (before !== undefined && !made.has(column)) kept.set(column, before);
  }
  return { kept, made };
}

/** Texts in the order in which they stood; new ones follow. */
function mergedTexts({ sheet, after }: PhaseReread): Map<string, string> {
  const reread = textsOf(after);
  const rereadTimes = timesEdited(sheet);
  const texts = new Map<string, string>();
  for (const [column, text] of sheet.texts) {
    const now = reread.get(column);
    if (times.has(column) && !rereadTimes) texts.set(column, text);
    else if (now !== undefined) texts.set(column, sheet.edited.has(column) ? now : text);
  }
  for (const [column, text] of reread) {
    if (!texts.has(column) && (rereadTimes || !times.has(column))) texts.set(column, text);
  }
  return texts;
}

/** Identifiers that no reading of the run has yet. */
function freshIdentifiers(sheets: readonly PhaseSheet[]): () => string {
  const taken = new Set<string>();
  for (const { readings } of sheets) for (const { id } of readings.values()) taken.add(id);
  let count = 0;
  return () => {
    do count += 1;
    while (taken.has(`entered ${count}`));
    return `entered ${count}`;
  };
}

/**
 * The phases of an edited run. Readings that were not edited stay what they are, value and identity. One that was takes the
 * identity of the reading that it is the same as by the rule of a readings file, or one of its own.
 */
export function mergedPhases(rereads: readonly PhaseReread[], errors: readonly Problem[]): Phase[] {
  const all = rereads.map((reread) => ({ ...reread, ...sorted(reread, errors) }));
  const fresh = freshIdentifiers(rereads.map(({ sheet }) => sheet));
  // By the identifier that reading the rows gave: what has one is one reading.
  const known = new Map<string, Reading>();
  for (const { after, kept } of all) {
    eachReading(after, (column, { id, value }) => {
      const reading = kept.get(column);
      if (reading !== undefined && reading.value === value && !known.has(id)) known.set(id, reading);
    });
  }
  return all.map(({ sheet, after, kept, made }) => {
    if (!sheet.isEdited) return sheet.before;
    const readings = new Map(kept);
    for (const [column, { id, value }] of made) {
      let reading = known.get(id);
      if (reading === undefined) {
        reading = { id: fresh(), value };
        known.set(id, reading);
      }
      readings.set(column, reading);
    }
    return buildPhase({
      id: sheet.before.id,
      phase: after.phase,
      timing: timingOf(timesEdited(sheet) ? after : sheet.before),
      sourceRow: sheet.before.sourceRow,
      readings,
      texts: mergedTexts({ sheet, after }),
      reading: (reading) => reading,
    });
  });
}
