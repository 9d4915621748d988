import { existsSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";

/** Where the program keeps what is the user's. */
export interface UserFolders {
  /** Studies that are made here; for the person to see. */
  readonly studies: string;
  /** Backups, working copies, the list of recent studies. */
  readonly data: string;
}

/**
 * The folders of this user: `BOILBENCH_STUDIES_FOLDER` and `BOILBENCH_DATA_FOLDER` where they are set; else a folder in the user's
 * documents, and the system's own place for a program's data.
 */
export function userFolders(
  platform: string,
  environment: Readonly<Record<string, string | undefined>>,
  isThere: (path: string) => boolean = existsSync,
): UserFolders {
  const home = environment.HOME || environment.USERPROFILE || homedir();
  const documents = join(home, "Documents");
  const studies = join(isThere(documents) ? documents : home, "Boilbench");
  return {
    studies: environment.BOILBENCH_STUDIES_FOLDER || studies,
    data: environment.BOILBENCH_DATA_FOLDER || dataFolder(platform, environment, home),
  };
}

function dataFolder(platform: string, environment: Readonly<Record<string, string | undefined>>, home: string): string {
  if (platform === "win32")
    return join(environment.LOCALAPPDATA || join(home, "AppData", "Local"), "Boilbench", "Data");
  if (platform === "darwin") return join(home, "Library", "Application Support", "Boilbench", "Data");
  return join(environment.XDG_DATA_HOME || join(home, ".local", "share"), "boilbench");
}
