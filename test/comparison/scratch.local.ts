import { readFileSync } from "node:fs";
import { readComparisonTable } from "../../app/import/read-comparison-table.ts";
import { compareTable } from "../../core/index.ts";

const dir = process.argv[2]!;
const lines = readFileSync(`${dir}/input.csv`, "utf8")
  .trim()
  .split("\n")
  .slice(1)
  .map((l) => l.split(","));
const parsed = JSON.parse(readFileSync(`${dir}/expected.json`, "utf8"));
const cases = Array.isArray(parsed) ? parsed : parsed.cases;
let n = 0,
  bad = 0;
for (const [name, baseline, block, factors, margin, conf] of lines as string[][]) {
  const read = readComparisonTable(readFileSync(`${dir}/tables/${name}.csv`), `${name}.csv`, {
    value: "value",
    by: "variant",
    block: block || null,
    factors: factors ? factors.split(" ") : [],
  });
  if (!read.table) {
    console.log(
      name,
      read.problems.map((p) => p.message),
    );
    continue;
  }
  const c: any = compareTable(
    read.table,
    {
      baseline: baseline || null,
      margin: margin ? Number(margin) : null,
      confidence: Number(conf),
      resampling: { resamples: 1000, seed: 1 },
    },
    "en",
  );
  const exp = cases.find((x: any) => x.case === name);
  for (const [path, e] of Object.entries(exp)) {
    if (path === "case") continue;
    let v: any = c;
    for (const k of path.split("|"))
      v = Array.isArray(v)
        ? /^\d+$/.test(k)
          ? v[+k]
          : v.find((o: any) => (o.level === undefined ? o.term : `${o.term} ${o.level}`) === k)
        : v?.[k];
    n++;
    const tol = /\|(p|holmP|smallestP)$/.test(path) ? 1e-4 : 1e-6;
    if (
      e === null
        ? v !== null
        : typeof v !== "number" || Math.abs(v - (e as number)) > tol * Math.abs(e as number) + 1e-9
    ) {
      bad++;
      console.log(name, path, "R", e, "ours", v);
    }
  }
  if (process.argv[3]) {
    console.log(`\n== ${name}: ${c.leads} (${c.because})`);
    for (const k of ["sentences", "warnings", "notes"]) {
      console.log(` ${k}`);
      c[k].forEach((s: string) => console.log("  - " + s));
    }
  }
}
console.log(n, "values,", bad, "bad");
