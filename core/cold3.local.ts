import { studentTCritical, studentTTwoSidedTail } from "./statistics/distribution/student-t.ts";
import { noncentralityLimits } from "./statistics/distribution/noncentrality-limits.ts";
const t = (what: string, f: () => any) => { const s = performance.now(); const r = f(); console.log(what, (performance.now() - s).toFixed(1)); return r; };
for (let r = 0; r < 4; r++) {
t("crit 190", () => { let s = 0; for (let i = 0; i < 190; i++) s += studentTCritical(0.95, 5 + i / 38); return s; });
t("tail 190", () => { let s = 0; for (let i = 0; i < 190; i++) s += studentTTwoSidedTail(i / 40, 5 + i / 38); return s; });
t("nct 190", () => { let s = 0; for (let i = 0; i < 190; i++) s += noncentralityLimits(i / 40, 10, 0.95)!.lower; return s; });
}
