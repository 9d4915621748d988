/** Thrown where a request cannot be done for a reason that the asker can mend; the door turns it into a refusal. */
export class Refused extends Error {}

/** Refuses a request with a sentence that says what happened and what to do. */
export function refuse(message: string): never {
  throw new Refused(message);
}
