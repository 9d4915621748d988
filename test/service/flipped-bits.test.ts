import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { UserFolders } from "../../app/service/index.ts";
import { StudyDatabase } from "../../app/store/index.ts";
import { seededGenerator } from "../../core/index.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";
import { ask, firstChoice, makeEdit, rename, taken, undo, who } from "./requests.ts";

let folders: UserFolders;
let remove: () => void;
beforeEach(() => {
  ({ folders, remove } = ownFolders());
});
afterEach(() => remove());

const flipped = (bytes: Uint8Array, place: number, bit: number): Uint8Array => {
  const copy = Uint8Array.from(bytes);
  copy[place] = (copy[place] ?? 0) ^ (1 << bit);
  return copy;
};

/** A study of 25 runs with a record, and the bytes of its file. */
async function study() {
  const { door } = ownDoor(folders);
  const { study: handle, file } = await taken(door, "Of 25 runs");
  await makeEdit(door, handle, { kind: "leaveOut", run: "3", reason: "spilt" });
  await makeEdit(door, handle, rename("Renamed"));
  await undo(door, handle);
  await door.close();
  return { handle, file, bytes: readFileSync(file) };
}

/** What a person sees of it: readings, settings, record. */
async function seen(handle: string): Promise<{ readOnly: string | null; content: string } | null> {
  const { door } = ownDoor(folders);
  const reply = await door.ask({ kind: "study.open", place: handle });
  if (!reply.ok) {
    expect(reply.reason).toBe("refused");
    await door.close();
    return null;
  }
  // An edit makes sure that all has been checked: this one changes nothing.
  await door.ask({ kind: "edit.undo", study: handle, who, edit: 999_999 });
  const { readOnly } = await ask<"study.state">(door, { kind: "study.state", study: handle });
  const texts: unknown[] = [];
  for (const what of ["readings.csv", "settings.json"] as const) {
    texts.push(await door.ask({ kind: "export", study: handle, what, choice: firstChoice }));
  }
  texts.push(await door.ask({ kind: "record.show", study: handle, before: null }));
  await door.close();
  return { readOnly, content: JSON.stringify(texts) };
}

it("a bit that is flipped anywhere is told of, or changes nothing; the file is never written to", async () => {
  const spy = vi.spyOn(console, "error");
  const { handle, file, bytes } = await study();
  const whole = await seen(handle);
  expect(whole?.readOnly).toBeNull();
  const random = seededGenerator(77);
  let told = 0;
  for (let count = 0; count < 60; count += 1) {
    const [place, bit] = [Math.floor(random.uniform() * bytes.length), Math.floor(random.uniform() * 8)];
    const broken = flipped(bytes, place, bit);
    writeFileSync(file, broken);
    const found = await seen(handle);
    if (found?.readOnly === null) expect(found.content, `bit ${bit} of byte ${place}`).toBe(whole?.content);
    else told += 1;
    expect(readFileSync(file).equals(broken), `bit ${bit} of byte ${place}`).toBe(true);
  }
  // The rest lies where pages hold nothing.
  expect(told).toBeGreaterThan(10);
  expect(spy).not.toHaveBeenCalled();
  spy.mockRestore();
}, 60_000);

it("a bit that is flipped in the index of acts is found, also where it only disturbs the order", async () => {
  const { file, bytes } = await study();
  const pages = new DatabaseSync(file, { readOnly: true });
  const leaves = pages.prepare("SELECT pageno FROM dbstat WHERE name = 'reading_act' AND pagetype = 'leaf'").all();
  pages.close();
  const path = join(folders.studies, "flipped.boilstudy");
  const random = seededGenerator(5);
  let broken = 0;
  for (let count = 0; count < 400; count += 1) {
    const page = Number(leaves[count % leaves.length]?.pageno);
    const place = (page - 1) * 4096 + Math.floor(random.uniform() * 4096);
    writeFileSync(path, flipped(bytes, place, Math.floor(random.uniform() * 8)));
    if (isWholeToSqlite(path)) continue;
    broken += 1;
    expect(() => checked(path), `byte ${place}`).toThrow(/damaged/);
  }
  expect(broken).toBeGreaterThan(100);
}, 60_000);

/** SQLite's own check of every page, index and row: it says what is to be found. */
function isWholeToSqlite(path: string): boolean {
  const connection = new DatabaseSync(path, { readOnly: true });
  try {
    return Object.values(connection.prepare("PRAGMA integrity_check(1)").get() ?? {})[0] === "ok";
  } catch {
    return false;
  } finally {
    connection.close();
  }
}

function checked(path: string): void {
  const database = StudyDatabase.open(path, { readOnly: false, program: "test" });
  try {
    for (const _ of database.verify());
  } finally {
    database.close();
  }
}
