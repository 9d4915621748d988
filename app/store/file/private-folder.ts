import { createHash, randomBytes } from "node:crypto";
import { mkdirSync, readdirSync, rmSync } from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { codeOf } from "./disk.ts";
import { ownFolder, type Places } from "./places.ts";

/** Folders of private copies are named for their process: that of one that is gone can be taken away. */
const machine = createHash("sha256").update(hostname()).digest("hex").slice(0, 12);

/** A new folder that nobody but the owner may look into, for copies that are gone when the study is closed. */
export function makePrivateFolder(places: Places): string {
  const path = join(ownFolder(places, "private"), `${machine}-${process.pid}-${randomBytes(6).toString("hex")}`);
  mkdirSync(path, { mode: 0o700 });
  return path;
}

export function removePrivateFolder(path: string): void {
  rmSync(path, { recursive: true, force: true });
}

/** Takes away what processes of this machine left that are gone. */
export function sweepPrivateFolders(places: Places): void {
  const folder = ownFolder(places, "private");
  for (const name of readdirSync(folder)) {
    const owner = /^([0-9a-f]{12})-(\d{1,10})-[0-9a-f]{12}$/.exec(name);
    if (owner?.[1] !== machine || isAlive(Number(owner[2]))) continue;
    removePrivateFolder(join(folder, name));
  }
}

/** Whether a process of this machine is there. A number that was given anew counts as alive, which only leaves a file longer. */
export function isAlive(id: number): boolean {
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    // It is there, and another's.
    return codeOf(error) === "EPERM";
  }
}
