import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { nextRunName } from "../../app/service/bench/begin-run.ts";
import { ask } from "../service/requests.ts";
import { BenchStudy, fieldOf, textsOf } from "./bench-door.ts";
import { oneRun } from "./one-run.ts";

let bench: BenchStudy;
beforeEach(async () => {
  bench = await BenchStudy.begin();
});
afterEach(() => bench.close());

const typeAll = async (run: string, until = oneRun.length) => {
  for (const [phase, column, text] of oneRun.slice(0, until)) {
    const there = fieldOf(await bench.bench(run), phase, column).text;
    if (there !== text) await bench.type(run, phase, column, text, there);
  }
};

const studyView = () => ask<"study.show">(bench.door, { kind: "study.show", study: bench.study });

describe("names of new runs", () => {
  test.for([
    [[], null, "1"],
    [["13", "14"], "14", "15"],
    [["R23", "R24"], "R24", "R25"],
    [["R07", "R08", "R09"], "R09", "R10"],
    [["A1", "B7", "A2"], "A2", "A3"],
    // A number that is taken, though it was not the last.
    [["R25", "R24"], "R24", "R26"],
    [["morning"], "morning", "1"],
    [["1", "morning"], "morning", "2"],
    [["run 7 (again)"], "run 7 (again)", "1"],
  ] as const)("%j, the last %s: %s", ([names, latest, next]) => {
    expect(nextRunName(names, latest)).toBe(next);
  });
});

describe("a run that was begun", () => {
  test("has a name, today's date, an order, and who made it; it does not count, and says why", async () => {
    const run = await bench.beginRun("with skirt");
    const view = await bench.show(run);
    expect(view.unfinished).toEqual([
      expect.objectContaining({ id: run, run: "1", variant: "with skirt", state: "open", reason: null }),
    ]);
    expect(view.begin).toEqual({
      ...{ run: "2", variants: ["with skirt"], variant: "with skirt" },
      ...{ pots: 1, charAtHotStart: false, emissions: false },
    });
    const bench1 = view.bench ?? expect.fail("no run");
    const today = new Date();
    const two = (value: number) => String(value).padStart(2, "0");
    const date = `${today.getFullYear()}-${two(today.getMonth() + 1)}-${two(today.getDate())}`;
    expect(textsOf(bench1)).toEqual({ run: "1", variant: "with skirt", order: "1", date, operator: "Ada" });
    expect(bench1.nextStep).toBe("before-the-fire");
    // Not left out, but apart: it is not finished.
    const study = await studyView();
    expect([study.runs, study.leftOut, study.leftOutRuns]).toEqual([1, 0, []]);
    expect(study.onBench).toEqual([{ id: run, run: "1" }]);
    expect(study.variants).toEqual([{ name: "with skirt", index: 0, runs: 1, leftOut: 0, onBench: 1, factors: [] }]);
    const { contentBase64 } = await ask<"export">(bench.door, {
      kind: "export",
      study: bench.study,
      what: "results.json",
      choice: { quantity: null, variant: null, baseline: null },
    });
    const { runs } = JSON.parse(Buffer.from(contentBase64, "base64").toString("utf8"));
    expect(runs).toMatchObject([{ run: "1", leftOut: "not finished: still on the Bench" }]);
  });

  test("goes on with block and number of the day's runs", async () => {
    const first = await bench.beginRun();
    await bench.type(first, null, "block", "Tuesday");
    await bench.type(first, null, "run", "R7", "1");
    const second = await bench.beginRun();
    expect(textsOf(await bench.bench(second))).toMatchObject({ run: "R8", block: "Tuesday", order: "2" });
  });

  test("is gone, with its variant, when its beginning is undone", async () => {
    const run = await bench.beginRun("only once");
    await bench.undo();
    const view = await bench.show(run);
    expect([view.bench, view.unfinished, view.begin.variants]).toEqual([null, [], []]);
  });
});

