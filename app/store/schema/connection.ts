import { DatabaseSync, type SQLInputValue, type SQLOutputValue, type StatementSync } from "node:sqlite";
import { StoreFault } from "../fault.ts";

export type Row = Readonly<Record<string, SQLOutputValue>>;

/** How long to wait for another connection's transaction, ms. */
const busyTimeout = 5000;

/**
 * One connection to a database file, with statements prepared once. Values are bound, never spliced into SQL.
 *
 * `journal_mode=TRUNCATE` with `synchronous=EXTRA`: the one file is whole after every commit, and a commit returns when it is on
 * disk. `trusted_schema` off and defensive on: nothing that the file brings along is run or may change the schema's own table.
 */
export class Connection {
  readonly database: DatabaseSync;
  /** Off for a file of a later version, whose seals may be over more than is known here. */
  checksSeals = true;
  /** On for a damaged file: what can be read is read. */
  salvages = false;
  readonly #statements = new Map<string, StatementSync>();
  readonly #listStatements = new Map<string, StatementSync>();

  constructor(path: string, readOnly: boolean) {
    this.database = new DatabaseSync(path, {
      readOnly,
      defensive: true,
      timeout: busyTimeout,
      enableForeignKeyConstraints: true,
      enableDoubleQuotedStringLiterals: false,
      allowExtension: false,
    });
    try {
      this.database.exec(
        "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA temp_store = MEMORY; PRAGMA cache_size = -16384",
      );
      if (!readOnly) this.database.exec("PRAGMA journal_mode = TRUNCATE; PRAGMA synchronous = EXTRA");
    } catch (error) {
      this.database.close();
      throw error;
    }
  }

  #prepared(sql: string, statements = this.#statements): StatementSync {
    let statement = statements.get(sql);
    if (statement === undefined) {
      statement = this.database.prepare(sql);
      statements.set(sql, statement);
    }
    return statement;
  }

  /** Rows as lists of values, in the order of the columns: much faster than objects, for the largest tables. */
  lists(sql: string, ...values: readonly SQLInputValue[]): readonly (readonly SQLOutputValue[])[] {
    const statement = this.#prepared(sql, this.#listStatements);
    statement.setReturnArrays(true);
    return statement.all(...values) as unknown as readonly (readonly SQLOutputValue[])[];
  }

  all(sql: string, ...values: readonly SQLInputValue[]): readonly Row[] {
    return this.#prepared(sql).all(...values);
  }

  one(sql: string, ...values: readonly SQLInputValue[]): Row | undefined {
    return this.#prepared(sql).get(...values);
  }

  /** Rows one by one; the statement must not be used again before the last is taken. */
  each(sql: string, ...values: readonly SQLInputValue[]): Iterable<Row> {
    return this.#prepared(sql).iterate(...values);
  }

  /**
   * Writes. Texts with half a character (a lone surrogate) are refused: the file keeps UTF-8, which has no form for it, and would
   * silently hold another text.
   */
  write(sql: string, ...values: readonly SQLInputValue[]): void {
    for (const value of values) {
      if (typeof value === "string" && !value.isWellFormed()) {
        throw new StoreFault("refused", "a text holds half a character (a lone surrogate)");
      }
    }
    this.#prepared(sql).run(...values);
  }

  /** One number of one row: `PRAGMA user_version` and the like. */
  number(sql: string): number {
    return Number(Object.values(this.one(sql) ?? {})[0]);
  }

  /** Runs in one transaction that is on disk when this returns; where anything is thrown, nothing is changed. */
  transaction<T>(work: () => T): T {
    this.database.exec("BEGIN IMMEDIATE");
    try {
      const result = work();
      this.database.exec("COMMIT");
      return result;
    } catch (error) {
      this.#rollBack();
      throw error;
    }
  }

  /** SQLite has rolled back on its own after some faults, and may be unable to where the drive is gone. */
  #rollBack(): void {
    try {
      if (this.database.isTransaction) this.database.exec("ROLLBACK");
    } catch {
      // What led here is thrown by the caller, and says more. The journal is played back at the next open.
    }
  }

  /** A clean end leaves one file: the empty journal that TRUNCATE keeps is removed. */
  close(readOnly: boolean): void {
    if (!this.database.isOpen) return;
    this.#statements.clear();
    this.#listStatements.clear();
    if (!readOnly) {
      try {
        this.database.exec("PRAGMA journal_mode = DELETE");
      } catch {
        // Held by another connection, or the drive is gone: an empty journal may stay, and harms nothing.
      }
    }
    this.database.close();
  }
}
