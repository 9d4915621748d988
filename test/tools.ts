import { spawnSync } from "node:child_process";
import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";

/** The first of these commands that is on the path, as a whole path; else null. */
export function onPath(commands: readonly string[], path = process.env.PATH ?? ""): string | null {
  for (const command of commands) {
    for (const folder of path.split(delimiter)) {
      try {
        const file = join(folder, command);
        accessSync(file, constants.X_OK);
        return file;
      } catch {
        // Not there.
      }
    }
  }
  return null;
}

/** A Chromium for the tests: CHROMIUM names one, else one on the path. */
export function findChromium(): string | null {
  const named = process.env.CHROMIUM;
  if (named) return onPath([named], "/") ?? onPath([named]);
  return onPath(["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"]);
}

/** The PDF tools that the report's tests read its pages with. */
export const pdfTools = ["pdftotext", "pdfinfo", "pdffonts"] as const;

export function hasPdfTools(): boolean {
  return pdfTools.every((tool) => onPath([tool]) !== null);
}

/** Installs Debian packages, as root where there is apt. False where that cannot be done, or fails. */
export function installDebian(packages: readonly string[]): boolean {
  if (process.getuid?.() !== 0 || onPath(["apt-get"]) === null) return false;
  const run = (...parameters: string[]) =>
    spawnSync("apt-get", parameters, {
      // Apt's own lines are for the log; standard input must not be waited for.
      stdio: ["ignore", "inherit", "inherit"],
      env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
      timeout: 10 * 60_000,
    }).status === 0;
  return run("update", "-qq") && run("install", "-y", "-qq", "--no-install-recommends", ...packages);
}
