import { readFileSync } from "node:fs";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { clockOf } from "../../app/service/bench/bench-clock.ts";
import type { BenchRecord } from "../../app/service/bench/bench-record.ts";
import { clockTextOf, type MachineTime } from "../../app/service/bench/run-clock.ts";
import { coreRun, editedRun } from "../../app/service/stored/index.ts";
import { defaultSettings, type PhaseName, phaseNames, type Run } from "../../core/index.ts";
import { expectNumber } from "../numbers.ts";
import { ask } from "../service/requests.ts";
import { BenchStudy, fieldOf } from "./bench-door.ts";

describe("stamps of the service", () => {
  let bench: BenchStudy;
  beforeEach(async () => {
    bench = await BenchStudy.begin();
  });
  afterEach(() => bench.close());

  const clock = (run: string) => ask<"bench.clock">(bench.door, { kind: "bench.clock", study: bench.study, run });

  test("write the machine's time, and the clock counts from there", async () => {
    const run = await bench.beginRun();
    expect(await clock(run)).toBeNull();
    const before = clockTextOf(Date.now());
    await bench.edit({ kind: "stamp", run, phase: "cold-start", column: "start" });
    const after = clockTextOf(Date.now());
    const { text } = await bench.field(run, "cold-start", "start");
    // Without seconds where they are zero.
    const whole = text.length === 5 ? `${text}:00` : text;
    if (before <= after) expect(before <= whole && whole <= after).toBe(true);
    const lit = await clock(run);
    expect(lit).toMatchObject({ label: "since it was lit", phase: "cold-start", countDownSeconds: null, note: null });
    expect(lit?.elapsedSeconds).toBeGreaterThanOrEqual(0);
    expect(lit?.elapsedSeconds).toBeLessThan(60);
    // Undone, nothing counts; and what was noted of the clock is gone with it.
    await bench.undo();
    expect([(await bench.field(run, "cold-start", "start")).text, await clock(run)]).toEqual(["", null]);
  });

  test("write the date where the run has none", async () => {
    const run = await bench.beginRun();
    const { text: today } = await bench.field(run, null, "date");
    await bench.type(run, null, "date", "", today);
    await bench.edit({ kind: "stamp", run, phase: "cold-start", column: "start" });
    expect((await bench.field(run, null, "date")).text).toBe(today);
  });

  test("the simmer counts down its 45 minutes; a time that is typed over ends the stamp's clock", async () => {
    const run = await bench.beginRun();
    await bench.edit({ kind: "stamp", run, phase: "simmer", column: "start" });
    expect(await clock(run)).toMatchObject({ label: "until 45 minutes are over", countDownSeconds: 2700 });
    const { text } = await bench.field(run, "simmer", "start");
    await bench.type(run, null, "date", "2020-01-01", (await bench.field(run, null, "date")).text);
    // The stamp still stands: its clock goes on, whatever the date says.
    expect(await clock(run)).not.toBeNull();
    await bench.type(run, "simmer", "start", "08:00", text);
    expect(await clock(run)).toBeNull();
  });

  test("on systems that name their start the anchor keeps that name", async () => {
    const run = await bench.beginRun();
    await bench.edit({ kind: "stamp", run, phase: "cold-start", column: "start" });
    if (process.platform !== "linux") return;
    const boot = readFileSync("/proc/sys/kernel/random/boot_id", "ascii").trim();
    expect(boot).toMatch(/^[0-9a-f-]{36}$/);
    expect((await clock(run))?.note).toBeNull();
  });
});

/** A run with some clock cells, as a file would have it. */
function runWith(method: Run["method"], cells: readonly (readonly [PhaseName, string, string])[]): Run {
  const phases = method === "wbt" ? phaseNames.slice(0, 3) : phaseNames.slice(3);
  const stored = {
    ...{ name: "1", position: 0, variant: 1, method, date: "2026-03-10", order: 1, block: null, operator: null },
    ...{ leftOut: "not finished", levels: new Map(), attachment: null },
    phases: phases.map((phase) => {
      return { phase, timing: "time" as const, sourceRow: null, readings: new Map(), texts: new Map() };
    }),
  };
  const blank = coreRun(stored, 5, { name: "plain", position: 0, levels: new Map() });
  const edits = cells.map(([phase, column, text]) => ({ phase, column, text }));
  const result = editedRun(blank, defaultSettings(method), edits, "en");
  return result.ok ? result.run : expect.fail(result.problems.map(({ message }) => message).join(" "));
}

