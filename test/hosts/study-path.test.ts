import { describe, expect, it } from "vitest";
import { absolutePath, isStudyPath, studyAmong } from "../../app/host/study-path.ts";

// Forms of Windows paths: learn.microsoft.com, "Naming Files, Paths, and Namespaces" (from memory).

const nul = "\0";

describe("a path from another process is a study's, whole and plain", () => {
  it.each([
    ["linux", "/home/a/stove.boilstudy"],
    ["linux", "/home/a/My studies/Öfen „neu“.BOILSTUDY"],
    ["darwin", "/Users/a/stove.boilstudy"],
    ["win32", "C:\\Users\\a\\stove.boilstudy"],
    ["win32", "\\\\server\\share\\stove.boilstudy"],
  ])("%s takes %j", (platform, path) => {
    expect(isStudyPath(path, platform)).toBe(true);
  });

  it.each<[string, unknown]>([
    ["linux", undefined],
    ["linux", null],
    ["linux", 7],
    ["linux", ["/a.boilstudy"]],
    ["linux", { toString: () => "/a.boilstudy" }],
    ["linux", ""],
    ["linux", "stove.boilstudy"],
    ["linux", "./stove.boilstudy"],
    ["linux", "../stove.boilstudy"],
    ["linux", "/home/a/../b/stove.boilstudy"],
    ["linux", "/home//stove.boilstudy"],
    ["linux", "/etc/passwd"],
    ["linux", `/etc/passwd${nul}.boilstudy`],
    ["linux", "/home/a/stove.boilstudy/"],
    ["linux", "/home/a/stove.boilstudy.csv"],
    ["linux", "file:///home/a/stove.boilstudy"],
    ["linux", "C:\\stove.boilstudy"],
    ["linux", `/${"a".repeat(40_000)}.boilstudy`],
    ["win32", "/home/a/stove.boilstudy"],
    ["win32", "\\stove.boilstudy"],
    ["win32", "C:stove.boilstudy"],
    ["win32", "C:/stove.boilstudy"],
    ["win32", "C:\\a\\..\\stove.boilstudy"],
    ["win32", "\\\\.\\PhysicalDrive0\\x.boilstudy"],
    ["win32", "\\\\?\\C:\\stove.boilstudy"],
    ["win32", "\\\\?\\GLOBALROOT\\Device\\x.boilstudy"],
    ["win32", "\\??\\C:\\stove.boilstudy"],
    ["win32", "\\\\server\\stove.boilstudy"],
  ])("%s refuses %j", (platform, path) => {
    expect(isStudyPath(path, platform)).toBe(false);
  });
});

describe("a path as it was written", () => {
  it.each([
    ["stove.boilstudy", "/work/a", "linux", "/work/a/stove.boilstudy"],
    ["../stove.boilstudy", "/work/a", "linux", "/work/stove.boilstudy"],
    ["/x/stove.boilstudy", "/work/a", "linux", "/x/stove.boilstudy"],
    ["-stove.boilstudy", "/work/a", "linux", "/work/a/-stove.boilstudy"],
    ["..\\stove.boilstudy", "C:\\work\\a", "win32", "C:\\work\\stove.boilstudy"],
    ["stove.csv", "/work/a", "linux", null],
    ["", "/work/a", "linux", null],
    ["..", "/work/a.boilstudy", "linux", null],
  ])("%j in %s on %s is %j", (written, folder, platform, wanted) => {
    expect(absolutePath(written, folder, platform)).toBe(wanted);
  });
});

describe("the study among the program's parameters", () => {
  it.each<[string, string[], string | null]>([
    ["none", [], null],
    ["the project's folder alone", ["/work/project"], null],
    ["a study behind it", ["/work/project", "/a/stove.boilstudy"], "/a/stove.boilstudy"],
    ["a study before a runtime's own switches", ["/a/stove.boilstudy", "--no-sandbox"], "/a/stove.boilstudy"],
    ["a switch that ends like a study", ["--user-data-dir=/a/x.boilstudy"], null],
    ["a name in the folder", ["stove.boilstudy"], "/here/stove.boilstudy"],
    ["another file", ["/a/readings.csv"], null],
    ["an address", ["boilbench://app/x.boilstudy?"], null],
  ])("%s", (_name, parameters, wanted) => {
    expect(studyAmong(parameters, "/here", "linux")).toBe(wanted);
  });
});
