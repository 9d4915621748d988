/**
 * Recomputes every expected value that comes from R: runs `generate.R` inside each folder beside this file, and says which
 * expected.json changed. Needs Rscript on the path; any R from 4.0 on will do.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));

function read(file: string): string | null {
  return existsSync(file) ? readFileSync(file, "utf8") : null;
}

/** The folders that have a generator, in the order of their names. */
function folders(): string[] {
  return readdirSync(here, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(here, entry.name, "generate.R")))
    .map((entry) => entry.name)
    .sort();
}

function regenerate(): number {
  const version = spawnSync("Rscript", ["--version"], { encoding: "utf8" });
  if (version.error !== undefined || version.status !== 0) {
    console.error(
      "reference: Rscript was not found. Install R (Debian: apt-get install r-base-core) and run this again.",
    );
    return 1;
  }
  console.log(`reference: ${`${version.stdout}${version.stderr}`.trim()}`);
  let failed = 0;
  for (const folder of folders()) {
    const expected = join(here, folder, "expected.json");
    const before = read(expected);
    const run = spawnSync("Rscript", ["--vanilla", "generate.R"], { cwd: join(here, folder), encoding: "utf8" });
    if (run.status !== 0) {
      failed += 1;
      console.error(`reference: ${folder}: generate.R failed\n${run.stderr}`);
      continue;
    }
    console.log(`reference: ${folder}: ${read(expected) === before ? "unchanged" : "CHANGED"}`);
  }
  return failed === 0 ? 0 : 1;
}

process.exitCode = regenerate();
