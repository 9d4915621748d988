import { existsSync, mkdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { diskFault, publish, writeWhole } from "../../../app/store/file/disk.ts";
import { StoreFault } from "../../../app/store/index.ts";
import { faultOf, filesBelow, makeRoom } from "./support.ts";

describe("a whole file is given its name", () => {
  test("where nothing lies", () => {
    const { desk } = makeRoom();
    writeFileSync(join(desk, "part"), "whole");
    publish(join(desk, "part"), join(desk, "file"));
    expect(readFileSync(join(desk, "file"), "utf8")).toBe("whole");
    expect(filesBelow(desk)).toEqual(["file"]);
  });

  test("never in the place of another, also of one that came after it was looked", async () => {
    const { desk } = makeRoom();
    writeFileSync(join(desk, "part"), "whole");
    writeFileSync(join(desk, "file"), "another's");
    mkdirSync(join(desk, "folder"));
    symlinkSync("/nowhere", join(desk, "link"));
    for (const name of ["file", "folder", "link"]) {
      expect(await faultOf(() => publish(join(desk, "part"), join(desk, name))), name).toBe("exists");
    }
    expect(readFileSync(join(desk, "file"), "utf8")).toBe("another's");
    expect(existsSync("/nowhere")).toBe(false);
  });
});

test("a small file of the program's own is replaced whole, and is its owner's", () => {
  const { desk } = makeRoom();
  writeWhole(join(desk, "state.json"), "1");
  writeWhole(join(desk, "state.json"), "2");
  expect(readFileSync(join(desk, "state.json"), "utf8")).toBe("2");
  expect(statSync(join(desk, "state.json")).mode & 0o777).toBe(0o600);
  expect(filesBelow(desk)).toEqual(["state.json"]);
});

/** Codes: errno(3) of the Linux manual. */
describe("what a file system answers becomes a code", () => {
  const answer = (code: string) => Object.assign(new Error(code), { code, syscall: "open" });
  test.each([
    ["ENOSPC", "full"],
    ["EDQUOT", "full"],
    ["EROFS", "readOnlyPlace"],
    ["EACCES", "readOnlyPlace"],
    ["ENOENT", "gone"],
    ["ENOTDIR", "gone"],
    ["ESTALE", "gone"],
    ["ENOTCONN", "gone"],
    ["EHOSTDOWN", "gone"],
    ["EEXIST", "exists"],
    ["EIO", "unreadable"],
    ["EFBIG", "unreadable"],
    ["ENAMETOOLONG", "unreadable"],
  ])("%s: %s", (code, expected) => {
    expect(diskFault(answer(code)).code).toBe(expected);
  });

  test("a fault stays what it is, and a mistake of the program is none", () => {
    const fault = new StoreFault("changedOutside", "x");
    expect(diskFault(fault)).toBe(fault);
    expect(() => diskFault(new TypeError("a mistake"))).toThrow(TypeError);
    expect(() => diskFault("text")).toThrow("text");
  });
});
