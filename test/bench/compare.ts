/**
 * `node test/bench/compare.ts`: all pairs of 20 variants by all methods of `compare`, without bootstrap, side by side with R doing what
 * base R has of it on the same values in the same run. Part of `npm run bench`; prints a line of JSON a figure.
 */
import { spawnSync } from "node:child_process";
import { compareTable, seededGenerator } from "../../core/index.ts";
import { tableFrom } from "../comparison/tables.ts";

const rounds = 21;

function print(name: string, value: number, unit: "ms" | "times"): void {
  console.log(JSON.stringify({ name, value, unit }));
}

const generator = seededGenerator(1);
const names = Array.from({ length: 20 }, (_, index) => `variant ${index + 1}`);
const values = names.map((_, index) => Array.from({ length: 6 }, () => 100 + index + 5 * generator.normal()));
const table = tableFrom(Object.fromEntries(names.map((name, index) => [name, values[index] ?? []])));
const settings = { baseline: null, margin: 5, confidence: 0.95, resampling: null };

/** By the clock, and by the processor alone, which other programs do not lengthen. */
function timed(): { readonly clock: number; readonly processor: number } {
  const [start, before] = [performance.now(), process.threadCpuUsage()];
  compareTable(table, settings, "en");
  const { user, system } = process.threadCpuUsage(before);
  return { clock: performance.now() - start, processor: (user + system) / 1000 };
}
const first = timed();
const later = Array.from({ length: rounds }, () => timed().clock);
const median = later.sort((one, other) => one - other)[Math.floor(rounds / 2)] ?? 0;
const what = "compare: 190 pairs of 20 variants, 6 runs each, all methods and sentences, no bootstrap";
print(`${what}, the first`, first.clock, "ms");
print(`${what}, the first, of the processor`, first.processor, "ms");
print(`${what}, the later ones (median of ${rounds})`, median, "ms");

/** R: Welch, on logarithms too, two one-sided tests, ranks; Games-Howell and Tukey by ptukey and qtukey; the analyses of variance. */
const script = `
  x <- c(${values.flat().join(",")}); g <- gl(20, 6); v <- split(x, g)
  work <- function() {
    for (i in 1:19) for (j in (i + 1):20) {
      a <- v[[i]]; b <- v[[j]]
      w <- t.test(b, a); t.test(log(b), log(a)); wilcox.test(b, a)
      t.test(b, a, mu = -5, alternative = "greater"); t.test(b, a, mu = 5, alternative = "less")
      ptukey(abs(w$statistic) * sqrt(2), 20, w$parameter, lower.tail = FALSE); qtukey(0.95, 20, w$parameter)
    }
    lapply(v, shapiro.test); TukeyHSD(aov(x ~ g)); oneway.test(x ~ g); anova(lm(abs(x - ave(x, g, FUN = median)) ~ g))
  }
  invisible(work())
  cat(median(replicate(5, { start <- proc.time()[["elapsed"]]; work(); proc.time()[["elapsed"]] - start })) * 1000)`;
const run = spawnSync("Rscript", ["--vanilla", "-e", script], { encoding: "utf8" });
const r = Number(run.stdout);
if (run.status === 0 && run.stdout !== "" && Number.isFinite(r)) {
  print(`${what}: R, without Fieller and Hedges' g (median of 5)`, r, "ms");
  print(`${what}: R's time over ours`, r / median, "times");
}
