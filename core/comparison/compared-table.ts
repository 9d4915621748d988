/** One run of a table that is compared. */
export interface ComparedRow {
  /** As a spreadsheet counts, so that a person finds it again. */
  readonly row: number;
  readonly value: number;
  /** The variant that it belongs to. */
  readonly level: string;
  /** Null where no blocks were asked for. */
  readonly block: string | null;
  /** Levels of the design factors, in the order of the table's. */
  readonly factors: readonly string[];
  /** Place in time; null where the table says none. */
  readonly order: number | null;
}

/** A table of results, one row a run, from this program or not. Rows that do not count are named, not held. */
export interface ComparedTable {
  /** Heading of the column of values, and of the one by which runs are variants. */
  readonly value: string;
  readonly by: string;
  /** Whether blocks were asked for. */
  readonly hasBlocks: boolean;
  /** Names of the design factors asked for. */
  readonly factors: readonly string[];
  readonly rows: readonly ComparedRow[];
  readonly leftOut: readonly { readonly row: number; readonly reason: string }[];
  /** Rows whose value is empty. */
  readonly withoutValue: readonly number[];
  /** How many blocks a column of that name tells apart although none was asked for. */
  readonly blocksIgnored: number;
}
