import { noncentralT } from "../../core/statistics/distribution/noncentral-t.ts";
import { normalQuantile } from "../../core/statistics/distribution/normal.ts";
// best guess for upper limit
for (const nu of [4, 10, 18]) for (const t of [-6, -3, -1, 0, 1, 3, 6]) {
  const { lowerTail } = noncentralT(t, nu);
  const w = normalQuantile(0.025);
  let lo = -50, hi = 50; for (let i = 0; i < 80; i++) { const m = (lo + hi) / 2; if (lowerTail(m) > 0.025) lo = m; else hi = m; }
  const spread = Math.sqrt(1 + t * t / (2 * nu));
  const c = 1 - 1 / (4 * nu);
  console.log(nu, t, "true", lo.toFixed(4), "g0", (t - w * spread - lo).toFixed(4), "g1", (t * c - w * Math.sqrt(1 + t * t / (2 * nu)) - lo).toFixed(4), "g2", (t * c - w * Math.sqrt(1 + t * t * (1 - c * c)) - lo).toFixed(4));
}
