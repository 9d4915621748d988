import { execFileSync } from "node:child_process";
import { chmodSync, chownSync, copyFileSync, mkdirSync, readdirSync, renameSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { createStudyFile, listBackups, openStudyFile } from "../../../app/store/index.ts";
import { fillDrive, mountDrive, pullOut, remount } from "./drive.ts";
import { OtherProcess } from "./other-process.ts";
import { faultOf, filesBelow, makeRoom, makeStudy, nameIn, newStudy, type Room, rename, trace } from "./support.ts";

const long = "x".repeat(60_000);
const megabyte = 1_048_576;
const whole = ["stove.boilstudy"];

/** A room whose studies lie on a drive of its own. */
function roomOnDrive(bytes: number, place: "local" | "network" = "local"): (Room & { readonly drive: string }) | null {
  const room = makeRoom({ placeOf: () => place });
  const drive = mountDrive(room.folder, bytes);
  return drive === null ? null : { ...room, drive, desk: drive, study: join(drive, "stove.boilstudy") };
}

const studies = (drive: string) =>
  readdirSync(drive).filter((name) => !name.startsWith("filler") && name !== "stove.boilstudy-journal");

describe("a full disk", () => {
  test("an edit says so and changes nothing; confirmed edits stay, and it goes on once there is space", async () => {
    const room = roomOnDrive(2 * megabyte);
    if (room === null) return;
    await makeStudy(room, "First");
    const file = await openStudyFile(room.study, room.places);
    rename(file.database, "Confirmed");
    const free = fillDrive(room.drive, 0);
    for (const _ of [1, 2, 3]) {
      file.beforeEdit();
      expect(await faultOf(() => rename(file.database, long))).toBe("full");
      expect(file.database.head().name).toBe("Confirmed");
    }
    free();
    expect(nameIn(room.study)).toBe("Confirmed");
    file.beforeEdit();
    rename(file.database, "After");
    await file.close();
    expect(nameIn(room.study)).toBe("After");
    expect(filesBelow(room.drive)).toEqual(whole);
  });

  test("a program that dies while the disk is full leaves a study that opens", async () => {
    const room = roomOnDrive(2 * megabyte);
    if (room === null) return;
    await makeStudy(room, "First");
    const other = new OtherProcess(room, "Bero");
    await other.hears();
    await other.told("edit Confirmed");
    const free = fillDrive(room.drive, 8192);
    expect(await other.told(`edit ${long}`)).toEqual({ fault: "full" });
    await other.dies();
    const file = await openStudyFile(room.study, room.places);
    expect(file.database.head().name).toBe("Confirmed");
    await file.close();
    free();
    expect(nameIn(room.study)).toBe("Confirmed");
  });

  test("no half of a new study, of a copy or of what is written back is left", async () => {
    const room = roomOnDrive(megabyte);
    const network = room === null ? null : { ...room, places: { ...room.places, placeOf: () => "network" as const } };
    if (room === null || network === null) return;
    await makeStudy(room, "First");
    const file = await openStudyFile(room.study, network.places);
    rename(file.database, "Second");
    const free = fillDrive(room.drive, 40_000);
    const before = trace(room.study);
    expect(await faultOf(() => createStudyFile(join(room.drive, "new.boilstudy"), newStudy, room.places))).toBe("full");
    expect(await faultOf(() => file.saveCopy(join(room.drive, "copy.boilstudy")))).toBe("full");
    expect(await faultOf(() => file.writeBack())).toBe("full");
    expect(studies(room.drive)).toEqual(whole);
    expect(trace(room.study)).toBe(before);
    rename(file.database, "Third");
    free();
    await file.close();
    expect(nameIn(room.study)).toBe("Third");
    expect(studies(room.drive)).toEqual(whole);
  });

  test("where the program's own folder is full, a study opens, is edited and closed; the backup that failed is said", async () => {
    const room = makeRoom();
    const drive = mountDrive(room.folder, megabyte);
    if (drive === null) return;
    const places = { ...room.places, dataFolder: join(drive, "data") };
    await makeStudy({ ...room, places }, "First");
    const free = fillDrive(drive, 0);
    const file = await openStudyFile(room.study, places);
    expect(file.readOnly).toBeNull();
    file.beforeEdit();
    rename(file.database, "Second");
    expect(await faultOf(() => file.backUp())).toBe("full");
    expect(await faultOf(() => file.close())).toBe("full");
    expect(filesBelow(join(drive, "data", "backups"))).toEqual([]);
    expect(nameIn(room.study)).toBe("Second");
    free();
    const again = await openStudyFile(room.study, places);
    rename(again.database, "Third");
    await again.close();
    expect(listBackups(again.database.identity, places)).toMatchObject([{ sound: true, why: "atClose" }]);
  });

  test("a limit on the size of files (RLIMIT_FSIZE), in a program of its own: confirmed edits stay", async () => {
    const room = makeRoom();
    await makeStudy(room, "First");
    // In units of 1024 bytes. The signal is ignored, as without a handler it would end the program.
    const other = new OtherProcess(room, "Bero", { shell: "trap '' XFSZ; ulimit -f 160" });
    expect(await other.hears()).toMatchObject({ readOnly: null });
    expect(await other.told("edit Confirmed")).toEqual({ done: null });
    expect(await other.told(`edit ${long}`)).toEqual({ fault: expect.stringMatching(/^(full|unreadable)$/) });
    expect(await other.told("read")).toEqual({ done: "Confirmed" });
    expect(await other.told(`copy ${join(room.desk, "copy.boilstudy")}`)).toBeDefined();
    await other.dies();
    const file = await openStudyFile(room.study, room.places);
    expect(file.readOnly).toBeNull();
    expect(file.database.head().name).toBe("Confirmed");
    await file.close();
    expect(nameIn(room.study)).toBe("Confirmed");
  });
});

describe("a place that cannot be written to", () => {
  test("a folder or a file of somebody else, for a program under another user", async () => {
    const room = makeRoom();
    await makeStudy(room, "First");
    if (process.getuid?.() !== 0) {
      console.warn("Not run as root: no program can be started under another user.");
      return;
    }
    const nobody = 65_534;
    chmodSync(room.folder, 0o755);
    const data = join(room.folder, "data of another");
    mkdirSync(data);
    chownSync(data, nobody, nobody);
    const theirs = { ...room, places: { ...room.places, dataFolder: data } };
    const before = trace(room.study);
    const [folder, file] = [
      () => chmodSync(room.desk, 0o755),
      () => {
        chmodSync(room.desk, 0o777);
        chmodSync(room.study, 0o644);
      },
    ];
    for (const lay of [folder, file]) {
      lay();
      const other = new OtherProcess(theirs, "Bero", { uid: nobody });
      expect(await other.hears()).toMatchObject({ readOnly: { because: "readOnlyPlace" }, name: "First" });
      expect(await other.told("edit Not")).toEqual({ fault: "readOnly" });
      expect(await other.told("close")).toEqual({ done: null });
      await other.dies();
      expect(filesBelow(room.desk)).toEqual(whole);
    }
    // The rights were set anew, which is all that changed.
    expect(trace(room.study).split(" ").at(-1)).toBe(before.split(" ").at(-1));

    chmodSync(room.study, 0o600);
    const other = new OtherProcess(theirs, "Bero", { uid: nobody });
    expect(await other.hears()).toEqual({ fault: "readOnlyPlace" });
  });

  test("a drive that was mounted to be read: the study is shown, and nothing is made on it", async () => {
    const room = roomOnDrive(2 * megabyte);
    if (room === null) return;
    await makeStudy(room, "First");
    remount(room.drive, "ro");
    const before = trace(room.study);
    const file = await openStudyFile(room.study, room.places);
    expect(file.readOnly).toEqual({ because: "readOnlyPlace", detail: room.study });
    expect(file.database.head().name).toBe("First");
    expect(await faultOf(() => file.saveCopy(join(room.drive, "copy.boilstudy")))).toBe("readOnlyPlace");
    expect(await faultOf(() => createStudyFile(join(room.drive, "new.boilstudy"), newStudy, room.places))).toBe(
      "readOnlyPlace",
    );
    const saved = join(room.folder, "saved.boilstudy");
    await file.saveCopy(saved);
    expect(nameIn(saved)).toBe("First");
    await file.close();
    expect(trace(room.study)).toBe(before);
    expect(filesBelow(room.drive)).toEqual(whole);
    remount(room.drive, "rw");
    const again = await openStudyFile(room.study, room.places);
    expect(again.readOnly).toBeNull();
    await again.close();
  });
});

describe("a drive that vanishes", () => {
  test("pulled out while a study is open: said before the edit; what was confirmed is on it when it is back", async () => {
    const room = roomOnDrive(2 * megabyte);
    if (room === null) return;
    await makeStudy(room, "First");
    // The same drive under a second path keeps what is on it, as a drive does that is pulled out.
    const keeper = join(room.folder, "keeper");
    mkdirSync(keeper);
    execFileSync("mount", ["--bind", room.drive, keeper]);
    try {
      const file = await openStudyFile(room.study, room.places);
      rename(file.database, "Confirmed");
      pullOut(room.drive);
      expect(await faultOf(() => file.beforeEdit())).toBe("gone");
      // As long as the system keeps what was open of it, that is copied; a stick that is truly out gives a fault instead.
      expect(await file.backUp()).toMatchObject({ edits: 3, sound: true });
      await file.saveCopy(join(room.folder, "copy.boilstudy"));
      expect(nameIn(join(room.folder, "copy.boilstudy"))).toBe("Confirmed");
      await file.close();
      expect(await faultOf(() => openStudyFile(room.study, room.places))).toBe("gone");
      expect(filesBelow(room.drive)).toEqual([]);
      expect(nameIn(join(keeper, "stove.boilstudy"))).toBe("Confirmed");
      copyFileSync(join(keeper, "stove.boilstudy"), room.study);
      const again = await openStudyFile(room.study, room.places);
      expect(again.readOnly).toBeNull();
      expect(again.database.head().name).toBe("Confirmed");
      await again.close();
    } finally {
      execFileSync("umount", ["-l", keeper]);
    }
  });

  test("a study that was moved while it is open, and moved back", async () => {
    const room = makeRoom();
    await makeStudy(room, "First");
    const file = await openStudyFile(room.study, room.places);
    const elsewhere = join(room.desk, "moved.boilstudy");
    renameSync(room.study, elsewhere);
    expect(await faultOf(() => file.beforeEdit())).toBe("gone");
    renameSync(elsewhere, room.study);
    file.beforeEdit();
    rename(file.database, "Second");
    await file.close();
    expect(nameIn(room.study)).toBe("Second");
    expect(filesBelow(room.desk)).toEqual(whole);
  });
});
