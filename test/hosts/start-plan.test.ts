import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { failedLately, findRuntime, forgetFailure, hasDisplay, rememberFailure } from "../../app/desktop-runtime.ts";
import { openCommand, planStart, readParameters, writtenIn } from "../../app/start-plan.ts";

const facts = { browserWanted: false, display: true, runtimePresent: false, failedLately: false, retryWanted: false };

describe("which host a start opens", () => {
  it("the desktop window where its runtime is present, or may be had", () => {
    expect(planStart({ ...facts, runtimePresent: true })).toEqual({ open: "desktop" });
    expect(planStart({ ...facts, runtimePresent: true, failedLately: true })).toEqual({ open: "desktop" });
    expect(planStart(facts)).toEqual({ open: "fetch then desktop" });
  });

  it("the browser where that was asked for, whatever else is there", () => {
    const wanted = { open: "browser", because: "browserWanted" };
    expect(planStart({ ...facts, browserWanted: true, runtimePresent: true, retryWanted: true })).toEqual(wanted);
  });

  it("the browser where no window can be shown: nothing is fetched for nothing", () => {
    expect(planStart({ ...facts, display: false })).toEqual({ open: "browser", because: "noDisplay" });
  });

  it("the browser at once for a day after a failed fetch, unless another try is asked for", () => {
    const before = { open: "browser", because: "runtimeFailedBefore" };
    expect(planStart({ ...facts, failedLately: true })).toEqual(before);
    expect(planStart({ ...facts, failedLately: true, retryWanted: true })).toEqual({ open: "fetch then desktop" });
  });
});

describe("what a start was told", () => {
  const read = (...parameters: string[]) => readParameters(parameters, "/here", "linux");
  it("is its switches, and the one study to open, as a whole path", () => {
    expect(read()).toEqual({ kind: "start", switches: new Set(), study: null });
    expect(read("--browser", "../a/stove.boilstudy", "--no-open")).toEqual({
      kind: "start",
      switches: new Set(["--browser", "--no-open"]),
      study: "/a/stove.boilstudy",
    });
    expect(read("--", "--stove.boilstudy")).toMatchObject({ study: "/here/--stove.boilstudy" });
    expect(readParameters(["stove.boilstudy"], "C:\\a b", "win32")).toMatchObject({
      study: "C:\\a b\\stove.boilstudy",
    });
  });

  it.each([
    [["--brwoser"], { kind: "unknownOption", option: "--brwoser" }],
    [["-b"], { kind: "unknownOption", option: "-b" }],
    [["--browser=x"], { kind: "unknownOption", option: "--browser=x" }],
    [["-stove.boilstudy"], { kind: "unknownOption", option: "-stove.boilstudy" }],
    [["readings.csv"], { kind: "notStudyFile", name: "readings.csv" }],
    [[""], { kind: "notStudyFile", name: "" }],
    [["a\0.boilstudy"], { kind: "notStudyFile", name: "a\0.boilstudy" }],
    [["a.boilstudy", "b.boilstudy"], { kind: "oneStudyOnly" }],
  ])("%j is refused", (parameters, wanted) => {
    expect(read(...parameters)).toEqual(wanted);
  });

  it("was written in the folder where npm was called, and not in the project's own", () => {
    expect(writtenIn("/project", { npm_lifecycle_event: "start", INIT_CWD: "/home/a" })).toBe("/home/a");
    expect(writtenIn("/project", { npm_lifecycle_event: "start" })).toBe("/project");
    // Left over from an npm further out, when the program is started by itself.
    expect(writtenIn("/project", { INIT_CWD: "/home/a" })).toBe("/project");
  });
});

describe("the system's browser", () => {
  it("is opened by the system's own command, and by no shell", () => {
    expect(openCommand("linux", {}, true)?.command).toBe("xdg-open");
    expect(openCommand("darwin", {}, true)?.command).toBe("open");
    expect(openCommand("win32", {}, true)?.command).toBe("rundll32");
  });

  it("is left alone in automation and without a display", () => {
    expect(openCommand("linux", { CI: "true" }, true)).toBeNull();
    expect(openCommand("linux", {}, false)).toBeNull();
  });

  it("has a display where the platform always has one, or the environment names one", () => {
    expect([hasDisplay("darwin", {}), hasDisplay("win32", {}), hasDisplay("linux", {})]).toEqual([true, true, false]);
    expect([hasDisplay("linux", { DISPLAY: ":0" }), hasDisplay("linux", { WAYLAND_DISPLAY: "w" })]).toEqual([
      true,
      true,
    ]);
    expect(hasDisplay("linux", { DISPLAY: "" })).toBe(false);
  });
});

describe("the desktop's runtime", () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "boilbench-runtime-"));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it("is found where its package says and the file is there", () => {
    expect(findRuntime(folder, undefined)).toBeNull();
    writeFileSync(join(folder, "path.txt"), "electron");
    expect(findRuntime(folder, undefined)).toBeNull();
    mkdirSync(join(folder, "dist"));
    writeFileSync(join(folder, "dist", "electron"), "");
    expect(findRuntime(folder, undefined)).toBe(join(folder, "dist", "electron"));
    expect(findRuntime(join(folder, "none"), join(folder, "dist"))).toBe(join(folder, "dist", "electron"));
    expect(findRuntime(join(folder, "none"), folder)).toBeNull();
  });

  it("is not asked for again for a day after a failure", () => {
    const file = join(folder, "dist", "failed");
    const hour = 3_600_000;
    expect(failedLately(0, file)).toBe(false);
    rememberFailure(1_000, file);
    expect(failedLately(1_000 + 23 * hour, file)).toBe(true);
    expect(failedLately(1_000 + 24 * hour, file)).toBe(false);
    // A clock that was put back does not shut the window out for long.
    expect(failedLately(500, file)).toBe(false);
    writeFileSync(file, "damaged");
    expect(failedLately(1_000, file)).toBe(false);
    rememberFailure(1_000, file);
    forgetFailure(file);
    expect(failedLately(1_000, file)).toBe(false);
  });
});
