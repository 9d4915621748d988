import { resultOf } from "../analysis/run-results.ts";
import type { StudyResults } from "../analysis/study-results.ts";
import { keyText } from "../quantity/quantity-key.ts";

/**
 * The rows of runs.csv: `run, variant, block, order, leftOut, factor:NAME …`, then a column for each quantity that some run
 * has. Empty where a run lacks it. Heading first; numbers as numbers.
 */
export function runsTable(results: StudyResults): (string | number | null)[][] {
  const factors = [...new Set(results.runs.flatMap(({ run }) => [...run.factors.keys()]))];
  const heading = [
    "run",
    "variant",
    "block",
    "order",
    "leftOut",
    ...factors.map((factor) => `factor:${factor}`),
    ...results.keys.map((key) => keyText(key)),
  ];
  const rows = results.runs.map((one) => [
    one.run.name,
    one.run.variant,
    one.run.block,
    one.run.order,
    one.run.leftOut,
    ...factors.map((factor) => one.run.factors.get(factor) ?? null),
    ...results.keys.map((key) => resultOf(one, key) ?? null),
  ]);
  return [heading, ...rows];
}
