import { afterEach, describe, expect, test } from "vitest";
import { BenchStudy, textsOf } from "./bench-door.ts";
import { oneRun } from "./one-run.ts";

let bench: BenchStudy;
afterEach(() => bench.close());

describe("a run from paper", () => {
  test("is typed in field by field, finished, and counts", async () => {
    bench = await BenchStudy.begin();
    const run = await bench.beginRun();
    expect((await bench.show(null)).unfinished.map(({ id, state }) => [id, state])).toEqual([[run, "open"]]);
    for (const [phase, column, text] of oneRun) await bench.type(run, phase, column, text);
    const typed = await bench.bench(run);
    expect(typed.lacks).toEqual([]);
    expect(typed.nextStep).toBeNull();
    const texts = textsOf(typed);
    for (const [phase, column, text] of oneRun) {
      const there = texts[`${phase} ${column}`];
      // Numbers and times are shown without zeros that say nothing.
      expect([column, there]).toEqual([column, text.replace(/\.0$/, "").replace(/^(\d\d:\d\d):00$/, "$1")]);
    }
    await bench.edit({ kind: "finishRun", run });
    const done = await bench.show(run);
    expect(done.unfinished).toEqual([]);
    expect(done.bench?.state).toBe("finished");
    expect(textsOf(done.bench ?? expect.fail("gone"))).toEqual(texts);
  });
});
