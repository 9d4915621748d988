/**
 * Long work that pauses between its steps, so that whoever drives it may do something else meanwhile. What it is given must stay as
 * it is until it is done.
 */
export type InSteps<Result> = Generator<void, Result, void>;

/** The result of work in steps, without a pause. */
export function atOnce<Result>(steps: InSteps<Result>): Result {
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}
