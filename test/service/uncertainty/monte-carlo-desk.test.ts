import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { afterEach, describe, expect, it } from "vitest";
import { divide, MonteCarloDesk } from "../../../app/service/uncertainty/monte-carlo-desk.ts";
import { TaskGivenUp, WorkerEnded } from "../../../app/service/uncertainty/worker-pool.ts";
import { atOnce, monteCarlo, runModel } from "../../../core/index.ts";
import { goodRequest, goodRun } from "./good-run.ts";

const desks: MonteCarloDesk[] = [];
const desk = (workers: number, file?: URL) => {
  const made = new MonteCarloDesk(workers, file);
  desks.push(made);
  return made;
};
afterEach(async () => {
  await Promise.all(desks.splice(0).map((one) => one.close()));
});

const sleep = (milliseconds: number) => new Promise((done) => setTimeout(done, milliseconds));

describe("trials on worker threads", () => {
  it("gives the same results, to the last bit, on one, two and three workers and in this thread", async () => {
    const { run, settings } = goodRun();
    const model = runModel(run, settings);
    const expected = atOnce(monteCarlo(model, { trials: 120_500, seed: 1, confidence: 0.95 }));
    for (const workers of [1, 2, 3]) {
      const found = await desk(workers).run(goodRequest(120_500));
      expect([...found.outputs.keys()]).toEqual(model.keys);
      expect([...found.outputs.values()]).toEqual(expected.outputs);
      expect(found).toMatchObject({ trials: 120_500, seed: 1, stable: null });
    }
  });

  it("does the same for several runs at once, each with the adaptive stop", async () => {
    const requests = [1, 2, 3, 4].map((seed) => goodRequest(200_000, { seed, adaptiveDigits: 1 }));
    const one = desk(1);
    const alone = await Promise.all(requests.map((request) => one.run(request)));
    const three = desk(3);
    expect(await Promise.all(requests.map((request) => three.run(request)))).toEqual(alone);
    for (const { stable, outputs, trials } of alone) {
      expect(stable).toEqual(new Set(outputs.keys()));
      expect(trials).toBeLessThan(200_000);
    }
  });

  it("counts trials outside bounds by the outputs' keys", async () => {
    const ranges = new Map([["cold-start.thermalEfficiency", { lower: 0, upper: 0.2 }]]);
    const { outputs } = await desk(2).run(goodRequest(60_000, { ranges }));
    const efficiency = outputs.get("cold-start.thermalEfficiency");
    expect(efficiency?.outside.below).toBe(0);
    expect(efficiency?.outside.above).toBeGreaterThan(30_000);
    expect(outputs.get("hot-start.thermalEfficiency")?.outside).toEqual({ below: 0, above: 0 });
  });

  it("tells its progress, which grows to all trials", async () => {
    const told: number[] = [];
    await desk(2).run(goodRequest(1_000_000), { onProgress: (trials) => told.push(trials) });
    expect(told.length).toBeGreaterThan(2);
    expect(told).toEqual(told.toSorted((one, other) => one - other));
    expect(told.at(-1)).toBeLessThanOrEqual(1_000_000);
  });

  it("gives up at once when asked to, and takes the next run", async () => {
    const two = desk(2);
    const abort = new AbortController();
    const found = two.run(goodRequest(10_000_000), { signal: abort.signal });
    await sleep(300);
    const start = performance.now();
    abort.abort(new Error("not wanted any more"));
    await expect(found).rejects.toThrow("not wanted any more");
    expect(performance.now() - start).toBeLessThan(100);
    // Both workers are free again long before ten million trials are done.
    const next = await two.run(goodRequest(60_000));
    expect(next.trials).toBe(60_000);
    await expect(two.run(goodRequest(1_000), { signal: abort.signal })).rejects.toThrow("not wanted any more");
  });

  it("passes over a run that was given up while it waited", async () => {
    const one = desk(1);
    const first = one.run(goodRequest(300_000));
    const abort = new AbortController();
    const second = one.run(goodRequest(10_000_000), { signal: abort.signal });
    const third = one.run(goodRequest(1_000));
    abort.abort(new Error("not wanted any more"));
    await expect(second).rejects.toThrow("not wanted any more");
    expect((await first).trials).toBe(300_000);
    expect((await third).trials).toBe(1_000);
  });

  it("is told of a worker that dies, and of one that cannot start", async () => {
    const dying = desk(2, new URL("./ending-worker.ts", import.meta.url));
    await expect(dying.run(goodRequest(1_000_000))).rejects.toThrow(WorkerEnded);
    await expect(dying.run(goodRequest(1_000))).rejects.toThrow(WorkerEnded);
    const missing = desk(1, new URL("./no-such-worker.ts", import.meta.url));
    await expect(missing.run(goodRequest(1_000))).rejects.toThrow(WorkerEnded);
  });

  it("is told what is wrong with a request", async () => {
    await expect(desk(1).run(goodRequest(1_000, { seed: -1 }))).rejects.toThrow("A seed is a whole number");
  });

  it("rejects what is running and what waits when it is closed", async () => {
    const one = desk(1);
    const running = one.run(goodRequest(10_000_000));
    const waiting = one.run(goodRequest(10_000_000));
    const outcomes = Promise.allSettled([running, waiting]);
    await sleep(200);
    await one.close();
    const [first, second] = await outcomes;
    expect(first).toMatchObject({ status: "rejected" });
    expect(second).toMatchObject({ status: "rejected" });
    expect((second as PromiseRejectedResult).reason).toBeInstanceOf(TaskGivenUp);
  });

  it("works bundled as the program is built, and keeps no process from ending", async () => {
    const folder = mkdtempSync(join(tmpdir(), "boilbench-workers-"));
    try {
      const service = join(import.meta.dirname, "../../../app/service/uncertainty");
      const main = join(folder, "main.ts");
      writeFileSync(
        main,
        `import { MonteCarloDesk } from ${JSON.stringify(join(service, "monte-carlo-desk.ts"))};
         import { goodRequest } from ${JSON.stringify(join(import.meta.dirname, "good-run.ts"))};
         const { trials, outputs } = await new MonteCarloDesk(2).run(goodRequest(60_000));
         console.log(trials, outputs.size);`,
      );
      await build({
        entryPoints: [
          { in: main, out: "main" },
          { in: join(service, "trials-worker.ts"), out: "trials-worker" },
        ],
        ...{ outdir: join(folder, "built"), bundle: true, splitting: true, format: "esm", platform: "node" },
        ...{ target: "node24", outExtension: { ".js": ".js" } },
        // The example is read from where the sources lie.
        define: { "import.meta.dirname": JSON.stringify(import.meta.dirname) },
        banner: {
          js: 'import { createRequire as requireFor } from "node:module"; const require = requireFor(import.meta.url);',
        },
      });
      writeFileSync(join(folder, "package.json"), '{ "type": "module" }');
      const ran = spawnSync(process.execPath, [join(folder, "built", "main.js")], {
        encoding: "utf8",
        timeout: 15_000,
      });
      expect(ran.stderr).toBe("");
      expect(ran.stdout).toBe("60000 73\n");
      expect(ran.status).toBe(0);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

describe("dividing trials", () => {
  it.each([
    [1_000_000, 2],
    [120_500, 3],
    [1_500, 4],
    [1, 2],
  ])("%d trials for %d workers: whole blocks that follow each other", (trials, parts) => {
    const stretches = divide(trials, parts);
    expect(stretches[0]?.from).toBe(0);
    expect(stretches.at(-1)?.to).toBe(trials);
    stretches.forEach(({ from, to }, index) => {
      expect(from % 1_000).toBe(0);
      expect(to).toBeGreaterThan(from);
      if (index > 0) expect(from).toBe(stretches[index - 1]?.to);
    });
  });
});