describe("finishing", () => {
  test("is refused while a needed reading lacks, which is named", async () => {
    const run = await bench.beginRun();
    expect(await bench.refusal({ kind: "finishRun", run })).toMatch(/Nothing was weighed/);
    await typeAll(run, 11);
    const { lacks } = await bench.bench(run);
    expect(lacks).toEqual([
      "Water, cold start, is not recorded.",
      "Pot with water, cold start, is not recorded.",
      "Wood left, cold start, is not recorded.",
    ]);
    const refused = await bench.refusal({ kind: "finishRun", run });
    for (const lack of lacks) expect(refused).toContain(lack);
    expect(await bench.refusal({ kind: "bringBack", run, reason: "it is fine" })).toBe(refused);
  });

  test("after the cold start alone leaves the other phases away", async () => {
    const run = await bench.beginRun();
    await typeAll(run, 15);
    await bench.edit({ kind: "finishRun", run });
    const done = await bench.bench(run);
    expect(done.state).toBe("finished");
    expect(done.steps.filter(({ phase }) => phase !== null).every(({ phase }) => phase === "cold-start")).toBe(true);
    expect((await studyView()).leftOut).toBe(0);
    // Undone, it is on the Bench with all its phases.
    await bench.undo();
    const again = await bench.bench(run);
    expect(again.state).toBe("open");
    expect(again.steps.some(({ phase }) => phase === "simmer")).toBe(true);
    expect(fieldOf(again, "simmer", "pot1_empty_g").text).toBe("612");
  });

  test("a finished run is taken up again, changed, and finished", async () => {
    const run = await bench.beginRun();
    await typeAll(run, 15);
    await bench.edit({ kind: "finishRun", run });
    expect(await bench.refusal({ kind: "abandonRun", run, reason: "late" })).toMatch(/finished and counts/);
    await bench.edit({ kind: "takeUpRun", run });
    expect(await bench.refusal({ kind: "takeUpRun", run })).toMatch(/on the Bench already/);
    const open = await bench.bench(run);
    expect([open.state, open.nextStep]).toEqual(["open", "hot-start.weigh"]);
    await typeAll(run);
    await bench.edit({ kind: "finishRun", run });
    expect((await bench.bench(run)).soFar.map(({ title }) => title)).toEqual([
      "Cold start",
      "Hot start",
      "Simmer",
      "The whole run",
    ]);
  });
});

describe("abandoning", () => {
  test("keeps what was read and the reason; the run is taken up where it was left", async () => {
    const run = await bench.beginRun();
    await typeAll(run, 9);
    await bench.edit({ kind: "abandonRun", run, reason: "the pot fell" });
    const view = await bench.show(run);
    expect(view.unfinished.map(({ state, reason }) => [state, reason])).toEqual([["abandoned", "the pot fell"]]);
    expect(view.bench?.clock).toBeNull();
    const study = await studyView();
    expect([study.leftOutRuns, study.onBench]).toEqual([[{ run: "1", reason: "the pot fell" }], []]);
    expect(await bench.refusal({ kind: "abandonRun", run, reason: "again" })).toMatch(/abandoned already/);
    expect(await bench.refusal({ kind: "stamp", run, phase: "cold-start", column: "start" })).toMatch(
      /not on the Bench/,
    );
    await bench.edit({ kind: "takeUpRun", run });
    const again = await bench.bench(run);
    expect([again.state, again.nextStep]).toEqual(["open", "cold-start.light"]);
    await bench.undo();
    expect((await bench.bench(run)).reason).toBe("the pot fell");
  });

  test("is what leaving out on the Runs page does to a run that is being made", async () => {
    const run = await bench.beginRun();
    await bench.edit({ kind: "leaveOut", run, reason: "rain" });
    expect(await bench.bench(run)).toMatchObject({ state: "abandoned", reason: "rain" });
  });

  test("a run that counts by its cell of the Runs page is on the Bench no longer", async () => {
    const run = await bench.beginRun();
    await typeAll(run);
    await bench.type(run, null, "excluded", "", "not finished: still on the Bench");
    const view = await bench.show(run);
    expect([view.bench?.state, view.unfinished]).toEqual(["finished", []]);
  });
});

