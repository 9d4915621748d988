import {
  fieldHelp,
  fieldName,
  furtherFuelFields,
  type Locale,
  type PhaseName,
  type ProcedureField,
  type ProcedureStep,
  procedureSteps,
  type Run,
  wordsFor,
} from "../../../core/index.ts";
import type { BenchFieldView, FurtherEntry, QuestionView } from "../../contract/index.ts";
import type { BenchRecord } from "./bench-record.ts";
import { entriesOf, isRecorded } from "./lacks.ts";
import { type KnownValues, offeredFor } from "./offered.ts";
import { specimensColumn } from "./specimens-column.ts";

/** What the fields of a run are shown with. */
export interface FieldSource {
  readonly run: Run;
  readonly record: BenchRecord;
  readonly cells: (phase: PhaseName) => ReadonlyMap<string, string>;
  readonly known: KnownValues;
  readonly usual: (field: ProcedureField) => string | null;
  readonly choices: (field: ProcedureField) => BenchFieldView["choices"];
  readonly questionsAt: (field: ProcedureField) => readonly QuestionView[];
  readonly locale: Locale;
}

/** A step with the fields of further fuel entries: those in which something stands, and those that are asked for. */
export interface FullStep extends ProcedureStep {
  readonly entries: ReadonlyMap<string, 2 | 3 | 4>;
  readonly nextEntry: 2 | 3 | 4 | null;
}

/** The steps of a run with the fields of its further fuel entries, each where its like of the main fuel is. */
export function fullSteps(
  run: Run,
  record: BenchRecord,
  cells: FieldSource["cells"],
  asked: readonly FurtherEntry[],
): FullStep[] {
  return procedureSteps(run.method, record).map((step): FullStep => {
    const { phase } = step;
    const there = phase === null ? [] : entriesOf(cells(phase));
    const wanted = ([2, 3, 4] as const).filter((entry) => {
      return there.includes(entry) || asked.some((one) => one.phase === phase && one.entry === entry);
    });
    const entries = new Map<string, 2 | 3 | 4>();
    const fields = step.fields.flatMap((field): ProcedureField[] => {
      const isStart = field.column === "fuel_start_g";
      if (phase === null || !(isStart || field.column === "fuel_end_g")) return [field];
      const further = wanted.flatMap((entry) => {
        const some = furtherFuelFields(phase, entry).filter(({ column }) => column.endsWith("_end_g") !== isStart);
        for (const { column } of some) entries.set(column, entry);
        return some;
      });
      return [field, ...further];
    });
    const nextEntry = ([2, 3, 4] as const).find((entry) => !there.includes(entry)) ?? null;
    return { ...step, fields, entries, nextEntry: phase === null ? null : nextEntry };
  });
}

/** Asked for where no boiling point was read. */
const altitude = "altitude_m";

/** Seldom noted: a key shows them. */
const rare = /^(run|order|block|date|humidity_percent|fuel_size_mm|wind)$/;

function isPassed(field: ProcedureField, { known, cells }: FieldSource, text: string): boolean {
  const { phase, column, begins } = field;
  if (begins?.stays === true) {
    // Passed as long as what was read once stands here too; the lid may be forgotten.
    const before = begins.phase === null ? new Map<string, string>() : cells(begins.phase);
    const columns = [begins.column, ...(field.otherBasis === null ? [] : [field.otherBasis])];
    const read = columns.find((one) => before.has(one));
    if (text === "") return read !== undefined || !field.needed;
    // On the same basis: 12 % of the dry wood is not 12 % of the wood as it is.
    return phase !== null && read !== undefined && cells(phase).get(read) === before.get(read);
  }
  if (rare.test(column)) return true;
  // Said when the run was begun.
  if (phase === null && text !== "") return true;
  if (column !== altitude || phase === null) return false;
  return (
    cells(phase).has("boiling_C") || known.sameDay?.cells.has("boiling_C") === true || known.setUp.has("boiling_C")
  );
}

/** A field of a step, with all that is shown of it. */
export function fieldView(field: ProcedureField, entry: 2 | 3 | 4 | null, source: FieldSource): BenchFieldView {
  const { run, record, cells, known, locale } = source;
  const { phase, column, otherBasis } = field;
  const { pots } = record;
  const first = run.phases[0]?.phase ?? null;
  const where = phase ?? first;
  const there = where === null ? new Map<string, string>() : cells(where);
  const help = fieldHelp(field, pots, run.method, locale);
  const words = wordsFor(locale).benchWork;
  const number = entry ?? (/^(fuel|fuel_start_g|fuel_end_g|moisture_\w+)$/.test(column) && phase !== null ? 1 : null);
  const isOtherIn = otherBasis !== null && there.has(otherBasis);
  const isMoisture = otherBasis !== null;
  const text = there.get(isOtherIn ? otherBasis : column) ?? "";
  return {
    phase,
    column,
    name: help.name,
    what: help.what,
    how: help.how,
    feeds: help.feedsSentence,
    group: field.group,
    unit: field.unit,
    needed: field.needed,
    text,
    offered: text === "" ? offeredFor(field, known, locale) : null,
    usual: source.usual(isOtherIn ? { ...field, column: otherBasis } : field),
    choices: source.choices(field),
    isPassed: isPassed(field, source, text),
    insteadOf: column === altitude && text === "" ? "boiling_C" : null,
    other:
      otherBasis === null
        ? null
        : {
            column: otherBasis,
            name: `${fieldName({ phase, column: otherBasis }, pots, locale)}, ${words.dry}`,
            here: words.otherBasisHere.wet,
            isIn: isOtherIn,
          },
    specimens: isMoisture ? (there.get(specimensColumn(number ?? 1)) ?? null) : null,
    entry: number,
    questions: source.questionsAt(field),
  };
}

/** Whether nothing that a step needs lacks. */
export function isStepDone(step: FullStep, cells: FieldSource["cells"], first: PhaseName | null): boolean {
  const at = (phase: PhaseName | null) => {
    const where = phase ?? first;
    return where === null ? new Map<string, string>() : cells(where);
  };
  const lacks = step.fields.some((field) => {
    // An entry that was only asked for lacks nothing.
    const entry = step.entries.get(field.column);
    if (entry !== undefined && !entriesOf(at(field.phase)).includes(entry)) return false;
    return field.needed && !isRecorded(at(field.phase), field);
  });
  if (lacks) return false;
  const { phase, clock } = step;
  if (phase === null || clock === null) return true;
  return at(phase).has(clock.column) || at(phase).has("end");
}
