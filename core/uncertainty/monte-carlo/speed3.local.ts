import { drawsOf } from "./draws.ts";
import { momentsOf } from "./moments.ts";
import { RandomStream } from "./random-stream.ts";
import { sortValues } from "./sort-values.ts";
import { streamKey } from "./stream-key.ts";

const s = new RandomStream(),
  w = new Int32Array(2000);
const blocks = Array.from({ length: 70 }, (_, b) => {
  const d = new Float64Array(1000);
  s.start(streamKey(1, "a"), b);
  drawsOf({ kind: "normal" })(s, d, w);
  return d;
});
function keepLow(values: Float64Array, from: number, to: number, limit: number, kept: Float64Array, count: number) {
  let end = count;
  for (let at = from; at < to; at += 1) {
    const value = values[at] as number;
    if (!(value <= limit)) continue;
    kept[end] = value;
    end += 1;
  }
  return end;
}
const low = new Float64Array(2000),
  high = new Float64Array(2000);
let lc = 0,
  hc = 0;
function both(
  values: Float64Array,
  from: number,
  to: number,
  l: number,
  h: number,
  low: Float64Array,
  high: Float64Array,
) {
  let a = 0,
    b = 0;
  for (let at = from; at < to; at += 1) {
    const v = values[at] as number;
    if (v > l && v < h) continue;
    if (v <= l) {
      low[a] = v;
      a += 1;
    } else if (v >= h) {
      high[b] = v;
      b += 1;
    }
  }
  lc += a;
  hc += b;
}
function branchless(
  values: Float64Array,
  from: number,
  to: number,
  l: number,
  h: number,
  low: Float64Array,
  high: Float64Array,
) {
  let a = 0,
    b = 0;
  for (let at = from; at < to; at += 1) {
    const v = values[at] as number;
    low[a] = v;
    a += v <= l ? 1 : 0;
    high[b] = v;
    b += v >= h ? 1 : 0;
  }
  lc += a;
  hc += b;
}
function branchless1(values: Float64Array, from: number, to: number, l: number, low: Float64Array) {
  let a = 0;
  for (let at = from; at < to; at += 1) {
    const v = values[at] as number;
    low[a] = v;
    a = (a + Number(v <= l)) | 0;
  }
  lc += a;
}
function mid(values: Float64Array, from: number, to: number, c: number, hw: number, low: Float64Array) {
  let a = 0;
  for (let at = from; at < to; at += 1) {
    const v = values[at] as number;
    if (Math.abs(v - c) < hw) continue;
    low[a] = v;
    a += 1;
  }
  lc += a;
}
function m2mid(
  values: Float64Array,
  from: number,
  to: number,
  mean: number,
  l: number,
  h: number,
  low: Float64Array,
  into: any,
) {
  let a = 0,
    q = 0;
  for (let at = from; at < to; at += 1) {
    const v = values[at] as number;
    const d = v - mean;
    q += d * d;
    if (v > l && v < h) continue;
    low[a] = v;
    a += 1;
  }
  lc += a;
  into.squares = q;
}
const m = { count: 0, mean: 0, squares: 0 };
function time(name: string, f: (d: Float64Array) => void) {
  for (let r = 0; r < 3; r++) {
    const t = performance.now();
    for (let k = 0; k < 100; k++) for (const d of blocks) f(d);
    const e = (performance.now() - t) / 7;
    if (r === 2) console.log(name, e.toFixed(2), "ns");
  }
}
time("moments", (d) => momentsOf(d, 0, 1000, m));
time("keepLow", (d) => {
  keepLow(d, 0, 1000, -1.55, low, 0);
});
time("both", (d) => both(d, 0, 1000, -1.55, 1.55, low, high));
time("branchless", (d) => branchless(d, 0, 1000, -1.55, 1.55, low, high));
time("branchless1", (d) => branchless1(d, 0, 1000, -1.55, low));
time("mid", (d) => mid(d, 0, 1000, 0, 1.55, low));
time("m2mid", (d) => m2mid(d, 0, 1000, 0, -1.55, 1.55, low, m));
const big = new Float64Array(60000);
let at = 0;
while (at < 60000) {
  for (const d of blocks) for (const x of d) if (x < -1.55 && at < 60000) big[at++] = x + 1e-9 * at;
}
for (let r = 0; r < 3; r++) {
  let t = performance.now();
  for (let k = 0; k < 20; k++) {
    const c = big.slice();
    sortValues(c);
  }
  console.log("sort ns/elem", (((performance.now() - t) / 20 / 60000) * 1e6).toFixed(1));
  t = performance.now();
  for (let k = 0; k < 20; k++) {
    const c = big.slice();
    c.sort();
  }
  console.log("native ns/elem", (((performance.now() - t) / 20 / 60000) * 1e6).toFixed(1));
}
function sum1(values: Float64Array, from: number, to: number) {
  let s = 0;
  for (let at = from; at < to; at += 1) s += values[at] as number;
  return s;
}
function sum2(values: Float64Array, from: number, to: number) {
  let s = 0,
    t = 0;
  const half = (to - from) >> 1;
  for (let at = from; at < from + half; at += 1) {
    s += values[at] as number;
    t += values[at + half] as number;
  }
  return s + t;
}
function sum4(values: Float64Array, from: number, to: number) {
  let one = 0,
    two = 0,
    three = 0,
    four = 0;
  let at = from;
  for (; at + 3 < to; at += 4) {
    one += values[at] as number;
    two += values[at + 1] as number;
    three += values[at + 2] as number;
    four += values[at + 3] as number;
  }
  return one + two + three + four;
}
function oneq(values: Float64Array, from: number, to: number, c: number, into: any) {
  let s = 0,
    q = 0;
  for (let at = from; at < to; at += 1) {
    const d = (values[at] as number) - c;
    s += d;
    q += d * d;
  }
  into.mean = s;
  into.squares = q;
}
function oneqlh(
  values: Float64Array,
  from: number,
  to: number,
  c: number,
  l: number,
  h: number,
  low: Float64Array,
  into: any,
) {
  let s = 0,
    q = 0,
    a = 0;
  for (let at = from; at < to; at += 1) {
    const v = values[at] as number;
    const d = v - c;
    s += d;
    q += d * d;
    if (v > l && v < h) continue;
    low[a] = v;
    a += 1;
  }
  lc += a;
  into.mean = s;
  into.squares = q;
}
let sink = 0;
time("sum1", (d) => {
  sink += sum1(d, 0, 1000);
});
time("sum2", (d) => {
  sink += sum2(d, 0, 1000);
});
time("sum4", (d) => {
  sink += sum4(d, 0, 1000);
});
time("oneq", (d) => {
  oneq(d, 0, 1000, 0.1, m);
});
time("oneqlh", (d) => {
  oneqlh(d, 0, 1000, 0.1, -1.55, 1.55, low, m);
});
