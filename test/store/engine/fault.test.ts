import { readFileSync } from "node:fs";
import { DatabaseSync } from "node:sqlite";
import { expect, test } from "vitest";
import { asFault, StoreFault } from "../../../app/store/index.ts";

/** Result codes of SQLite as its documentation lists them (sqlite.org/rescode.html). */
const ofSqlite: readonly (readonly [string, number, string])[] = [
  ["SQLITE_BUSY", 5, "inUse"],
  ["SQLITE_LOCKED", 6, "inUse"],
  ["SQLITE_READONLY", 8, "readOnlyPlace"],
  ["SQLITE_READONLY_ROLLBACK", 776, "readOnlyPlace"],
  ["SQLITE_READONLY_DBMOVED", 1032, "gone"],
  ["SQLITE_IOERR", 10, "unreadable"],
  ["SQLITE_IOERR_READ", 266, "unreadable"],
  ["SQLITE_IOERR_WRITE", 778, "unreadable"],
  ["SQLITE_IOERR_FSTAT", 1802, "gone"],
  ["SQLITE_IOERR_DELETE_NOENT", 5898, "gone"],
  ["SQLITE_IOERR_VNODE", 6922, "gone"],
  ["SQLITE_CORRUPT", 11, "damaged"],
  ["SQLITE_CORRUPT_INDEX", 779, "damaged"],
  ["SQLITE_FULL", 13, "full"],
  ["SQLITE_CANTOPEN", 14, "unreadable"],
  ["SQLITE_CONSTRAINT_CHECK", 275, "refused"],
  ["SQLITE_CONSTRAINT_FOREIGNKEY", 787, "refused"],
  ["SQLITE_MISMATCH", 20, "refused"],
  ["SQLITE_NOTADB", 26, "notAStudy"],
];

test.each(ofSqlite)("%s (%i) is %s", (name, errcode, code) => {
  const fault = asFault(Object.assign(new Error(name), { code: "ERR_SQLITE_ERROR", errcode }));
  expect([fault.code, fault.detail]).toEqual([code, name]);
});

const ofNode: readonly (readonly [string, string])[] = [
  ["ENOSPC", "full"],
  ["EROFS", "readOnlyPlace"],
  ["EACCES", "readOnlyPlace"],
  ["ENOENT", "gone"],
  ["EEXIST", "exists"],
  ["EIO", "unreadable"],
];

test.each(ofNode)("%s of the file system is %s", (code, expected) => {
  expect(asFault(Object.assign(new Error("x"), { code })).code).toBe(expected);
});

test("real errors of both, as they are thrown here", () => {
  const thrown = (work: () => unknown): unknown => {
    try {
      return work();
    } catch (error) {
      return error;
    }
  };
  const database = new DatabaseSync(":memory:");
  database.exec("CREATE TABLE a (b INTEGER CHECK (b > 0)) STRICT");
  expect(asFault(thrown(() => database.exec("INSERT INTO a VALUES (0)"))).code).toBe("refused");
  expect(asFault(thrown(() => readFileSync("/nowhere/at/all"))).code).toBe("gone");
  database.close();
});

test("a fault stays what it is; an error of the program's own making is not taken for one", () => {
  const fault = new StoreFault("full", "no room");
  expect(asFault(fault)).toBe(fault);
  expect(() => asFault(new TypeError("mistake"))).toThrow("mistake");
});
