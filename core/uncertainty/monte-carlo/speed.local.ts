import { drawsOf } from "./draws.ts";
import { RandomStream } from "./random-stream.ts";
import { streamKey } from "./stream-key.ts";

const key = streamKey(1, "a");
const s = new RandomStream();
const d = new Float64Array(1000);
const w = new Int32Array(2000);
for (let r = 0; r < 3; r++) {
  let t = performance.now();
  for (let b = 0; b < 1000; b++) {
    s.start(key, b);
  }
  console.log("start ns/block", (performance.now() - t) * 1e3);
  t = performance.now();
  for (let b = 0; b < 1000; b++) {
    s.start(key, b);
    s.fill(w);
  }
  console.log("words ns/draw", performance.now() - t);
  for (const dist of [
    { kind: "normal" },
    { kind: "rectangular" },
    { kind: "triangular" },
    { kind: "arcsine" },
    { kind: "t", degreesOfFreedom: 4 },
    { kind: "curvilinearTrapezoid", inexactness: 0.3 },
  ] as const) {
    const f = drawsOf(dist);
    let m = 0,
      q = 0;
    t = performance.now();
    for (let b = 0; b < 1000; b++) {
      s.start(key, b);
      f(s, d, w);
    }
    const e = performance.now() - t;
    for (let b = 0; b < 1000; b++) {
      s.start(key, b);
      f(s, d, w);
      for (const x of d) {
        m += x;
        q += x * x;
      }
    }
    console.log(dist.kind, "ns", e.toFixed(2), m / 1e6, q / 1e6);
  }
}
