import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";

export const projectFolder = dirname(import.meta.dirname);
export const builtFolder = join(projectFolder, "dist");

/** What is built, from which sources. Anything changed in one of them makes a new build. */
const products = {
  page: ["renderer", "core", "app/contract", "app/chart", "vite.config.ts", "package-lock.json"],
  desktop: ["app", "core", "package-lock.json"],
  command: ["app", "core", "package-lock.json"],
} as const;
export type Product = keyof typeof products;

function filesUnder(path: string): string[] {
  if (!existsSync(path)) return [];
  if (statSync(path).isFile()) return [path];
  return readdirSync(path, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

/** One hash of the names and contents of everything that a product is made of. */
export function sourcesHash(product: Product): string {
  const hash = createHash("sha256").update(process.versions.node);
  for (const path of products[product]) {
    for (const file of filesUnder(join(projectFolder, path))) {
      hash.update(`\0${file.slice(projectFolder.length)}\0`).update(readFileSync(file));
    }
  }
  return hash.digest("hex");
}

const stampOf = (product: Product) => join(builtFolder, `${product}.hash`);

/** True when what lies in dist/ was built from the sources as they are. */
export function isBuilt(product: Product): boolean {
  try {
    return readFileSync(stampOf(product), "utf8") === sourcesHash(product);
  } catch {
    return false;
  }
}

/** Runs a build unless it is up to date; two at once (tests, a second start) take turns. True when it was run. */
export async function buildOnce(product: Product, always: boolean, build: () => Promise<void>): Promise<boolean> {
  mkdirSync(builtFolder, { recursive: true });
  const lock = join(builtFolder, `${product}.lock`);
  await takeLock(lock);
  try {
    if (!always && isBuilt(product)) return false;
    rmSync(stampOf(product), { force: true });
    const hash = sourcesHash(product);
    await build();
    writeFileSync(stampOf(product), hash);
    return true;
  } finally {
    rmSync(lock, { force: true });
  }
}

/** The lock holds its holder's process number: one left by a process that is gone is taken over. */
async function takeLock(lock: string): Promise<void> {
  for (;;) {
    try {
      writeFileSync(lock, String(process.pid), { flag: "wx" });
      return;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    }
    if (!holderIsAlive(lock)) rmSync(lock, { force: true });
    else await wait(100);
  }
}

function holderIsAlive(lock: string): boolean {
  try {
    const pid = Number(readFileSync(lock, "utf8"));
    // Empty for the moment between making and writing it.
    if (!(pid > 0)) return Date.now() - statSync(lock).mtimeMs < 2_000;
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}
