import type { PhaseName } from "../../../core/index.ts";
import type { EditNote, RecordedChange, RecordedEdit, Subject } from "../content.ts";
import type { Connection, Row } from "../schema/connection.ts";
import { parsed } from "./content-text.ts";
import type { Place } from "./place.ts";
import { changeSeal } from "./seal.ts";

/** The end of the record: its last row. */
export interface RecordEnd {
  readonly id: number;
  readonly edit: number;
  /** Empty where there is no row. */
  readonly seal: string;
}

export function readRecordEnd(connection: Connection): RecordEnd {
  const row = connection.one("SELECT id, edit, seal FROM change ORDER BY id DESC LIMIT 1");
  if (row === undefined) return { id: 0, edit: 0, seal: "" };
  return { id: row.id as number, edit: row.edit as number, seal: row.seal as string };
}

/** A row of the record, but its number, its seal and what it shares with the other rows of its edit. */
export interface LoggedChange extends Place {
  readonly before: string | null;
  readonly after: string | null;
  /** For a text that stood there: how many stood before it. */
  readonly place: number | null;
}

/** Columns of `change` in the order in which they are sealed. */
export const changeColumns = [
  ...["id", "edit", "step", "at", "who", "way", "of_edit", "what", "about", "why"],
  ...["subject", "item", "phase", "field", '"before"', '"after"', "place"],
] as const;

const insertion = `INSERT INTO change (${changeColumns.join(", ")}, seal) VALUES (${changeColumns.map(() => "?").join(", ")}, ?)`;

/** Writes the rows of one edit, each sealed with the one before. */
export class EditLog {
  readonly edit: RecordedEdit;
  readonly #connection: Connection;
  readonly #about: string;
  #end: RecordEnd;
  #step = 0;

  constructor(connection: Connection, end: RecordEnd, edit: RecordedEdit) {
    this.#connection = connection;
    this.#end = end;
    this.#about = JSON.stringify(edit.about);
    this.edit = edit;
  }

  add(change: LoggedChange): void {
    const { edit, at, who, way, of, what, why } = this.edit;
    const { subject, item, phase, field, before, after, place } = change;
    const id = this.#end.id + 1;
    const row = [
      ...[id, edit, this.#step, at, who, way, of, what, this.#about, why],
      ...[subject, item, phase, field, before, after, place],
    ];
    const seal = changeSeal(this.#end.seal, row);
    this.#connection.write(insertion, ...row, seal);
    this.#end = { id, edit, seal };
    this.#step += 1;
  }

  get isEmpty(): boolean {
    return this.#step === 0;
  }

  get end(): RecordEnd {
    return this.#end;
  }
}

export const editColumns = "edit, at, who, way, of_edit, what, about, why";

export const editOfRow = (row: Row): RecordedEdit => ({
  edit: row.edit as number,
  at: row.at as string,
  who: row.who as string,
  way: row.way as RecordedEdit["way"],
  of: row.of_edit as number | null,
  what: row.what as string,
  about: parsed(row.about as string) as EditNote["about"],
  why: row.why as string | null,
});

/** A row with its texts as they stand in the file. */
export interface ChangeRow {
  readonly edit: RecordedEdit;
  readonly change: LoggedChange;
}

const logged = (row: Row): LoggedChange => ({
  subject: row.subject as Subject,
  item: row.item as number | null,
  phase: row.phase as PhaseName | null,
  field: row.field as string | null,
  before: row.before as string | null,
  after: row.after as string | null,
  place: row.place as number | null,
});

export const rowColumns = `${editColumns}, subject, item, phase, field, "before", "after", place`;

export const changeRowOf = (row: Row): ChangeRow => ({ edit: editOfRow(row), change: logged(row) });

export function recordedChange({ edit, change }: ChangeRow): RecordedChange {
  const { subject, item, phase, field, before, after } = change;
  const read = (text: string | null): unknown => (text === null ? null : parsed(text));
  return { ...edit, subject, item, phase, field, before: read(before), after: read(after) };
}

/** Rows of one edit in the order in which they were made. */
export const rowsOf = (connection: Connection, edit: number): ChangeRow[] =>
  connection.all(`SELECT ${rowColumns} FROM change WHERE edit = ? ORDER BY step`, edit).map(changeRowOf);

/** Edits before a number (null: all), newest first. */
export const readEdits = (connection: Connection, limit: number, before: number | null): RecordedEdit[] =>
  connection
    .all(
      `SELECT ${editColumns} FROM change WHERE step = 0 AND edit < ? ORDER BY edit DESC LIMIT ?`,
      ...[before ?? Number.MAX_SAFE_INTEGER, limit],
    )
    .map(editOfRow);

export function readEdit(connection: Connection, edit: number): RecordedEdit | null {
  const row = connection.one(`SELECT ${editColumns} FROM change WHERE edit = ? AND step = 0`, edit);
  return row === undefined ? null : editOfRow(row);
}

/** What an edit changed. */
export function subjectsOf(connection: Connection, edit: number): Set<Subject> {
  const rows = connection.all("SELECT DISTINCT subject FROM change WHERE edit = ?", edit);
  return new Set(rows.map((row) => row.subject as Subject));
}
