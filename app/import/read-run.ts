import {
  type Method,
  massUnitDoubt,
  methodOfPhase,
  type Phase,
  type PhaseName,
  phaseFaults,
  phaseNames,
  type Settings,
} from "../../core/index.ts";
import type { FileColumns } from "./file-columns.ts";
import type { ProblemList } from "./problem-list.ts";
import { readPhase } from "./read-phase.ts";
import { potColumnNames } from "./read-pots.ts";
import { dateText, readDate } from "./read-time.ts";
import { rowTimes } from "./read-timing.ts";
import type { RowReader } from "./row-reader.ts";
import { firstDay, runMinutes } from "./run-clock.ts";
import { type RunValues, readRunValues } from "./run-values.ts";
import type { SettingsFile } from "./settings-file.ts";
import { runReadings, safeName } from "./shared-readings.ts";

/** `Cold start` is `cold-start`: capitals, and blanks or underscores for the hyphen, make no difference. */
export function phaseNamed(text: string): PhaseName | null {
  const plain = text.toLowerCase().replaceAll(/[\s_-]+/g, "-");
  return phaseNames.find((name) => name === plain) ?? null;
}

/** Columns whose masses tell the unit that they are in. */
const unitColumns: readonly (readonly [string, Parameters<typeof massUnitDoubt>[0]])[] = [
  ["fuel_start_g", "fuel"],
  ["fuel_end_g", "fuel"],
  ["char_container_g", "charContainer"],
  ["char_with_container_g", "charContainer"],
  ["char_g", "char"],
  ["char_at_start_g", "char"],
  ...potColumnNames.flatMap(({ empty, start, waterStart }) =>
    [empty, start, waterStart].map((name) => [name, "pot"] as const),
  ),
];

function askAboutUnits(row: RowReader, columns: FileColumns, list: ProblemList): void {
  for (const [name, what] of unitColumns) {
    const value = row.number(name);
    const doubt = value === null ? null : massUnitDoubt(what, value);
    const unit = columns.known.get(name)?.unit?.name ?? "g";
    const words = { cell: row.written(name), heading: row.place(name).column ?? name };
    if (doubt === "thousandth" && unit === "g") {
      list.question("mass-unit", row.place(name), list.words.cell.massThousandth(words));
    } else if (doubt === "thousandfold" && unit === "kg") {
      list.question("mass-unit", row.place(name), list.words.cell.massThousandfold(words));
    }
  }
}

export interface NamedRow {
  readonly row: RowReader;
  readonly phase: PhaseName | null;
}

/** What rows of one run say against each other: a phase twice, phases of both methods. */
function checkRows(run: string, rows: readonly NamedRow[], list: ProblemList): void {
  const firstOf = new Map<string, RowReader>();
  const accused = new Set<string>();
  const methods = new Map<Method, RowReader>();
  for (const { row, phase } of rows) {
    if (phase !== null && !methods.has(methodOfPhase(phase))) methods.set(methodOfPhase(phase), row);
  }
  const twice = (row: RowReader, phase: string, otherRow: number) =>
    row.error(
      "same-phase-twice",
      row.place("phase"),
      list.words.run.samePhaseTwice({ run, phase, row: row.row, otherRow }),
    );
  for (const { row, phase } of rows) {
    if (phase === null) continue;
    const other = methods.size > 1 ? methods.get(methodOfPhase(phase) === "wbt" ? "iso" : "wbt") : undefined;
    if (other !== undefined) {
      const message = list.words.run.bothMethods({ run, row: row.row, otherRow: other.row });
      row.error("both-methods", row.place("phase"), message);
    }
    const first = firstOf.get(phase);
    if (first === undefined) firstOf.set(phase, row);
    else {
      // Nobody knows which of the two is right, so both stand accused; the first one once.
      if (!accused.has(phase)) twice(first, phase, row.row);
      accused.add(phase);
      twice(row, phase, first.row);
    }
  }
}

const orderOfPhase = (phase: PhaseName | null) => (phase === null ? phaseNames.length : phaseNames.indexOf(phase));

const timeColumns: ReadonlySet<string> = new Set(["end", "boiled_at"]);

/** What the rows of a run are read with. */
export interface RunSource {
  readonly columns: FileColumns;
  readonly list: ProblemList;
  readonly settings: Pick<Settings | SettingsFile, "fuels" | "charNetCalorific" | "instruments">;
}

/** A row with the phase that it gives; where something cannot be read or is missing, its value is NaN. */
export interface PhaseDraft {
  readonly row: RowReader;
  readonly phase: Phase;
  readonly durationBeside: boolean;
}

/** One run as its rows give it, the faulty ones among them. */
export interface RunDraft {
  readonly id: string;
  readonly values: RunValues;
  /** The run's date, or that of its first dated moment. */
  readonly date: string | null;
  /** In the order of the procedure. */
  readonly phases: readonly PhaseDraft[];
}

/** Reads one run from its rows, and says what is wrong with them. */
export function draftRun(name: string, allRows: readonly NamedRow[], source: RunSource): RunDraft {
  const { columns, list, settings } = source;
  const values = readRunValues(
    allRows.map(({ row }) => row),
    columns,
    list,
  );
  const rows = allRows
    .filter(({ row }) => !row.leftOut)
    .toSorted((left, right) => orderOfPhase(left.phase) - orderOfPhase(right.phase) || left.row.row - right.row.row);
  checkRows(name, rows, list);

  const times = rows.map(({ row }) => rowTimes(row));
  const dateDay = values.date === null ? null : readDate(values.date);
  const day = dateDay ?? firstDay(times);
  const minutes = runMinutes(times, day);
  const runId = safeName(name);
  const readings = runReadings(runId);

  const drafts = rows.map(({ row, phase }, index) => {
    const source = {
      row,
      // A phase of unknown name is read as one about which no rule of the procedure speaks.
      phase: phase ?? ("medium-power" as const),
      readings,
      list,
      abandoned: values.leftOut !== null,
      kept: [],
    };
    const unknown = { start: Number.NaN, end: Number.NaN, boiledAt: Number.NaN };
    const noTimes = { start: null, end: null, boiledAt: null, unreadable: true };
    const read = readPhase(source, columns, runId, times[index] ?? noTimes, minutes[index] ?? unknown, dateDay);
    return { row, ...read };
  });

  // One of each name: a second one is an error already.
  const runPhases = [...new Map(drafts.toReversed().map(({ phase }) => [phase.phase, phase])).values()];
  for (const { row, phase } of drafts) {
    for (const { rule, finding } of phaseFaults(phase, { settings, runPhases })) {
      const place = row.place(finding.column);
      const said = finding.message(list.locale);
      // Times are told as the file writes them.
      const message = timeColumns.has(finding.column)
        ? list.words.cell.ofTimes({
            start: row.written("start"),
            cell: row.written(finding.column),
            column: finding.column,
            message: said,
          })
        : said;
      if (rule.mayHappenWhenAbandoned && values.leftOut !== null) list.question(rule.rule, place, message);
      else row.error(rule.rule, place, message);
    }
    askAboutUnits(row, columns, list);
  }

  return { id: runId, values, date: values.date ?? (day === null ? null : dateText(day)), phases: drafts };
}
