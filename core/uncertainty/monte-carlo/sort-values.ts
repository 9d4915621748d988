/** Up to here the engine's own sort is as quick. */
const few = 200;
/** What insertion is left to put in order, at most, in one bucket. */
const smallBucket = 40;

let scratch = new Float64Array(0);
let starts = new Int32Array(0);

/**
 * Puts numbers in ascending order, in place: into buckets of equal width over where most of them lie, then by insertion. Several times
 * as quick as a general sort where the density is not too uneven; full buckets, and what lies far out, go to the general one. No NaN.
 */
export function sortValues(values: Float64Array): void {
  const { length } = values;
  const range = length <= few ? null : middleRange(values);
  if (range === null) {
    values.sort();
    return;
  }
  const buckets = 2 ** Math.ceil(Math.log2(length / 3));
  const { from, scale } = { from: range.from, scale: buckets / (range.to - range.from) };
  if (!Number.isFinite(scale) || !Number.isFinite(from)) {
    values.sort();
    return;
  }
  if (scratch.length < length) scratch = new Float64Array(length);
  if (starts.length < buckets + 1) starts = new Int32Array(buckets + 1);
  else starts.fill(0, 0, buckets + 1);
  distribute(values, scratch, starts, buckets, from, scale);
  // Each bucket now ends where the next one starts: `starts` holds ends.
  let start = 0;
  for (let bucket = 0; bucket < buckets; bucket += 1) {
    const end = starts[bucket] as number;
    if (end - start > smallBucket) scratch.subarray(start, end).sort();
    start = end;
  }
  insertInto(values, scratch);
}

/** Where most of the numbers lie, and somewhat beyond, judged by a few of them. */
function middleRange(values: Float64Array): { from: number; to: number } | null {
  const sampled = 64;
  const sample = Float64Array.from({ length: sampled }, (_, place) => {
    return values[Math.floor(((place + 0.5) * values.length) / sampled)] as number;
  }).sort();
  const low = sample[3] as number;
  const high = sample[sampled - 4] as number;
  const spread = high - low;
  return spread > 0 && Number.isFinite(spread) ? { from: low - 1.5 * spread, to: high + 1.5 * spread } : null;
}

function distribute(
  values: Float64Array,
  into: Float64Array,
  ends: Int32Array,
  buckets: number,
  from: number,
  scale: number,
): void {
  const last = buckets - 1;
  for (let at = 0; at < values.length; at += 1) {
    const bucket = Math.min(last, Math.max(0, ((values[at] as number) - from) * scale)) | 0;
    ends[bucket] = (ends[bucket] as number) + 1;
  }
  let total = 0;
  for (let bucket = 0; bucket < buckets; bucket += 1) {
    const count = ends[bucket] as number;
    ends[bucket] = total;
    total += count;
  }
  for (let at = 0; at < values.length; at += 1) {
    const value = values[at] as number;
    const bucket = Math.min(last, Math.max(0, (value - from) * scale)) | 0;
    const place = ends[bucket] as number;
    ends[bucket] = place + 1;
    into[place] = value;
  }
}

/** Fills `values` with the first numbers of `from`, each put before the greater ones that it meets. */
function insertInto(values: Float64Array, from: Float64Array): void {
  for (let at = 0; at < values.length; at += 1) {
    const value = from[at] as number;
    let place = at;
    while (place > 0 && (values[place - 1] as number) > value) {
      values[place] = values[place - 1] as number;
      place -= 1;
    }
    values[place] = value;
  }
}
