import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Door } from "../../app/contract/index.ts";
import { createDoor, type UserFolders } from "../../app/service/index.ts";

/** Folders of a user of our own: nothing of whoever runs the tests is read or written. */
export function ownFolders(): { readonly folders: UserFolders; readonly remove: () => void } {
  const home = mkdtempSync(join(tmpdir(), "boilbench-user-"));
  return {
    folders: { studies: join(home, "studies"), data: join(home, "data") },
    remove: () => rmSync(home, { recursive: true, force: true }),
  };
}

/** The real service on folders of its own; `close` takes them away. */
export function ownDoor(folders?: UserFolders): {
  readonly door: Door;
  readonly folders: UserFolders;
  close(): Promise<void>;
} {
  const own = folders === undefined ? ownFolders() : { folders, remove: () => {} };
  const door = createDoor({ folders: own.folders });
  return {
    door,
    folders: own.folders,
    async close() {
      await door.close();
      own.remove();
    },
  };
}
