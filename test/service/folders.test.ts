import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Door, Request } from "../../app/contract/index.ts";
import type { UserFolders } from "../../app/service/index.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";
import { ask, refusal, taken, who } from "./requests.ts";

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

async function restart(others: UserFolders = folders): Promise<void> {
  await door.close();
  door = ownDoor(others).door;
}

const create: Request = { kind: "study.create", name: "New", method: "wbt", who };
const shelf = () => ask<"shelf.show">(door, { kind: "shelf.show" });

describe("the list of recent studies", () => {
  const list = () => join(folders.data, "recent.json");

  it("is read as far as it is sound, whatever else is in it", async () => {
    const { file, study } = await taken(door, "Weighed");
    await door.close();
    const entry = { path: file, name: "Weighed", at: "2026-01-02T03:04:05.000Z" };
    const hostile = [
      { ...entry, path: "a\0b" },
      { ...entry, path: "relative.boilstudy" },
      { ...entry, name: 5 },
      { ...entry, name: "x".repeat(100_000) },
      { ...entry, at: "yesterday" },
      null,
      "text",
    ];
    const names = ["Ama", "", " ", "x".repeat(201), "\ud800", 7, null];
    writeFileSync(list(), JSON.stringify({ names, studies: [...hostile, entry] }));
    await restart();
    const view = await shelf();
    expect(view.names).toEqual(["Ama"]);
    expect(view.studies).toMatchObject([{ place: study, recent: true, isGone: false }]);
    expect((await door.ask({ kind: "study.open", place: study })).ok).toBe(true);
  });

  it("that is far too large, no list, or a folder keeps nobody from working", async () => {
    const { study } = await taken(door, "Weighed");
    const spoil: (() => void)[] = [
      () => writeFileSync(list(), " ".repeat(5_000_000)),
      () => writeFileSync(list(), `{"names":`),
      () => writeFileSync(list(), `[]`),
      () => mkdirSync(list()),
    ];
    for (const write of spoil) {
      await door.close();
      rmSync(list(), { recursive: true, force: true });
      write();
      await restart();
      expect((await shelf()).studies).toMatchObject([{ place: study, recent: false }]);
      expect(await ask<"study.open">(door, { kind: "study.open", place: study })).toMatchObject({ readOnly: null });
    }
  });

  it("has at most fifty entries looked at", async () => {
    await door.close();
    mkdirSync(folders.data, { recursive: true });
    const studies = Array.from({ length: 500 }, (_, index) => ({
      path: `/nowhere/${index}`,
      name: "n",
      at: "2026-01-02T03:04:05.000Z",
    }));
    writeFileSync(list(), JSON.stringify({ names: [], studies }));
    await restart();
    expect((await shelf()).studies).toHaveLength(50);
  });
});

describe("folders that cannot be used", () => {
  it("say which folder it is, and never that something went wrong: the program's own", async () => {
    const spy = vi.spyOn(console, "error");
    const { study } = await taken(door, "Weighed");
    const blocked = join(folders.data, "file");
    writeFileSync(blocked, "a file in the way");
    for (const data of [blocked, join(blocked, "below")]) {
      await restart({ studies: folders.studies, data });
      const asked: Request[] = [
        create,
        { kind: "study.open", place: study },
        { kind: "backups.ofPlace", place: study },
      ];
      for (const message of asked)
        expect(await refusal(door, message), message.kind).toMatch(/folder in which it keeps/);
      expect(await refusal(door, { kind: "study.openExample" })).toContain(join(data, "examples"));
      expect((await shelf()).studies).toHaveLength(1);
    }
    expect(readdirSync(folders.studies)).toEqual(["Weighed.boilstudy"]);
    expect(spy).not.toHaveBeenCalled();
    spy.mockRestore();
  });

  it("say which folder it is: that of the studies", async () => {
    const blocked = join(folders.data, "file");
    mkdirSync(folders.data, { recursive: true });
    writeFileSync(blocked, "a file in the way");
    await restart({ studies: join(blocked, "studies"), data: folders.data });
    expect(await refusal(door, create)).toContain(join(blocked, "studies"));
    const file = { name: "a.boilstudy", contentBase64: "AAAA" };
    expect(await refusal(door, { kind: "study.receive", file })).toContain(join(blocked, "studies"));
  });

  it("are made where they are missing", async () => {
    await restart({ studies: join(folders.studies, "deep", "er"), data: join(folders.data, "deep", "er") });
    const { file } = await ask<"study.create">(door, { ...create } as Extract<Request, { kind: "study.create" }>);
    expect(existsSync(file)).toBe(true);
  });
});
