import {
  copyFileSync,
  existsSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Door } from "../../app/contract/index.ts";
import type { UserFolders } from "../../app/service/index.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";
import { ask, firstChoice, makeEdit, refusal, rename, taken, who } from "./requests.ts";

let folders: UserFolders;
let remove: () => void;
let door: Door;
beforeEach(() => {
  ({ folders, remove } = ownFolders());
  door = ownDoor(folders).door;
});
afterEach(async () => {
  await door.close();
  remove();
});

const show = (study: string) => ask<"study.show">(door, { kind: "study.show", study });
const open = (place: string) => ask<"study.open">(door, { kind: "study.open", place });

describe("a study that another program changed while it is open", () => {
  const ways: readonly [string, (file: string, older: string) => void][] = [
    [
      "replaced by a copy of yesterday",
      (file, older) => {
        copyFileSync(older, `${file}.new`);
        renameSync(`${file}.new`, file);
      },
    ],
    ["written over in place by a copy of yesterday", (file, older) => writeFileSync(file, readFileSync(older))],
  ];
  for (const [what, change] of ways) {
    it(`${what}: nothing is written to it, and opening it again, as the sentence says, goes on with what is there`, async () => {
      const { study, file } = await taken(door, "Weighed");
      const older = `${file}.older`;
      copyFileSync(file, older);
      await makeEdit(door, study, rename("Of today"));
      change(file, older);
      const there = readFileSync(file);
      const edit = { kind: "edit.make", study, who, edit: rename("Lost?") } as const;
      expect(await refusal(door, edit)).toMatch(/changed or replaced.*Open the study again/s);
      expect(readFileSync(file).equals(there)).toBe(true);
      expect(await open(study)).toMatchObject({ name: "Weighed", readOnly: null });
      await makeEdit(door, study, rename("Goes on"));
      expect(await show(study)).toMatchObject({ name: "Goes on" });
    });
  }

  it("cut to nothing: every request is answered with a sentence", async () => {
    const spy = vi.spyOn(console, "error");
    const { study, file } = await taken(door, "Weighed");
    truncateSync(file, 0);
    const { importId } = await ask<"import.check">(door, {
      kind: "import.check",
      readings: { name: "a.csv", contentBase64: "" },
      settings: null,
    });
    for (const message of [
      { kind: "study.show", study },
      { kind: "study.state", study },
      { kind: "runs.show", study },
      { kind: "record.show", study, before: null },
      { kind: "cell.history", study, run: "1", phase: null, column: "run" },
      { kind: "compare.show", study, choice: firstChoice },
      { kind: "export", study, what: "study", choice: firstChoice },
      { kind: "edit.make", study, who, edit: rename("x") },
      { kind: "edit.undo", study, who, edit: 2 },
      { kind: "study.saveCopy", study, name: "copy" },
      { kind: "backups.make", study },
      { kind: "import.accept", importId, into: { kind: "open", study }, who },
    ]) {
      const reply = await door.ask(message);
      if (!reply.ok) expect(reply.reason, message.kind).toBe("refused");
    }
    expect(readFileSync(file)).toHaveLength(0);
    expect(await refusal(door, { kind: "study.open", place: study })).toMatch(/empty/);
    await door.close();
    expect(spy).not.toHaveBeenCalled();
    spy.mockRestore();
  });

  it("deleted: what is open can be copied, and its last edits are in a backup when it is closed", async () => {
    const { study, file } = await taken(door, "Weighed");
    await makeEdit(door, study, rename("Last word"));
    rmSync(file);
    expect(await refusal(door, { kind: "edit.make", study, who, edit: rename("x") })).toMatch(/save a copy/);
    expect(await open(study)).toMatchObject({ name: "Last word" });
    const { fileName } = await ask<"study.saveCopy">(door, { kind: "study.saveCopy", study, name: "Rescued" });
    expect(existsSync(fileName)).toBe(true);
    await door.close();
    door = ownDoor(folders).door;
    const { backups } = await ask<"backups.ofPlace">(door, { kind: "backups.ofPlace", place: study });
    const back = await ask<"backups.open">(door, { kind: "backups.open", place: study, backup: backups[0]?.id ?? "" });
    expect(back.name).toBe("Last word");
    expect((await door.openFile(fileName)).ok).toBe(true);
  });

  it("deleted, and another begun under its name: that one can be written to", async () => {
    const { file } = await taken(door, "Weighed");
    rmSync(file);
    const again = await ask<"study.create">(door, { kind: "study.create", name: "Weighed", method: "wbt", who });
    expect(again).toMatchObject({ file, runs: 0, readOnly: null });
    await makeEdit(door, again.study, rename("New"));
  });
});

describe("windows that ask at once", () => {
  it("get one example at the first start", async () => {
    const views = await Promise.all([1, 2, 3].map(() => ask<"study.show">(door, { kind: "study.show", study: null })));
    expect(new Set(views.map(({ file }) => file)).size).toBe(1);
    await makeEdit(door, views[0]?.study ?? "", rename("Mine"));
  });

  it("get studies of their own where they begin some of one name, and all can be written to", async () => {
    const begun = await Promise.all(
      [1, 2, 3].map(() => ask<"study.create">(door, { kind: "study.create", name: "Same", method: "wbt", who })),
    );
    expect(new Set(begun.map(({ file }) => file)).size).toBe(3);
    for (const { study } of begun) await makeEdit(door, study, rename("Written"));
  });

  it("get the same session of a study that could only be read before", async () => {
    const { study, file } = await taken(door, "Weighed");
    const other = ownDoor(folders);
    await door.close();
    door = other.door;
    await open(study);
    truncateSync(file, statSync(file).size - 1);
    // Cut short: opened anew it can only be read.
    expect((await open(study)).readOnly).toMatch(/damaged/);
    const views = await Promise.all([1, 2, 3].map(() => open(study)));
    expect(views.map(({ readOnly }) => readOnly?.slice(0, 20))).toEqual(Array(3).fill("This file is damaged"));
    expect((await show(study)).readOnly).toMatch(/damaged/);
  });
});
