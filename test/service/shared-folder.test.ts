import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { Door } from "../../app/contract/index.ts";
import type { UserFolders } from "../../app/service/index.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";
import { ask, makeEdit, refusal, rename, taken } from "./requests.ts";

/** Studies in a folder that another program keeps equal with other machines: worked on as copies. */
let folders: UserFolders;
let remove: () => void;
let door: Door;
beforeEach(() => {
  const own = ownFolders();
  remove = own.remove;
  folders = { studies: join(dirname(own.folders.studies), "Nextcloud", "studies"), data: own.folders.data };
  door = ownDoor(folders).door;
});
afterEach(async () => {
  await door.close();
  remove();
});

/** Closing says on standard error what could not be written back. */
async function restart(): Promise<void> {
  const spy = vi.spyOn(console, "error").mockImplementation(() => {});
  await door.close();
  spy.mockRestore();
  door = ownDoor(folders).door;
}

const open = (place: string) => ask<"study.open">(door, { kind: "study.open", place });

it("a shared file that somebody else changed stays as it is; the edits made here can be opened from the list", async () => {
  const { study, file } = await taken(door, "Shared");
  const others = readFileSync(file);
  await makeEdit(door, study, rename("Of here"));
  await restart();
  await open(study);
  await makeEdit(door, study, rename("Of here again"));
  writeFileSync(file, others);
  await restart();
  expect(readFileSync(file).equals(others)).toBe(true);
  const again = await open(study);
  expect(again).toMatchObject({ name: "Shared", readOnly: null });
  expect(again.fileNotes.join()).toMatch(/changed by somebody else/);
  const { studies } = await ask<"shelf.show">(door, { kind: "shelf.show" });
  const aside = studies.find(({ name }) => name.includes("set aside"));
  expect(await open(aside?.place ?? "")).toMatchObject({ name: "Of here again", readOnly: null });
});

it("a shared file that is gone when the program ends: the last edits are in a backup", async () => {
  const { study, file } = await taken(door, "Shared");
  await makeEdit(door, study, rename("Last word"));
  rmSync(file);
  await restart();
  expect(await refusal(door, { kind: "study.open", place: study })).toMatch(/no longer there.*backups/);
  const { backups } = await ask<"backups.ofPlace">(door, { kind: "backups.ofPlace", place: study });
  const backup = backups[0]?.id ?? "";
  expect(await ask<"backups.open">(door, { kind: "backups.open", place: study, backup })).toMatchObject({
    name: "Last word",
  });
});