const record = (anchors: BenchRecord["anchors"] = {}): BenchRecord => {
  return { state: "open", pots: 1, charAtHotStart: false, emissions: false, anchors };
};
const at = (hours: number, minutes: number, seconds = 0): MachineTime => {
  const wall = new Date(2026, 2, 10, hours, minutes, seconds).getTime();
  return { wall, uptime: 1000 + (wall - new Date(2026, 2, 10).getTime()) / 1000, boot: "one" };
};
const anchor = (time: MachineTime) => ({ ...time, text: clockTextOf(time.wall) });

describe("which clock goes", () => {
  test("typed times of today count by the wall clock; those still to come do not", () => {
    const run = runWith("wbt", [["cold-start", "start", "09:14"]]);
    expectNumber(clockOf(run, record(), "en", at(9, 30))?.elapsedSeconds, 16 * 60);
    expect(clockOf(run, record(), "en", at(9, 10))).toBeNull();
  });

  test("after the boil it counts since then, until the next phase begins, and not after the last", () => {
    const boiled = runWith("wbt", [
      ["cold-start", "start", "09:14"],
      ["cold-start", "end", "09:40"],
    ]);
    expect(clockOf(boiled, record(), "en", at(9, 45))).toMatchObject({
      label: "since the water boiled",
      elapsedSeconds: 300,
    });
    const over = runWith("wbt", [
      ["simmer", "start", "10:00"],
      ["simmer", "end", "10:45"],
    ]);
    expect(clockOf(over, record(), "en", at(10, 50))).toBeNull();
  });

  test("a power level's clock goes on after the boil, for its 30 minutes", () => {
    const run = runWith("iso", [
      ["high-power", "start", "08:00"],
      ["high-power", "boiled_at", "08:21"],
    ]);
    expect(clockOf(run, record(), "en", at(8, 25))).toMatchObject({
      label: "until 30 minutes are over",
      elapsedSeconds: 1500,
      countDownSeconds: 1800,
    });
  });

  test("a time that was set meanwhile is told, and the clock goes on", () => {
    const run = runWith("wbt", [["cold-start", "start", "09:14:20"]]);
    const lit = at(9, 14, 20);
    const now = { ...at(11, 14, 20), uptime: lit.uptime + 600 };
    const clock = clockOf(run, record({ "cold-start start": anchor(lit) }), "en", now);
    expectNumber(clock?.elapsedSeconds, 600, { absolute: 1e-6 });
    expect(clock?.note).toMatch(/set forward by 110 min/);
  });

  test("over midnight a stamp's clock goes on", () => {
    const run = runWith("wbt", [["cold-start", "start", "23:50"]]);
    const lit = at(23, 50);
    const now = { ...lit, wall: lit.wall + 1_800_000, uptime: lit.uptime + 1800 };
    expectNumber(clockOf(run, record({ "cold-start start": anchor(lit) }), "en", now)?.elapsedSeconds, 1800);
  });

  test("a run that was left for days has none", () => {
    const run = runWith("wbt", [["cold-start", "start", "09:14:20"]]);
    const lit = at(9, 14, 20);
    const now = { ...lit, wall: lit.wall + 3 * 86_400_000, uptime: lit.uptime + 3 * 86_400 };
    expect(clockOf(run, record({ "cold-start start": anchor(lit) }), "en", now)).toBeNull();
  });

  test("an abandoned run has none", () => {
    const run = runWith("wbt", [["cold-start", "start", "09:14"]]);
    expect(clockOf(run, { ...record(), state: "abandoned" }, "en", at(9, 30))).toBeNull();
  });
});

test("steps say what their key stamps", async () => {
  const bench = await BenchStudy.begin();
  try {
    const view = await bench.bench(await bench.beginRun());
    const keys = view.steps.flatMap(({ id, clock }) => (clock === null ? [] : [[id, clock.press, clock.column]]));
    expect(keys).toEqual([
      ["cold-start.light", "Lit now", "start"],
      ["cold-start.boils", "Boiled now", "end"],
      ["hot-start.light", "Lit now", "start"],
      ["hot-start.boils", "Boiled now", "end"],
      ["simmer.begin", "Begun now", "start"],
      ["simmer.over", "Over now", "end"],
    ]);
    expect(fieldOf(view, "cold-start", "start").group).toBe("time");
  } finally {
    await bench.close();
  }
});
