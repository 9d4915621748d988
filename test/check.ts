/**
 * `npm run check`: everything that is checked before a change is taken: types of every folder, lint and format, arrows, tests, build.
 * Every step runs, and has a line of its own at the end; one failure fails the whole. `--without-tests` where they just ran.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { defaultLocale, wordsFor } from "../core/index.ts";

const words = wordsFor(defaultLocale).hosts.check;
const project = join(import.meta.dirname, "..");
const tool = (...path: string[]) => join(project, "node_modules", ...path);

interface Step {
  readonly name: string;
  readonly script: string;
  readonly parameters: readonly string[];
}

/** Folders with types of their own, but those that hold no file yet. */
function typedFolders(): readonly string[] {
  const under = (folder: string) => readdirSync(join(project, folder)).map((name) => `${folder}/${name}`);
  return ["core", "app", ...under("app"), "renderer", "test"].filter((folder) => {
    if (!existsSync(join(project, folder, "tsconfig.json"))) return false;
    return readdirSync(join(project, folder), { recursive: true }).some((name) => /\.tsx?$/.test(String(name)));
  });
}

const binOf = (name: string): string => {
  const { bin } = JSON.parse(readFileSync(tool(name, "package.json"), "utf8")) as {
    bin: string | Record<string, string>;
  };
  const file = typeof bin === "string" ? bin : Object.values(bin)[0];
  return tool(name, file ?? "");
};

const withoutTests = process.argv.includes("--without-tests");
const steps: readonly Step[] = [
  ...typedFolders().map((folder) => ({
    name: `types of ${folder}`,
    script: binOf("typescript"),
    parameters: ["--noEmit", "-p", folder],
  })),
  { name: "lint and format", script: binOf("@biomejs/biome"), parameters: ["check", "--error-on-warnings", "."] },
  // Within the tests too, but where these fail it is good to know that the arrows hold.
  { name: "arrows", script: binOf("vitest"), parameters: ["run", "test/layers"] },
  ...(withoutTests ? [] : [{ name: "tests", script: join(import.meta.dirname, "run.ts"), parameters: [] }]),
  { name: "build", script: join(project, "app", "build.ts"), parameters: [] },
];

const lines: string[] = [];
const failed: string[] = [];
for (const { name, script, parameters } of steps) {
  const begin = performance.now();
  const { status } = spawnSync(process.execPath, [script, ...parameters], {
    cwd: project,
    stdio: ["ignore", "inherit", "inherit"],
  });
  const seconds = ((performance.now() - begin) / 1000).toFixed(1);
  const line = status === 0 ? words.passed(name, seconds) : words.failed(name, seconds);
  if (status !== 0) failed.push(name);
  lines.push(line);
  console.log(line);
}
console.log(`\n${lines.join("\n")}`);
console.log(failed.length === 0 ? words.summaryPassed(steps.length) : words.summaryFailed(failed.join(", ")));
process.exitCode = failed.length === 0 ? 0 : 1;
