import { drawsOf } from "./draws.ts";
import { RandomStream } from "./random-stream.ts";
import { sortValues } from "./sort-values.ts";
import { streamKey } from "./stream-key.ts";

const s = new RandomStream(),
  w = new Int32Array(2000);
const d = new Float64Array(1000);
const big = new Float64Array(60000);
let at = 0;
for (let b = 0; at < 60000; b++) {
  s.start(streamKey(1, "a"), b);
  drawsOf({ kind: "normal" })(s, d, w);
  for (const x of d) if (x < -1.55 && at < 60000) big[at++] = x;
}
const scratch = new Float64Array(70000),
  counts = new Int32Array(300000),
  where = new Int32Array(70000);
function variant(values: Float64Array, per: number, T: number[]) {
  const n = values.length;
  const t0 = performance.now();
  let lo = Infinity,
    hi = -Infinity;
  for (let i = 0; i < n; i++) {
    const v = values[i]!;
    if (v < lo) lo = v;
    if (v > hi) hi = v;
  }
  const k = Math.floor(n * per);
  const scale = (k - 1) / (hi - lo);
  counts.fill(0, 0, k + 1);
  const t1 = performance.now();
  T[0]! += t1 - t0;
  for (let i = 0; i < n; i++) {
    const b = ((values[i]! - lo) * scale) | 0;
    where[i] = b;
    counts[b] = counts[b]! + 1;
  }
  const t2 = performance.now();
  T[1]! += t2 - t1;
  let total = 0;
  for (let b = 0; b < k; b++) {
    const c = counts[b]!;
    counts[b] = total;
    total += c;
  }
  const t3 = performance.now();
  T[2]! += t3 - t2;
  for (let i = 0; i < n; i++) {
    const b = where[i]!;
    const p = counts[b]!;
    counts[b] = p + 1;
    scratch[p] = values[i]!;
  }
  const t4 = performance.now();
  T[3]! += t4 - t3;
  values[0] = scratch[0]!;
  let last = scratch[0]!;
  for (let i = 1; i < n; i++) {
    const v = scratch[i]!;
    if (v >= last) {
      values[i] = v;
      last = v;
      continue;
    }
    let p = i;
    while (p > 0 && values[p - 1]! > v) {
      values[p] = values[p - 1]!;
      p--;
    }
    values[p] = v;
  }
  const t5 = performance.now();
  T[4]! += t5 - t4;
}
for (const per of [0.33, 0.5, 1, 2, 4])
  for (let r = 0; r < 3; r++) {
    const T = [0, 0, 0, 0, 0];
    const t = performance.now();
    for (let k = 0; k < 40; k++) {
      const c = big.slice();
      variant(c, per, T);
    }
    if (r === 2)
      console.log(
        per,
        "ns/elem",
        (((performance.now() - t) / 40 / 60000) * 1e6).toFixed(1),
        T.map((x) => ((x / 40 / 60000) * 1e6).toFixed(1)).join(),
      );
  }
const A = new Float64Array(70000);
function lsd(values: Float64Array, bits: number, scratch: Float64Array, c1: Int32Array, c2: Int32Array) {
  const n = values.length;
  let lo = Infinity,
    hi = -Infinity;
  for (let i = 0; i < n; i++) {
    const v = values[i]!;
    if (v < lo) lo = v;
    if (v > hi) hi = v;
  }
  const size = 1 << bits,
    mask = size - 1;
  const scale = (size * size - 1) / (hi - lo);
  c1.fill(0);
  c2.fill(0);
  for (let i = 0; i < n; i++) {
    const b = ((values[i]! - lo) * scale) | 0;
    const x = b & mask,
      y = b >> bits;
    c1[x] = c1[x]! + 1;
    c2[y] = c2[y]! + 1;
  }
  let t1 = 0,
    t2 = 0;
  for (let b = 0; b < size; b++) {
    const x = c1[b]!;
    c1[b] = t1;
    t1 += x;
    const y = c2[b]!;
    c2[b] = t2;
    t2 += y;
  }
  for (let i = 0; i < n; i++) {
    const v = values[i]!;
    const b = ((v - lo) * scale) & mask;
    const p = c1[b]!;
    c1[b] = p + 1;
    scratch[p] = v;
  }
  for (let i = 0; i < n; i++) {
    const v = scratch[i]!;
    const b = ((v - lo) * scale) >> bits;
    const p = c2[b]!;
    c2[b] = p + 1;
    values[p] = v;
  }
  let last = values[0]!;
  for (let i = 1; i < n; i++) {
    const v = values[i]!;
    if (v >= last) {
      last = v;
      continue;
    }
    let p = i;
    while (p > 0 && values[p - 1]! > v) {
      values[p] = values[p - 1]!;
      p--;
    }
    values[p] = v;
  }
}
for (const bits of [8, 9, 10, 11]) {
  const c1 = new Int32Array(1 << bits),
    c2 = new Int32Array(1 << bits);
  for (let r = 0; r < 4; r++) {
    const t = performance.now();
    let c = big;
    for (let k = 0; k < 40; k++) {
      c = big.slice();
      lsd(c, bits, A, c1, c2);
    }
    if (r === 3) console.log("lsd", bits, "ns/elem", (((performance.now() - t) / 40 / 60000) * 1e6).toFixed(1));
    for (let i = 1; i < 60000; i++) if (c[i]! < c[i - 1]!) throw 1;
  }
}
