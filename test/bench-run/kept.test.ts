import { afterEach, describe, expect, test } from "vitest";
import type { PhaseName } from "../../core/index.ts";
import { ownDoor } from "../build/own-door.ts";
import { ask, makeEdit } from "../service/requests.ts";
import { BenchStudy, fieldOf, textsOf } from "./bench-door.ts";
import { oneRun, type Written } from "./one-run.ts";

describe("what is half-way", () => {
  test("survives that the program is closed, with the run's place on the Bench", async () => {
    const first = ownDoor();
    const { study } = await ask<"study.create">(first.door, {
      kind: "study.create",
      name: "B",
      method: "wbt",
      who: "A",
    });
    const form = { pots: 1, charAtHotStart: false, emissions: false } as const;
    const { run } = await makeEdit(first.door, study, { kind: "beginRun", variant: "plain", ...form });
    if (run === null) expect.fail("no run was begun");
    const cells: readonly Written[] = [
      ["cold-start", "char_container_g", "212"],
      ["cold-start", "fuel2", "kindling"],
      ["cold-start", "fuel2_start_g", "60"],
      ["cold-start", "start", "09:14:20"],
      ["hot-start", "pot1_end_C", "94.5"],
    ];
    for (const [phase, column, text] of cells) {
      const edited = [{ phase, column, text, was: "" }];
      await makeEdit(first.door, study, { kind: "cells", run, cells: edited, why: null });
    }
    await makeEdit(first.door, study, { kind: "stamp", run, phase: "hot-start", column: "start" });
    const before = (await ask<"bench.show">(first.door, { kind: "bench.show", study, run })).bench;
    const { folders } = first;
    await first.door.close();
    const second = ownDoor(folders);
    try {
      const { bench, unfinished } = await ask<"bench.show">(second.door, { kind: "bench.show", study: null, run });
      if (bench === null || before === null) expect.fail("the run is gone");
      expect(textsOf(bench)).toEqual(textsOf(before));
      for (const [phase, column, text] of cells) expect(fieldOf(bench, phase, column).text).toBe(text);
      expect(unfinished.map(({ id }) => id)).toEqual([run]);
      // The clock goes on from where it was stamped.
      expect(bench.clock).toMatchObject({ phase: "hot-start", label: "since it was lit" });
    } finally {
      await second.close();
      await first.close().catch(() => {});
    }
  });

  let bench: BenchStudy | null = null;
  afterEach(async () => {
    await bench?.close();
    bench = null;
  });

  test("every field that was typed is undone, one by one, to nothing", async () => {
    bench = await BenchStudy.begin();
    const run = await bench.beginRun();
    const blank = textsOf(await bench.bench(run));
    // In an order in which nobody takes them.
    const cells = oneRun.toSorted(([, one], [, other]) => other.localeCompare(one));
    const steps: Record<string, string>[] = [];
    for (const [phase, column, text] of cells) {
      const there = fieldOf(await bench.bench(run), phase, column).text;
      if (there === text) continue;
      steps.push(textsOf(await bench.bench(run)));
      await bench.type(run, phase, column, text, there);
    }
    for (const before of steps.toReversed()) {
      await bench.undo();
      expect(textsOf(await bench.bench(run))).toEqual(before);
    }
    expect(textsOf(await bench.bench(run))).toEqual(blank);
  }, 60_000);

  test("a cell's history tells each value once, also where it became a reading later", async () => {
    bench = await BenchStudy.begin();
    const run = await bench.beginRun();
    const phase: PhaseName = "cold-start";
    await bench.type(run, phase, "char_container_g", "212");
    await bench.type(run, phase, "char_with_container_g", "265");
    await bench.type(run, phase, "char_container_g", "214", "212");
    const { steps } = await ask<"cell.history">(bench.door, {
      ...{ kind: "cell.history", study: bench.study, run, phase, column: "char_container_g" },
    });
    expect(steps.map(({ before, after }) => [before, after])).toEqual([
      ["", "212"],
      ["212", "214"],
    ]);
  });

  test("an ISO run is typed in, with its power levels, and finished", async () => {
    bench = await BenchStudy.begin("iso");
    const run = await bench.beginRun();
    expect(await bench.refusal({ kind: "stamp", run, phase: "cold-start", column: "start" })).toMatch(/no such phase/);
    const level = (phase: PhaseName, start: string, boiled: string, end: string, water: string): Written[] => [
      [phase, "pot1_start_g", "5612"],
      [phase, "pot1_start_C", water],
      [phase, "fuel_start_g", "1504"],
      [phase, "start", start],
      [phase, "boiled_at", boiled],
      [phase, "end", end],
      [phase, "pot1_end_C", "94.4"],
      [phase, "pot1_end_g", "5290"],
      [phase, "fuel_end_g", "720"],
    ];
    const cells: Written[] = [
      ["high-power", "moisture_wet_percent", "11.2"],
      ["high-power", "pot1_empty_g", "612"],
      ["high-power", "boiling_C", "94.6"],
      ...level("high-power", "08:00", "08:21", "08:30", "16.2"),
      ...level("medium-power", "08:50", "09:15", "09:20", "16.9"),
    ];
    for (const [phase, column, text] of cells) await bench.type(run, phase, column, text);
    const typed = await bench.bench(run);
    expect(typed.lacks).toEqual([]);
    expect(typed.nextStep).toBe("low-power.weigh");
    expect(typed.soFar[0]?.results.map(({ label, text }) => [label, text]).slice(0, 3)).toEqual([
      ["time to boil", "21.0 min"],
      ["water evaporated", "322 g"],
      ["moist wood used", "784 g"],
    ]);
    await bench.edit({ kind: "finishRun", run });
    const done = await bench.bench(run);
    expect([...new Set(done.steps.flatMap(({ phase }) => phase ?? []))]).toEqual(["high-power", "medium-power"]);
  });

  test("two pots that were taken for each other are asked about at the empty one", async () => {
    bench = await BenchStudy.begin();
    for (let number = 0; number < 3; number += 1) {
      const run = await bench.beginRun("two pots", { pots: 2 });
      for (const [phase, column, text] of oneRun.slice(0, 15)) {
        const moved = column === "fuel_end_g" || column === "pot1_end_g" ? String(Number(text) + 7 * number) : text;
        await bench.type(run, phase, column, moved);
      }
      for (const [column, text] of [
        ["pot2_empty_g", "540"],
        ["pot2_start_g", String(3040 + number)],
        ["pot2_start_C", "16"],
        ["pot2_end_C", String(71 + number)],
        ["pot2_end_g", String(3010 - number)],
      ] as const) {
        await bench.type(run, "cold-start", column, text);
      }
      await bench.edit({ kind: "finishRun", run });
    }
    const run = await bench.beginRun("two pots", { pots: 2 });
    await bench.type(run, "cold-start", "pot1_empty_g", "540");
    const first = await bench.field(run, "cold-start", "pot1_empty_g");
    expect(first.questions.map(({ rule }) => rule)).toEqual(["potsSwapped"]);
    expect(first.questions[0]?.message).toMatch(/612/);
  }, 60_000);
});
