import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";

// The first step of every script and of the command, in its own process.

const project = join(import.meta.dirname, "..", "..");
const first = join(project, "app", "require-node.cjs");
const folder = mkdtempSync(join(tmpdir(), "boilbench-first-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(script: string, parameters: readonly string[], before: readonly string[] = []) {
  const file = join(folder, "script.ts");
  writeFileSync(file, script);
  return spawnSync(process.execPath, [...before, first, file, ...parameters], { encoding: "utf8" });
}

describe("the first step", () => {
  it("runs the script with its own arguments, as if it had been started itself", () => {
    const ran = run(
      "const [, file, ...rest]: string[] = process.argv; console.log(file === import.meta.filename, rest.join());",
      ["a", "--b"],
    );
    expect([ran.stdout, ran.status]).toEqual(["true a,--b\n", 0]);
  });

  it("says what to do where the Node is too old, in words and with exit code 2", () => {
    const older = join(folder, "older.cjs");
    writeFileSync(
      older,
      `Object.defineProperty(process, "versions", { value: { ...process.versions, node: "20.19.0" } });`,
    );
    const ran = run("console.log('ran');", [], ["--require", older]);
    expect([ran.stdout, ran.status]).toEqual(["", 2]);
    expect(ran.stderr).toContain("needs Node 24 or newer; this is Node 20.19.0");
    expect(ran.stderr).toContain("npm ci");
  });

  it("passes a failure on", () => {
    const ran = run("throw new Error('broken at once');", []);
    expect(ran.status).toBe(1);
    expect(ran.stderr).toContain("broken at once");
  });
});

describe("the last step of an installation", () => {
  /** Runs it in a project of its own, where nothing is installed but these packages. */
  function prepare(packages: readonly string[], before: readonly string[] = []) {
    const own = mkdtempSync(join(folder, "project-"));
    mkdirSync(join(own, "app"));
    for (const name of ["prepare.cjs", "require-node.cjs"]) cpSync(join(project, "app", name), join(own, "app", name));
    for (const name of packages) mkdirSync(join(own, "node_modules", name), { recursive: true });
    return spawnSync(process.execPath, [...before, join(own, "app", "prepare.cjs")], { encoding: "utf8" });
  }

  it("says what is lacking and ends well without build tools, and where the build fails", () => {
    const without = prepare([]);
    expect([without.status, without.stderr]).toEqual([0, ""]);
    expect(without.stdout).toMatch(/not built \(the build tools are not installed\)/);
    const failing = prepare(["esbuild"]);
    expect(failing.status).toBe(0);
    expect(failing.stdout).toMatch(/not built \(the build failed\)/);
  });

  it("ends well where the Node is too old", () => {
    const older = join(folder, "older-still.cjs");
    writeFileSync(
      older,
      `Object.defineProperty(process, "versions", { value: { ...process.versions, node: "20.19.0" } });`,
    );
    const ran = prepare(["esbuild"], ["--require", older]);
    expect(ran.status).toBe(0);
    expect(ran.stdout).toMatch(/Node 20\.19\.0, and it takes Node 24/);
  });
});
