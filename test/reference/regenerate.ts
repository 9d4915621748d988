/**
 * Recomputes every expected value that comes from R or from Python: runs `generate.R` or `generate.py` inside each folder beside this
 * file, and says which expected.json changed. Needs Rscript on the path (any R from 4.0 on will do), and a python3 with numpy.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));

/** What runs the scripts of one language. */
interface Tool {
  readonly script: string;
  /** What it is called, as its version says. */
  readonly version: string;
  readonly command: string;
  readonly options: readonly string[];
}

function read(file: string): string | null {
  return existsSync(file) ? readFileSync(file, "utf8") : null;
}

/** What a command prints; null where it is not there or fails. */
function printed(command: string, options: readonly string[]): string | null {
  const { error, status, stdout, stderr } = spawnSync(command, options, { encoding: "utf8" });
  return error === undefined && status === 0 ? `${stdout}${stderr}`.trim() : null;
}

function findR(): Tool | null {
  const version = printed("Rscript", ["--version"]);
  return version === null ? null : { script: "generate.R", version, command: "Rscript", options: ["--vanilla"] };
}

/** Debian's own Python before another that may stand in front of it on the path: its numpy made what is there. */
function findPython(): Tool | null {
  for (const command of ["/usr/bin/python3", "python3"]) {
    const text = "import platform, numpy; print('Python', platform.python_version(), 'with numpy', numpy.__version__)";
    const version = printed(command, ["-B", "-c", text]);
    if (version !== null) return { script: "generate.py", version, command, options: ["-B"] };
  }
  return null;
}

/** The folders that have such a script, in the order of their names. */
function foldersWith(script: string): string[] {
  return readdirSync(here, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(here, entry.name, script)))
    .map((entry) => entry.name)
    .sort();
}

/** How many scripts failed. */
function regenerateWith({ script, version, command, options }: Tool): number {
  console.log(`reference: ${version}`);
  let failed = 0;
  for (const folder of foldersWith(script)) {
    const expected = join(here, folder, "expected.json");
    const before = read(expected);
    const run = spawnSync(command, [...options, script], { cwd: join(here, folder), encoding: "utf8" });
    if (run.status !== 0) {
      failed += 1;
      console.error(`reference: ${folder}: ${script} failed\n${run.stderr}`);
      continue;
    }
    console.log(`reference: ${folder}: ${read(expected) === before ? "unchanged" : "CHANGED"}`);
  }
  return failed;
}

function missing(what: string, debianPackage: string, script: string): number {
  console.error(
    `reference: ${what} was not found, so not made anew: ${foldersWith(script).join(", ")}. Install it (Debian: apt-get install ${debianPackage}) and run this again.`,
  );
  return 1;
}

const [r, python] = [findR(), findPython()];
const failures = [
  r === null ? missing("Rscript", "r-base-core", "generate.R") : regenerateWith(r),
  python === null ? missing("A python3 with numpy", "python3-numpy", "generate.py") : regenerateWith(python),
];
process.exitCode = failures.every((count) => count === 0) ? 0 : 1;
