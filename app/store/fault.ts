/**
 * What can be wrong with a study file or with writing it, as a stable name. Sentences for persons are made from it elsewhere.
 */
export type FaultCode =
  /** Another kind of file. */
  | "notAStudy"
  /** A file of no bytes. */
  | "empty"
  /** What the file holds contradicts itself: broken pages, a seal that does not fit. */
  | "damaged"
  /** A database with objects that are not ours: a trigger, a view, a table, an index; or another journal mode. */
  | "foreign"
  /** Written by a later version of the program. */
  | "newer"
  /** Made by migrations of another text than ours of the same numbers. */
  | "migrationChanged"
  | "full"
  /** The file or its folder cannot be written to. */
  | "readOnlyPlace"
  | "gone"
  /** Another connection holds the file. */
  | "inUse"
  /** Somebody else has written to the file since it was opened. */
  | "changedOutside"
  /** Opened for reading alone. */
  | "readOnly"
  /** The file refuses the content: a check, a foreign key, a place that is not there. */
  | "refused"
  | "unreadable"
  /** A file of that name is there already. */
  | "exists"
  /** The folder in which the program keeps what is its own cannot be used. */
  | "ownFolder";

/** A fault of the study file. `detail` is short and technical, such as SQLite's own message. */
export class StoreFault extends Error {
  readonly code: FaultCode;
  readonly detail: string;

  constructor(code: FaultCode, detail: string, options?: ErrorOptions) {
    super(`${code}: ${detail}`, options);
    this.name = "StoreFault";
    this.code = code;
    this.detail = detail;
  }
}

/** By SQLite's primary result code (sqlite.org/rescode.html). */
const ofSqlite: ReadonlyMap<number, FaultCode> = new Map([
  [5, "inUse"], // BUSY
  [6, "inUse"], // LOCKED
  [8, "readOnlyPlace"], // READONLY
  [10, "unreadable"], // IOERR
  [11, "damaged"], // CORRUPT
  [13, "full"], // FULL
  [14, "unreadable"], // CANTOPEN
  [19, "refused"], // CONSTRAINT
  [20, "refused"], // MISMATCH
  [26, "notAStudy"], // NOTADB
]);

/**
 * Extended codes of IOERR that mean that the file is no longer there: the drive was pulled, the share was lost. FSTAT, DELETE_NOENT
 * and VNODE, and the read and write of a handle that leads nowhere end in the plain "unreadable".
 */
const goneCodes: ReadonlySet<number> = new Set([10 | (7 << 8), 10 | (23 << 8), 10 | (27 << 8)]);
/** READONLY_DBMOVED: the file was moved or deleted under the open connection. */
const moved = 8 | (4 << 8);

const ofNode: ReadonlyMap<string, FaultCode> = new Map([
  ["ENOSPC", "full"],
  ["EDQUOT", "full"],
  ["EROFS", "readOnlyPlace"],
  ["EACCES", "readOnlyPlace"],
  ["EPERM", "readOnlyPlace"],
  ["ENOENT", "gone"],
  ["ENODEV", "gone"],
  ["ENXIO", "gone"],
  ["ENOTDIR", "gone"],
  ["EISDIR", "notAStudy"],
  ["ESTALE", "gone"],
  ["EEXIST", "exists"],
  ["EBUSY", "inUse"],
  ["EIO", "unreadable"],
  // node:sqlite, of a whole number beyond 2^53: none is ever written.
  ["ERR_OUT_OF_RANGE", "damaged"],
]);

/** The fault that an error of node:sqlite or of Node's file system means; an error of neither is thrown as it is. */
export function asFault(error: unknown): StoreFault {
  if (error instanceof StoreFault) return error;
  if (!(error instanceof Error)) throw error;
  const { errcode, code } = error as { errcode?: unknown; code?: unknown };
  if (typeof errcode === "number") {
    // Tables are there when a file is opened: what has them no more was put in its place.
    if (errcode === 1 && error.message.startsWith("no such "))
      return new StoreFault("damaged", error.message, { cause: error });
    const isGone = goneCodes.has(errcode) || errcode === moved;
    const found = isGone ? "gone" : ofSqlite.get(errcode & 0xff);
    if (found !== undefined) return new StoreFault(found, error.message, { cause: error });
  }
  const found = typeof code === "string" ? ofNode.get(code) : undefined;
  if (found === undefined) throw error;
  return new StoreFault(found, error.message, { cause: error });
}
