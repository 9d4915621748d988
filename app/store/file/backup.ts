/** A copy of a study that the program made by itself. */
export interface Backup {
  /** Its file name: only what `listBackups` gives. */
  readonly id: string;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly bytes: number;
  readonly runs: number;
  /** Edits of its record; the making of the study is the first. */
  readonly edits: number;
  readonly why: "regular" | "beforeMigration" | "beforeGoingBack" | "atClose";
  /** It was opened again after it was made, checked to its end, and is as it was then. */
  readonly sound: boolean;
}
