/** An interval of an output's values, in its unit. An end is infinite where so many trials are. */
export interface ValueInterval {
  readonly lower: number;
  readonly upper: number;
}

/** How many of `trials` ordered values an interval of level `confidence` spans: its ends are `spanned` places apart. */
export function spannedTrials(trials: number, confidence: number): number {
  // pM where that is a whole number, else the whole part of pM + 1/2 (JCGM 101:2008, 7.7.2).
  return Math.floor(confidence * trials + 0.5);
}

/**
 * The probabilistically symmetric interval: from y(r) to y(r + q), r = (M - q)/2, or the whole part of (M - q + 1)/2.
 *
 * @param smallest the M - q smallest values in ascending order
 * @param largest the M - q largest ones, likewise
 *
 * Source: JCGM 101:2008, 7.7.3.
 */
export function symmetricInterval(smallest: Float64Array, largest: Float64Array): ValueInterval | null {
  const rank = Math.floor((smallest.length + 1) / 2);
  const lower = smallest[rank - 1];
  const upper = largest[rank - 1];
  return lower === undefined || upper === undefined ? null : { lower, upper };
}

/**
 * The shortest interval: from y(r) to y(r + q) with the least difference over r = 1 to M - q; the first of several.
 *
 * Source: JCGM 101:2008, 7.7.4. Arguments as those of {@link symmetricInterval}.
 */
export function shortestInterval(smallest: Float64Array, largest: Float64Array): ValueInterval | null {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < smallest.length; at += 1) {
    const width = (largest[at] as number) - (smallest[at] as number);
    if (width < least) {
      least = width;
      best = at;
    }
  }
  const lower = smallest[best];
  const upper = largest[best];
  return lower === undefined || upper === undefined ? null : { lower, upper };
}
