import { symlinkSync } from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { openStudyFile } from "../../../app/store/index.ts";
import { OtherProcess } from "./other-process.ts";
import { faultOf, filesBelow, makeRoom, makeStudy, rename, trace } from "./support.ts";

test("the second program only reads, knows who holds the study, and sees later edits", async () => {
  const room = makeRoom();
  await makeStudy(room, "First");
  const first = new OtherProcess(room, "Bero");
  expect(await first.hears()).toEqual({ readOnly: null, notes: [], name: "First" });

  const file = await openStudyFile(room.study, room.places);
  expect(file.readOnly).toEqual({
    because: "held",
    holder: { who: "Bero", process: first.id, machine: hostname(), since: expect.stringMatching(/^\d{4}-.*Z$/) },
  });
  expect(file.database.head().name).toBe("First");
  expect(await faultOf(() => file.beforeEdit())).toBe("readOnly");
  expect(await faultOf(() => rename(file.database, "Mine"))).toBe("readOnly");
  expect(file.refresh()).toBe(false);

  // Many edits within one tick of a file system's clock: none is missed.
  for (let edit = 1; edit <= 20; edit++) {
    expect(await first.told(`edit Edit ${edit}`)).toEqual({ done: null });
    expect(file.refresh(), `edit ${edit}`).toBe(true);
    expect(file.database.head().name).toBe(`Edit ${edit}`);
    expect(file.refresh()).toBe(false);
  }
  await file.saveCopy(join(room.desk, "copy.boilstudy"));
  expect(await file.backUp()).toBeNull();
  const before = trace(room.study);
  await file.close();
  expect(trace(room.study)).toBe(before);
  expect(await first.told("edit After that")).toEqual({ done: null });
  expect(await first.told("close")).toEqual({ done: null });
});

test("by another spelling of the path too", async () => {
  const room = makeRoom();
  await makeStudy(room);
  const first = new OtherProcess(room, "Bero");
  await first.hears();
  symlinkSync(room.study, join(room.folder, "link"));
  const file = await openStudyFile(join(room.folder, "link"), room.places);
  expect(file.readOnly?.because).toBe("held");
  await file.close();
});

test("when the first dies, the next writes without anyone's help, and every confirmed edit is there", async () => {
  const room = makeRoom();
  await makeStudy(room);
  for (let round = 1; round <= 3; round++) {
    const first = new OtherProcess(room, "Bero");
    expect(await first.hears()).toMatchObject({ readOnly: null });
    expect(await first.told(`edit Round ${round}`)).toEqual({ done: null });
    await first.dies();
    const file = await openStudyFile(room.study, room.places);
    expect(file.readOnly).toBeNull();
    expect(file.database.head().name).toBe(`Round ${round}`);
    file.beforeEdit();
    rename(file.database, "Went on");
    await file.close();
  }
});

test("private copies of a program that died are gone after the next opening, those of one that lives are not", async () => {
  const room = makeRoom();
  await makeStudy(room);
  const first = new OtherProcess(room, "Bero");
  await first.hears();
  const second = new OtherProcess(room, "Cira");
  expect(await second.hears()).toMatchObject({ readOnly: { because: "held", holder: { who: "Bero" } } });
  const privately = () => filesBelow(join(room.places.dataFolder, "private")).length;
  expect(privately()).toBe(1);
  const third = await openStudyFile(room.study, room.places);
  expect(privately()).toBe(2);
  await third.close();
  expect(privately()).toBe(1);
  await second.dies();
  expect(privately()).toBe(1);
  await first.dies();
  const file = await openStudyFile(room.study, room.places);
  expect(privately()).toBe(0);
  await file.close();
});

test("of several that open at once, one writes", async () => {
  const room = makeRoom();
  await makeStudy(room);
  const all = ["Ana", "Bero", "Cira", "Dov"].map((who) => new OtherProcess(room, who));
  const said = (await Promise.all(all.map((each) => each.hears()))) as { readOnly: { because: string } | null }[];
  expect(said.filter(({ readOnly }) => readOnly === null)).toHaveLength(1);
  expect(said.filter(({ readOnly }) => readOnly?.because === "held")).toHaveLength(3);
});
