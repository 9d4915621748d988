import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openFiles } from "../../app/service/open-study.ts";
import { simulateRuns, trialsOfEach } from "../../app/service/simulation/simulate-runs.ts";
import type { StudyResults } from "../../core/index.ts";

const sample = join(import.meta.dirname, "..", "..", "sample-data", "good", "tall-kettle-stove");

/** The first runs of the example under its own settings. */
function someRuns(count: number, withSettings = true): StudyResults {
  const lines = readFileSync(`${sample}.csv`, "utf8").split("\r\n");
  const read = openFiles(
    {
      readings: { name: "readings.csv", bytes: Buffer.from(lines.slice(0, 1 + 3 * count).join("\r\n")) },
      settings: withSettings ? { name: "s.json", bytes: readFileSync(`${sample}.settings.json`) } : null,
      locale: "en",
    },
    { name: "boilbench", version: "0" },
  );
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.open.results;
}

describe("Monte Carlo of a study's runs", () => {
  it("gives the same on any number of workers, of each run with all its results", async () => {
    const results = someRuns(4);
    const request = { trials: 12_000, seed: 3, mostInAll: 1e9 };
    const [one, three] = [
      await simulateRuns(results, { ...request, workers: 1 }),
      await simulateRuns(results, { ...request, workers: 3 }),
    ];
    expect(one?.runs.size).toBe(4);
    expect(three?.runs).toEqual(one?.runs);
    const keys = [...(one?.runs.get(results.runs[0]?.run.id ?? "")?.outputs.keys() ?? [])];
    expect(keys).toContain("taskFuel5L");
    expect(keys).toContain("cold-start.thermalEfficiency");
  });

  it("is told how far it is, never backwards, and to the end", async () => {
    const shares: number[] = [];
    await simulateRuns(someRuns(3), { trials: 30_000, mostInAll: 1e9, onProgress: (share) => shares.push(share) });
    expect(shares.at(-1)).toBe(1);
    expect(shares.toSorted((a, b) => a - b)).toEqual(shares);
  });

  it("is given up where it is aborted", async () => {
    const abort = new AbortController();
    const begun = simulateRuns(someRuns(3), {
      trials: 10_000_000,
      mostInAll: 1e9,
      signal: abort.signal,
      onProgress: () => abort.abort(),
    });
    await expect(begun).rejects.toMatchObject({ name: "AbortError" });
  });

  it("there is none without stated errors, without trials, or for more runs than may be", async () => {
    const some = { trials: 1000, mostInAll: 1e9 };
    expect(await simulateRuns(someRuns(2, false), some)).toBeNull();
    expect(await simulateRuns(someRuns(2), { ...some, trials: 0 })).toBeNull();
    expect(await simulateRuns(someRuns(2), { ...some, mostRuns: 1 })).toBeNull();
  });

  it.each([
    // Trials wanted, runs, most in all: trials of each.
    [200_000, 25, 2e8, 200_000],
    [200_000, 1_000, 2e8, 200_000],
    [200_000, 10_000, 2e8, 20_000],
    [200_000, 100_000, 2e8, 10_000],
    [5_000, 100_000, 2e8, 5_000],
    [200_000, 0, 2e8, 200_000],
  ])("%i trials of %i runs, %i in all: %i of each", (wanted, runs, most, each) => {
    expect(trialsOfEach(wanted, runs, most)).toBe(each);
  });
});
