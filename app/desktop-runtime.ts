import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { builtFolder, projectFolder } from "./sources.ts";

/** Finding and fetching Electron's runtime without importing its package, which would start the fetching by itself. */

const packageFolder = join(projectFolder, "node_modules", "electron");

/** The runtime's executable where it is present, else null. */
export function findRuntime(folder = packageFolder, override = process.env.ELECTRON_OVERRIDE_DIST_PATH): string | null {
  try {
    const executable = join(override ?? join(folder, "dist"), readFileSync(join(folder, "path.txt"), "utf8"));
    return existsSync(executable) ? executable : null;
  } catch {
    const executable = override === undefined ? null : join(override, "electron");
    return executable !== null && existsSync(executable) ? executable : null;
  }
}

/** True where a window can be shown at all. */
export function hasDisplay(platform: string, environment: Readonly<Record<string, string | undefined>>): boolean {
  return platform === "win32" || platform === "darwin" || Boolean(environment.DISPLAY || environment.WAYLAND_DISPLAY);
}

/** Fetches the runtime by its package's own script. False where that fails, or takes longer than the limit (seconds). */
export async function fetchRuntime(limit: number, eachSecond: (seconds: number) => void): Promise<boolean> {
  const child = spawn(process.execPath, [join(packageFolder, "install.js")], {
    stdio: "ignore",
    detached: process.platform !== "win32",
  });
  let seconds = 0;
  const ticking = setInterval(() => {
    seconds += 1;
    if (seconds >= limit) stopGroup(child.pid);
    else eachSecond(seconds);
  }, 1000);
  const stop = () => {
    stopGroup(child.pid);
    process.exit(130);
  };
  process.once("SIGINT", stop);
  process.once("SIGTERM", stop);
  eachSecond(0);
  const code = await new Promise<number | null>((done) => {
    child.on("error", () => done(null));
    child.on("exit", done);
  });
  clearInterval(ticking);
  process.off("SIGINT", stop);
  process.off("SIGTERM", stop);
  return code === 0 && findRuntime() !== null;
}

function stopGroup(pid: number | undefined): void {
  if (pid === undefined) return;
  try {
    process.kill(process.platform === "win32" ? pid : -pid, "SIGKILL");
  } catch {
    // Ended by itself in the meantime.
  }
}

const failureFile = join(builtFolder, "desktop-runtime-failed");
const day = 24 * 60 * 60 * 1000;

/** A failed fetch is not tried again for a day, so that a machine without a network does not wait at each start. */
export function failedLately(now: number, file = failureFile): boolean {
  try {
    const failedAt = Number(readFileSync(file, "utf8"));
    return now - failedAt < day && failedAt <= now;
  } catch {
    return false;
  }
}

export function rememberFailure(now: number, file = failureFile): void {
  mkdirSync(join(file, ".."), { recursive: true });
  writeFileSync(file, String(now));
}

export function forgetFailure(file = failureFile): void {
  rmSync(file, { force: true });
}
