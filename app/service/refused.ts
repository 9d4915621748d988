import type { RefusedCell } from "../contract/index.ts";

/** Thrown where a request cannot be done for a reason that the asker can mend; the door turns it into a refusal. */
export class Refused extends Error {
  /** Where it is for what cells hold: which. */
  readonly cells: readonly RefusedCell[];

  constructor(message: string, cells: readonly RefusedCell[] = []) {
    super(message);
    this.cells = cells;
  }
}

/** Refuses a request with a sentence that says what happened and what to do. */
export function refuse(message: string, cells: readonly RefusedCell[] = []): never {
  throw new Refused(message, cells);
}
