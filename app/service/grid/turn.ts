import type { StudySession } from "../study/study-session.ts";

/** How long a slice of long work may take, in milliseconds, before others have their turn. */
const slice = 12;

/** Parts long work into slices: `if (turn.isOver) await turn.pause()` between its steps. */
export class Turn {
  readonly #session: Pick<StudySession, "pause">;
  #since = performance.now();

  constructor(session: Pick<StudySession, "pause">) {
    this.#session = session;
  }

  get isOver(): boolean {
    return performance.now() - this.#since >= slice;
  }

  /** Others have their turn. Refused where the study was closed meanwhile. */
  async pause(): Promise<void> {
    await this.#session.pause();
    this.#since = performance.now();
  }
}

/** So many are sorted, or merged, without looking at the clock. */
const atOnce = 500;

/** The items in order, equal ones as they stood; with pauses. */
export async function sortedInSlices<T>(
  items: readonly T[],
  compare: (one: T, other: T) => number,
  turn: Turn,
): Promise<readonly T[]> {
  let sorted: (readonly T[])[] = [];
  for (let from = 0; from < items.length; from += atOnce) {
    sorted.push(items.slice(from, from + atOnce).sort(compare));
    if (turn.isOver) await turn.pause();
  }
  while (sorted.length > 1) {
    const merged: (readonly T[])[] = [];
    for (let index = 0; index < sorted.length; index += 2) {
      merged.push(await mergedInSlices(sorted[index] ?? [], sorted[index + 1] ?? [], compare, turn));
    }
    sorted = merged;
  }
  return sorted[0] ?? [];
}

async function mergedInSlices<T>(
  left: readonly T[],
  right: readonly T[],
  compare: (one: T, other: T) => number,
  turn: Turn,
): Promise<readonly T[]> {
  const merged: T[] = [];
  let [atLeft, atRight] = [0, 0];
  while (atLeft < left.length && atRight < right.length) {
    const [one, other] = [left[atLeft] as T, right[atRight] as T];
    if (compare(one, other) <= 0) {
      merged.push(one);
      atLeft += 1;
    } else {
      merged.push(other);
      atRight += 1;
    }
    if (merged.length % atOnce === 0 && turn.isOver) await turn.pause();
  }
  for (; atLeft < left.length; atLeft += 1) merged.push(left[atLeft] as T);
  for (; atRight < right.length; atRight += 1) merged.push(right[atRight] as T);
  return merged;
}