describe("what is read once for the run", () => {
  test("stands in each phase's row as one reading, and one undo takes all of it back", async () => {
    const run = await bench.beginRun();
    await bench.type(run, "cold-start", "pot1_empty_g", "612");
    await bench.type(run, "cold-start", "moisture_wet_percent", "11.2");
    const filled = await bench.bench(run);
    for (const phase of ["hot-start", "simmer"] as const) {
      expect(fieldOf(filled, phase, "pot1_empty_g")).toMatchObject({ text: "612", isPassed: true });
      expect(fieldOf(filled, phase, "moisture_wet_percent").text).toBe("11.2");
    }
    // Weighed anew in one phase: it stays, whatever becomes of the first.
    await bench.type(run, "hot-start", "pot1_empty_g", "614", "612");
    await bench.type(run, "cold-start", "pot1_empty_g", "610", "612");
    const changed = await bench.bench(run);
    const texts = (["cold-start", "hot-start", "simmer"] as const).map((phase) =>
      fieldOf(changed, phase, "pot1_empty_g"),
    );
    expect(texts.map(({ text }) => text)).toEqual(["610", "614", "610"]);
    expect(texts[1]?.isPassed).toBe(false);
    await bench.undo();
    await bench.undo();
    await bench.undo();
    const back = await bench.bench(run);
    expect(textsOf(back)).not.toHaveProperty(["hot-start moisture_wet_percent"]);
    expect(fieldOf(back, "simmer", "pot1_empty_g").text).toBe("612");
    await bench.undo();
    expect(Object.keys(textsOf(await bench.bench(run))).filter((key) => key.includes("pot1"))).toEqual([]);
  });

  test("on the other basis too: what was read wet is emptied with it", async () => {
    const run = await bench.beginRun();
    await bench.type(run, "cold-start", "moisture_wet_percent", "11.2");
    const cells = [
      { phase: "cold-start" as const, column: "moisture_wet_percent", text: "", was: "11.2" },
      { phase: "cold-start" as const, column: "moisture_dry_percent", text: "13", was: "" },
    ];
    await bench.edit({ kind: "cells", run, cells, why: null });
    const simmer = await bench.field(run, "simmer", "moisture_wet_percent");
    expect([simmer.text, simmer.other?.isIn, simmer.isPassed]).toEqual(["13", true, true]);
    // The same number on the wet basis is another moisture.
    const wet = [
      { phase: "simmer" as const, column: "moisture_dry_percent", text: "", was: "13" },
      { phase: "simmer" as const, column: "moisture_wet_percent", text: "13", was: "" },
    ];
    await bench.edit({ kind: "cells", run, cells: wet, why: null });
    const anew = await bench.field(run, "simmer", "moisture_wet_percent");
    expect([anew.text, anew.other?.isIn, anew.isPassed]).toEqual(["13", false, false]);
  });
});

describe("the sheet's form", () => {
  test("further pots and char at the hot start come and go; a pot with readings stays", async () => {
    const run = await bench.beginRun();
    await bench.edit({ kind: "benchForm", run, pots: 2, charAtHotStart: true, emissions: true });
    const wide = await bench.bench(run);
    expect(fieldOf(wide, "cold-start", "pot2_start_g").name).toBe("Pot 2 with water");
    expect(fieldOf(wide, "simmer", "char_at_start_g").offered).toBeNull();
    expect(fieldOf(wide, "cold-start", "co_g").unit).toBe("g");
    await bench.type(run, "cold-start", "pot2_start_g", "3000");
    const back = { kind: "benchForm", run, pots: 1, charAtHotStart: false, emissions: false } as const;
    expect(await bench.refusal(back)).toMatch(/Pot 2 has readings/);
    await bench.type(run, "cold-start", "pot2_start_g", "", "3000");
    await bench.edit(back);
    expect((await bench.bench(run)).pots).toBe(1);
  });
});
