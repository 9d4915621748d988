/** A numbered step of the schema. Never edited after release: files were made by it as it is. */
export interface Migration {
  /** 1, 2, …: the version of the schema that it leads to. */
  readonly number: number;
  readonly sql: string;
  /** SHA-256 of `sql`, 64 hex letters. */
  readonly checksum: string;
}
