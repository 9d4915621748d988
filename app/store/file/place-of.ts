/**
 * What kind of place a file lies on. On a network the locks and the order of writes that SQLite relies on cannot be trusted, and in a
 * synced folder another program may take up or replace a file half way through an edit: there a study is worked on as a copy.
 */
export type Place = "local" | "network" | "synced";

export interface PlaceFacts {
  /** Type of the file system as statfs(2) gives it; null where it is not known (Windows has none). */
  readonly fileSystem: number | null;
  readonly platform: NodeJS.Platform;
}

/**
 * Types of file systems that are not of this machine's own disks. Source: statfs(2) of the Linux manual and linux/magic.h, from
 * memory. FUSE is what most remote file systems that are no part of the kernel come as; a disk that is mounted through it
 * is taken for one too, which costs a copy and risks nothing.
 */
const networkFileSystems: ReadonlyMap<number, string> = new Map([
  [0x6969, "NFS"],
  [0x517b, "SMB"],
  [0xff534d42, "CIFS"],
  [0xfe534d42, "SMB2"],
  [0x01021997, "9P"],
  [0x5346414f, "AFS"],
  [0x6b414653, "AFS of the kernel"],
  [0x00c36400, "Ceph"],
  [0x65735546, "FUSE"],
  [0x564c, "NCP"],
  [0x73757245, "Coda"],
  [0x0bd00bd0, "Lustre"],
  [0x47504653, "GPFS"],
  [0x01161970, "GFS2"],
  [0x7461636f, "OCFS2"],
  [0x786f4256, "shared folder of a virtual machine"],
  [0x7c7c6673, "shared folder of a virtual machine"],
]);

/**
 * Folders that programs keep equal with another machine, by the names that these give them (from memory). The name alone, or
 * followed by whose it is: `OneDrive - Workshop`, `Dropbox (Workshop)`.
 */
const syncedFolders: readonly string[] = [
  "Dropbox",
  "OneDrive",
  "Google Drive",
  "GoogleDrive",
  "My Drive",
  "iCloud Drive",
  "iCloudDrive",
  "com~apple~CloudDocs",
  "Mobile Documents",
  "CloudStorage",
  "Nextcloud",
  "ownCloud",
  "Seafile",
  "Syncthing",
  "Sync",
  "Box",
  "Box Sync",
  "pCloudDrive",
  "pCloud Drive",
  "MEGA",
  "MEGAsync",
  "Yandex.Disk",
  "SynologyDrive",
  "Tresorit",
];
const syncedNames = new Set(syncedFolders.map((name) => name.toLowerCase()));

/** `path` is a real path, absolute. */
export function placeOf(path: string, facts: PlaceFacts): Place {
  if (facts.platform === "win32" && isUncPath(path)) return "network";
  // A 32-bit system gives the type with its sign: 0xff534d42 comes as a negative number.
  if (facts.fileSystem !== null && networkFileSystems.has(facts.fileSystem >>> 0)) return "network";
  const folders = path.split(facts.platform === "win32" ? /[\\/]/ : "/").slice(0, -1);
  return folders.some(isSynced) ? "synced" : "local";
}

/** `\\server\share\…` in its spellings; `\\?\C:\…` and `\\.\…` are of this machine. */
function isUncPath(path: string): boolean {
  const backslashed = path.replaceAll("/", "\\");
  if (!backslashed.startsWith("\\\\")) return false;
  return /^\\\\[?.]\\/.test(backslashed) ? /^\\\\[?.]\\UNC\\/i.test(backslashed) : true;
}

function isSynced(folder: string): boolean {
  const name = folder.toLowerCase();
  const owned = /^(.*?) (?:-|\().*$/.exec(name)?.[1];
  return syncedNames.has(name) || (owned !== undefined && syncedNames.has(owned));
}
