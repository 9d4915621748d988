import { readFileSync } from "node:fs";
import { join } from "node:path";
import Papa from "papaparse";
import { csvText, seededGenerator } from "../../core/index.ts";

const example = join(import.meta.dirname, "..", "..", "sample-data", "good", "tall-kettle-stove.csv");

/**
 * A readings file of so many whole runs, made from the example's: its runs over and over under new names, wood weights shifted
 * by up to 60 g from a seed so that no two runs are alike.
 */
export function manyRuns(count: number): string {
  const { data } = Papa.parse<string[]>(readFileSync(example, "utf8").trim());
  const [heading = [], ...rows] = data;
  const column = (name: string) => heading.indexOf(name);
  const byRun = [...Map.groupBy(rows, (row) => row[column("run")]).values()];
  const draw = seededGenerator(7);
  const made: string[][] = [];
  for (let run = 0; run < count; run += 1) {
    const shift = Math.round(draw.uniform() * 60);
    for (const row of byRun[run % byRun.length] ?? []) {
      const copy = [...row];
      copy[column("run")] = `N${run + 1}`;
      copy[column("order")] = String(run + 1);
      copy[column("fuel_end_g")] = String(Number(copy[column("fuel_end_g")]) - shift);
      made.push(copy);
    }
  }
  return csvText([heading, ...made]);
}
