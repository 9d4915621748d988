import { setTimeout as wait } from "node:timers/promises";
import { describe, expect, test } from "vitest";
import { machineTime } from "../../app/service/bench/machine-time.ts";
import {
  clockTextOf,
  dateTextOf,
  elapsedSince,
  elapsedSinceTyped,
  type MachineTime,
  wallSince,
} from "../../app/service/bench/run-clock.ts";
import { expectNumber } from "../numbers.ts";

/** Some moment of a machine that has been up for an hour. */
const lit: MachineTime = { wall: Date.UTC(2026, 2, 10, 9, 14, 20), uptime: 3600, boot: "one" };

const later = (
  seconds: number,
  change: Partial<{ set: number; up: number; boot: string | null }> = {},
): MachineTime => ({
  wall: lit.wall + (seconds + (change.set ?? 0)) * 1000,
  uptime: change.up ?? lit.uptime + seconds,
  boot: change.boot === undefined ? "one" : change.boot,
});

describe("time since a moment that was stamped", () => {
  const hour = 3600;
  const cases: readonly (readonly [what: string, from: MachineTime, now: MachineTime, seconds: number, set: number])[] =
    [
      ["nothing happened", lit, later(90), 90, 0],
      ["at once", lit, later(0), 0, 0],
      ["the window was closed for an hour", lit, later(hour), hour, 0],
      // Sleep: on Linux and Windows both clocks go on through it.
      ["the machine slept for three hours", lit, later(3 * hour), 3 * hour, 0],
      ["the wall clock was corrected by less than two seconds", lit, later(600, { set: 1.5 }), 600, 0],
      ["the time was set forward by an hour", lit, later(600, { set: hour }), 600, hour],
      ["the time was set back by an hour", lit, later(600, { set: -hour }), 600, -hour],
      ["it was set back before the start", lit, later(5, { set: -24 * hour }), 5, -24 * hour],
      ["summer time does not move the wall clock in UTC", lit, later(hour), hour, 0],
      ["the machine was started anew", lit, later(900, { up: 40, boot: "two" }), 900, 0],
      ["it was started anew and has been up for longer", lit, later(9000, { up: 8000, boot: "two" }), 9000, 0],
      [
        "it was started anew and the time was set: only the wall clock is left",
        lit,
        later(900, { set: 60, up: 40, boot: "two" }),
        960,
        0,
      ],
      // Systems that do not name the start of the machine.
      ["no name: nothing happened", { ...lit, boot: null }, later(90, { boot: null }), 90, 0],
      ["no name: the time was set forward", { ...lit, boot: null }, later(600, { set: hour, boot: null }), 600, hour],
      ["no name: the time was set back", { ...lit, boot: null }, later(600, { set: -hour, boot: null }), 600, -hour],
      ["no name: up for less than at the anchor", { ...lit, boot: null }, later(900, { up: 40, boot: null }), 900, 0],
      [
        "no name: up for longer than at the anchor, though started since",
        { ...lit, uptime: 100, boot: null },
        { wall: lit.wall + 1000_000, uptime: 500, boot: null },
        1000,
        0,
      ],
      // macOS: the uptime follows the wall clock, so that a set time cannot be told.
      [
        "uptime follows the wall clock",
        { ...lit, boot: null },
        later(600, { set: hour, up: lit.uptime + 600 + hour, boot: null }),
        600 + hour,
        0,
      ],
    ];
  test.for(cases)("%s", ([, from, now, seconds, set]) => {
    const elapsed = elapsedSince(from, now);
    expectNumber(elapsed.seconds, seconds, { absolute: 1e-6 });
    expectNumber(elapsed.set, set, { absolute: 1e-6 });
  });

  test("a later stamp of the same phase goes by the start's time, so that the length is right", () => {
    const now = later(1500, { set: 3600 });
    expectNumber(wallSince(lit, now), lit.wall + 1_500_000, { absolute: 1 });
  });

  test("the process's own clock counts", async () => {
    const from = machineTime();
    await wait(250);
    const { seconds, set } = elapsedSince(from, machineTime());
    expect(set).toBe(0);
    // uptime() has hundredths of a second, and a busy machine comes late.
    expect(seconds).toBeGreaterThanOrEqual(0.2);
    expect(seconds).toBeLessThan(30);
  });
});

describe("time since a moment that was typed", () => {
  const now: MachineTime = { wall: new Date(2026, 2, 10, 10, 0, 0).getTime(), uptime: 5, boot: null };
  test.for([
    ["09:30", "2026-03-10", 1800],
    ["9:30:30", "2026-03-10", 1770],
    ["10:00", "2026-03-10", 0],
    // Still to come, of another day, or of no day that is known.
    ["10:01", "2026-03-10", null],
    ["09:30", "2026-03-08", null],
    ["09:30", null, null],
    ["half past nine", "2026-03-10", null],
    ["", "2026-03-10", null],
  ] as const)("%s of %s", ([time, date, seconds]) => {
    expect(elapsedSinceTyped(time, date, now)).toBe(seconds);
  });

  // A run keeps the date on which it was begun.
  const night: MachineTime = { wall: new Date(2026, 2, 10, 0, 20, 0).getTime(), uptime: 5, boot: null };
  test.for([
    ["23:50", "2026-03-09", 1800],
    ["00:05", "2026-03-09", 900],
    ["00:05", "2026-03-10", 900],
    ["00:25", "2026-03-09", null],
    ["23:50", "2026-03-10", null],
    ["23:50", "2026-03-08", null],
  ] as const)("over midnight: %s of %s", ([time, date, seconds]) => {
    expect(elapsedSinceTyped(time, date, night)).toBe(seconds);
  });
});

test("times and dates are written as the machine's place has them", () => {
  const wall = new Date(2026, 0, 5, 7, 4, 9).getTime();
  expect([clockTextOf(wall), dateTextOf(wall)]).toEqual(["07:04:09", "2026-01-05"]);
});
