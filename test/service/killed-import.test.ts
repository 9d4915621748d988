import { spawn } from "node:child_process";
import { once } from "node:events";
import { readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { expect, it } from "vitest";
import { seededGenerator } from "../../core/index.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";
import { ask } from "./requests.ts";

it("a program that is killed while it takes in new studies leaves whole ones alone", async () => {
  const { folders, remove } = ownFolders();
  const random = seededGenerator(11);
  try {
    for (let kill = 0; kill < 8; kill += 1) {
      const child = spawn(process.execPath, [
        join(import.meta.dirname, "killed-importer.ts"),
        folders.studies,
        folders.data,
      ]);
      let said = "";
      child.stdout.on("data", (text) => {
        said += text;
      });
      while (said === "") await setTimeout(5);
      await setTimeout(random.uniform() * 150);
      child.kill("SIGKILL");
      await once(child, "close");
      const { door } = ownDoor(folders);
      const { studies } = await ask<"shelf.show">(door, { kind: "shelf.show" });
      expect(studies.filter(({ file }) => file.startsWith(folders.studies)).length).toBeGreaterThanOrEqual(
        said.trim().split("\n").length,
      );
      for (const { place } of studies) {
        expect(await ask<"study.open">(door, { kind: "study.open", place })).toMatchObject({
          runs: 25,
          readOnly: null,
        });
      }
      await door.close();
      expect(readdirSync(join(folders.data, "private"))).toEqual([]);
      rmSync(folders.studies, { recursive: true, force: true });
      rmSync(join(folders.data, "recent.json"), { force: true });
    }
  } finally {
    remove();
  }
}, 120_000);
