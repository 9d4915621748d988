/**
 * Looks at a file before SQLite sees it. Layout of the first 100 bytes: "Database File Format" of SQLite's documentation, 1.3.
 */

export const headerBytes = 100;
/** "Boil": application_id of a study file. */
export const applicationId = 0x426f696c;
const magic = "SQLite format 3\0";

export interface FileFacts {
  /** The first bytes of the file, at most 100. */
  readonly head: Uint8Array;
  /** Size of the file in bytes. */
  readonly size: number;
  /** A rollback journal with content lies beside it: a writer died, or writes just now. */
  readonly journal: boolean;
  /**
   * What a study never has beside it, by its name; null where there is none. A write-ahead log: SQLite would take its content for the
   * file's, whatever the file says. A link or a pipe in place of the journal: it would write to where the link leads, or wait for ever.
   */
  readonly stray: string | null;
}

export type Inspection =
  | { readonly is: "study"; readonly version: number; readonly hotJournal: boolean }
  | { readonly is: "empty" | "notAStudy" }
  | { readonly is: "foreign"; readonly detail: string }
  | { readonly is: "damaged"; readonly detail: string }
  | { readonly is: "newer"; readonly version: number };

/** `newestVersion`: the newest layout of a study that this program knows. */
export function inspectHeader(facts: FileFacts, newestVersion: number): Inspection {
  const { head, size } = facts;
  if (size === 0) return { is: "empty" };
  const start = String.fromCharCode(...head.subarray(0, magic.length));
  if (start.length < magic.length ? !(start.length > 0 && magic.startsWith(start)) : start !== magic) {
    return { is: "notAStudy" };
  }
  if (head.length < headerBytes || size < headerBytes) return damaged(`it ends after ${size} bytes`);

  const field = new DataView(head.buffer, head.byteOffset, head.byteLength);
  if (field.getUint32(68) !== applicationId) return { is: "notAStudy" };
  const [writeVersion, readVersion] = [field.getUint8(18), field.getUint8(19)];
  if (writeVersion === 2 || readVersion === 2) return foreign("it is kept with a write-ahead log");
  if (facts.stray !== null) return foreign(`${facts.stray} lies beside it`);
  if (writeVersion !== 1 || readVersion !== 1) return damaged(`format ${writeVersion}, ${readVersion}`);

  const pageSize = field.getUint16(16) === 1 ? 65_536 : field.getUint16(16);
  if (pageSize < 512 || (pageSize & (pageSize - 1)) !== 0) return damaged(`a page size of ${pageSize}`);
  if (field.getUint8(20) > pageSize - 480) return damaged("no room on its pages");
  if (field.getUint8(21) !== 64 || field.getUint8(22) !== 32 || field.getUint8(23) !== 32) {
    return damaged("the fractions of a page are not those of the format");
  }
  const version = field.getUint32(60);
  if (version > newestVersion) return { is: "newer", version };
  // With a journal the file is as a cut-off edit left it, shorter or longer; SQLite puts it right.
  if (!facts.journal) {
    // The count in the head is that of the last writer only where the two counters agree.
    const counted = field.getUint32(24) === field.getUint32(92) && field.getUint32(28) > 0;
    const expected = counted ? field.getUint32(28) * pageSize : Math.ceil(size / pageSize) * pageSize;
    if (size < expected) return damaged(`it ends after ${size} of ${expected} bytes`);
  }
  return { is: "study", version, hotJournal: facts.journal };
}

function damaged(detail: string): Inspection {
  return { is: "damaged", detail };
}

function foreign(detail: string): Inspection {
  return { is: "foreign", detail };
}
