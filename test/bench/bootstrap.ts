/**
 * `node test/bench/bootstrap.ts`: the comparison statistics by the clock, the bootstrap side by side with R's boot on the same values in
 * the same run. Part of `npm run bench`; prints a line of JSON a figure. Without Rscript or its package boot R's figures are left out.
 */
import { spawnSync } from "node:child_process";
import { seededGenerator } from "../../core/numeric/seeded-generator.ts";
import { bcaInterval } from "../../core/statistics/bootstrap-bca.ts";
import { equivalence } from "../../core/statistics/equivalence.ts";
import { grubbs } from "../../core/statistics/grubbs.ts";
import { hedgesG } from "../../core/statistics/hedges-g.ts";
import { mannWhitney } from "../../core/statistics/mann-whitney.ts";

const RESAMPLES = 10_000;
const confidence = 0.95;

function print(name: string, value: number, unit: "ms" | "times"): void {
  console.log(JSON.stringify({ name, value, unit }));
}

/** Milliseconds of one call: the first, and the median of the later ones. */
function timed(work: () => void, rounds = 21): { readonly first: number; readonly later: number } {
  const times = Array.from({ length: rounds + 1 }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  const [first = 0, ...later] = times;
  return { first, later: later.sort((one, other) => one - other)[Math.floor(rounds / 2)] ?? 0 };
}

/** Milliseconds that R takes for resampling and interval, the median of nine; null where there is no R. */
function timeOfR(values: readonly number[]): number | null {
  const script = `
    suppressPackageStartupMessages(library(boot))
    values <- c(${values.join(",")})
    set.seed(1)
    work <- function() {
      resampled <- boot(values, function(x, places) mean(x[places]), R = ${RESAMPLES})
      boot.ci(resampled, conf = ${confidence}, type = "bca", L = values - mean(values))
    }
    invisible(work())
    cat(median(replicate(9, { start <- proc.time()[["elapsed"]]; work(); proc.time()[["elapsed"]] - start })) * 1000)`;
  const run = spawnSync("Rscript", ["--vanilla", "-e", script], { encoding: "utf8" });
  const time = Number(run.stdout);
  return run.status === 0 && run.stdout !== "" && Number.isFinite(time) ? time : null;
}

const generator = seededGenerator(1);
const groups = Array.from({ length: 20 }, (_, variant) =>
  Array.from({ length: 6 }, () => 20 + 0.1 * variant + generator.normal()),
);

for (const runs of [6, 10]) {
  const values = Array.from({ length: runs }, () => Number((20 + generator.normal()).toFixed(3)));
  const ours = timed(() => bcaInterval(values, { confidence, resamples: RESAMPLES, seed: 1 }));
  const what = `BCa of ${runs} runs, ${RESAMPLES} resamples`;
  print(`${what}, the first`, ours.first, "ms");
  print(`${what}, the later ones (median of 21)`, ours.later, "ms");
  const r = timeOfR(values);
  if (r === null) continue;
  print(`${what}, R's boot and boot.ci (median of 9)`, r, "ms");
  print(`${what}: R's time over ours`, r / ours.later, "times");
}

const pairs = groups.flatMap((first, place) => groups.slice(place + 1).map((second) => [first, second] as const));
const everyPair = timed(() => {
  for (const values of groups) grubbs(values);
  for (const [first, second] of pairs) {
    mannWhitney(first, second);
    hedgesG(first, second, confidence);
    equivalence(first, second, 1, confidence);
  }
});
const what = `Mann-Whitney, Hedges' g and equivalence, ${pairs.length} pairs of 6 runs, Grubbs' test`;
print(`${what}, the first`, everyPair.first, "ms");
print(`${what}, the later ones (median of 21)`, everyPair.later, "ms");
