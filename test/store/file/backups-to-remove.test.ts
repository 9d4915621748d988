import { describe, expect, test } from "vitest";
import type { Backup } from "../../../app/store/file/backup.ts";
import { backupsToRemove } from "../../../app/store/file/backups-to-remove.ts";

const now = new Date("2026-06-30T12:00:00.000Z");

function backup(at: string, change: Partial<Backup> = {}): Backup {
  return { id: at, at, bytes: 1, runs: 1, edits: 1, why: "regular", sound: true, ...change };
}

/** The hour before `now`, a minute apart: the newest. */
const minutes = (count: number) =>
  Array.from({ length: count }, (_, at) => backup(new Date(now.getTime() - (at + 1) * 60_000).toISOString()));
const day = (back: number, hour: number, change: Partial<Backup> = {}) =>
  backup(new Date(Date.UTC(2026, 5, 30 - back, hour)).toISOString(), change);
const gone = (backups: readonly Backup[]) => backupsToRemove(backups, now).map(({ id }) => id);

describe("which backups go", () => {
  test("none of none, and none of the newest ten, however old", () => {
    expect(gone([])).toEqual([]);
    expect(gone(Array.from({ length: 10 }, (_, at) => day(400 + at, 1)))).toEqual([]);
  });

  test("of one day, those beyond the newest ten", () => {
    const all = minutes(13);
    expect(gone(all)).toEqual(all.slice(10).map(({ id }) => id));
  });

  test("the order in which they are given does not matter", () => {
    const all = minutes(12);
    expect(gone(all.toReversed())).toEqual(all.slice(10).map(({ id }) => id));
  });

  test("beyond the ten, the newest of each day stays", () => {
    expect(gone([...minutes(10), day(1, 9), day(1, 8), day(3, 7), day(3, 20)])).toEqual([day(1, 8).id, day(3, 7).id]);
  });

  test("a day is kept for 14 days: one at the limit stays, one beyond goes", () => {
    expect(gone([...minutes(10), day(14, 12), day(14, 11), day(15, 12)])).toEqual([day(14, 11).id, day(15, 12).id]);
  });

  test("of those before a migration the newest three stay, whatever their age", () => {
    const why = "beforeMigration";
    const old = [day(100, 1, { why }), day(200, 1, { why }), day(300, 1, { why }), day(400, 1, { why })];
    expect(gone([...minutes(10), ...old])).toEqual([day(400, 1).id]);
  });

  test("one that is not sound takes no sound one's place", () => {
    const broken = Array.from({ length: 10 }, (_, at) =>
      backup(new Date(now.getTime() - at).toISOString(), { sound: false }),
    );
    const sound = minutes(10);
    expect(gone([...broken, ...sound])).toEqual([]);
    expect(gone([...minutes(10), day(100, 1, { sound: false })])).toEqual([day(100, 1).id]);
  });

  test("a clock that was set back by a day: what was made since stays, and of what it dates later ten", () => {
    const since = minutes(2);
    const later = Array.from({ length: 12 }, (_, at) =>
      backup(new Date(now.getTime() + 86_400_000 - at * 60_000).toISOString()),
    );
    // The newest of today by that clock is another.
    expect(gone([...later, day(0, 23), ...since])).toEqual([later[10], later[11]].map((one) => one?.id));
  });

  test("bounded: of a year with a backup an hour, 10 + 14 days + 3 at most stay", () => {
    const year = Array.from({ length: 365 * 24 }, (_, hour) =>
      backup(new Date(now.getTime() - hour * 3_600_000).toISOString(), {
        why: hour % 100 === 99 ? "beforeMigration" : "regular",
      }),
    );
    const kept = year.length - gone(year).length;
    expect(kept).toBeLessThanOrEqual(10 + 15 + 3);
    expect(kept).toBeGreaterThanOrEqual(24);
  });
});
