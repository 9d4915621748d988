import { describe, expect, test } from "vitest";
import { type Place, placeOf } from "../../../app/store/file/place-of.ts";

/** Types of file systems: statfs(2) of the Linux manual, from memory. */
describe("what kind of place a file lies on", () => {
  test.each<[string, string, number | null, NodeJS.Platform, Place]>([
    ["ext4", "/home/a/stove.boilstudy", 0xef53, "linux", "local"],
    ["tmpfs", "/tmp/stove.boilstudy", 0x01021994, "linux", "local"],
    ["btrfs", "/home/a/stove.boilstudy", 0x9123683e, "linux", "local"],
    ["a stick with FAT", "/media/a/STICK/stove.boilstudy", 0x4d44, "linux", "local"],
    ["NFS", "/srv/lab/stove.boilstudy", 0x6969, "linux", "network"],
    ["SMB", "/srv/lab/stove.boilstudy", 0x517b, "linux", "network"],
    ["CIFS", "/srv/lab/stove.boilstudy", 0xff534d42, "linux", "network"],
    ["CIFS as a 32-bit system gives it", "/srv/lab/stove.boilstudy", 0xff534d42 | 0, "linux", "network"],
    ["SMB2", "/srv/lab/stove.boilstudy", 0xfe534d42, "linux", "network"],
    ["9P, one bit from tmpfs", "/srv/lab/stove.boilstudy", 0x01021997, "linux", "network"],
    ["AFS", "/afs/lab/stove.boilstudy", 0x5346414f, "linux", "network"],
    ["Ceph", "/srv/lab/stove.boilstudy", 0x00c36400, "linux", "network"],
    ["FUSE", "/mnt/far/stove.boilstudy", 0x65735546, "linux", "network"],
    ["unknown", "/home/a/stove.boilstudy", null, "linux", "local"],
    ["a synced folder", "/home/a/Dropbox/tests/stove.boilstudy", 0xef53, "linux", "synced"],
    ["in another case", "/home/a/nextcloud/stove.boilstudy", 0xef53, "linux", "synced"],
    ["a synced folder on a network", "/home/a/Nextcloud/stove.boilstudy", 0x6969, "linux", "network"],
    ["a file of such a name", "/home/a/Dropbox", 0xef53, "linux", "local"],
    ["a folder that only begins so", "/home/a/Dropboxes/stove.boilstudy", 0xef53, "linux", "local"],
    ["a backslash is a letter here", "/home/a/x\\Dropbox\\stove.boilstudy", 0xef53, "linux", "local"],
    ["macOS, iCloud", "/Users/a/Library/Mobile Documents/com~apple~CloudDocs/s.boilstudy", null, "darwin", "synced"],
    ["macOS, others", "/Users/a/Library/CloudStorage/Far-a@b/s.boilstudy", null, "darwin", "synced"],
    ["Windows, a disk", "C:\\Users\\a\\Documents\\s.boilstudy", 0, "win32", "local"],
    ["Windows, a share", "\\\\server\\lab\\s.boilstudy", 0, "win32", "network"],
    ["Windows, a share with slashes", "//server/lab/s.boilstudy", 0, "win32", "network"],
    ["Windows, a long path of a disk", "\\\\?\\C:\\lab\\s.boilstudy", 0, "win32", "local"],
    ["Windows, a long path of a share", "\\\\?\\UNC\\server\\lab\\s.boilstudy", 0, "win32", "network"],
    ["Windows, the same in small letters", "\\\\?\\unc\\server\\lab\\s.boilstudy", 0, "win32", "network"],
    ["Windows, a workshop's own folder", "C:\\Users\\a\\OneDrive - Workshop\\s.boilstudy", 0, "win32", "synced"],
    ["with brackets", "C:\\Users\\a\\Dropbox (Workshop)\\s.boilstudy", 0, "win32", "synced"],
    ["two slashes are nothing on Linux", "//server/lab/s.boilstudy", 0xef53, "linux", "local"],
  ])("%s", (_what, path, fileSystem, platform, expected) => {
    expect(placeOf(path, { fileSystem, platform })).toBe(expected);
  });
});
