import { execFileSync } from "node:child_process";
import { mkdirSync, rmSync, statfsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { atEnd } from "./support.ts";

const mounted = new Set<string>();

/** A real drive of its own of so many bytes, in memory. Null where this machine does not let us: said in a line, never silently. */
export function mountDrive(folder: string, bytes: number): string | null {
  const path = join(folder, "drive");
  mkdirSync(path);
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", `size=${bytes},mode=777`, "tmpfs", path], { stdio: "ignore" });
    mounted.add(path);
    atEnd(() => {
      if (mounted.has(path)) pullOut(path);
    });
    return path;
  } catch {
    console.warn(
      "No drive can be mounted here (that takes root): what a full or lost drive does is not tested with one.",
    );
    return null;
  }
}

export function remount(drive: string, how: "ro" | "rw"): void {
  execFileSync("mount", ["-o", `remount,${how}`, drive]);
}

/** Pulled out: its path leads nowhere any more; who has a file of it open keeps what is left of it. */
export function pullOut(drive: string): void {
  execFileSync("umount", ["-l", drive]);
  mounted.delete(drive);
}

/** Takes all the space but so many bytes; gives what frees it. */
export function fillDrive(drive: string, left: number): () => void {
  const filler = join(drive, "filler");
  const { bavail, bsize } = statfsSync(drive);
  writeFileSync(filler, new Uint8Array(Math.max(0, bavail * bsize - left)));
  return () => rmSync(filler);
}
