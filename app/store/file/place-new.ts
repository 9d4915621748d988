import { realpathSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { StoreFault } from "../fault.ts";
import { discard, diskFault, isThere, publish, removeLeftovers, temporaryBeside } from "./disk.ts";
import { copyAndCheck } from "./snapshot.ts";

/**
 * Puts a copy of a whole file where nothing lies: under a name of its own until it is on disk and was read again. Gives its real path.
 * @throws {StoreFault} "exists" where something lies there, which stays as it is; "gone" where there is no such folder; "full", …
 */
export async function placeNew(from: string, path: string): Promise<string> {
  try {
    if (isThere(path)) throw new StoreFault("exists", path);
    const real = join(realpathSync.native(dirname(path)), basename(path));
    removeLeftovers(dirname(real));
    const temporary = temporaryBeside(real);
    try {
      await copyAndCheck(from, temporary, 0o666 & ~process.umask());
      publish(temporary, real);
    } finally {
      discard(temporary);
    }
    return real;
  } catch (error) {
    throw diskFault(error);
  }
}
