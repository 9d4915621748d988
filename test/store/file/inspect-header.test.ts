import { describe, expect, test } from "vitest";
import { type FileFacts, inspectHeader } from "../../../app/store/file/inspect-header.ts";

/** Offsets and values: "Database File Format", 1.3, of SQLite's documentation (sqlite.org/fileformat.html), from memory. */
function headOf(change: (head: DataView) => void = () => {}): Uint8Array {
  const head = new Uint8Array(100);
  head.set(new TextEncoder().encode("SQLite format 3\0"));
  const field = new DataView(head.buffer);
  field.setUint16(16, 4096);
  field.setUint8(18, 1);
  field.setUint8(19, 1);
  field.setUint8(21, 64);
  field.setUint8(22, 32);
  field.setUint8(23, 32);
  field.setUint32(24, 7);
  field.setUint32(28, 10);
  field.setUint32(60, 3);
  field.setUint32(68, 0x426f696c);
  field.setUint32(92, 7);
  change(field);
  return head;
}

/** Pages of 512 bytes; 480 must be left for use. */
function tight(keptFree: number): Uint8Array {
  const head = headOf((field) => field.setUint16(16, 512));
  head[20] = keptFree;
  return head;
}

function look(facts: Partial<FileFacts>): string {
  const whole = { head: headOf(), size: 40_960, journal: false, stray: null };
  const found = inspectHeader({ ...whole, ...facts }, 3);
  return found.is === "study" ? `study ${found.version}${found.hotJournal ? " with a journal" : ""}` : found.is;
}

const latin = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

describe("a file is judged by its first 100 bytes, its size and what lies beside it", () => {
  test.each<[string, Partial<FileFacts>, string]>([
    ["a study", {}, "study 3"],
    ["of an older layout", { head: headOf((head) => head.setUint32(60, 1)) }, "study 1"],
    ["a cut-off edit", { journal: true }, "study 3 with a journal"],
    ["a cut-off edit that left the file shorter", { journal: true, size: 20_480 }, "study 3 with a journal"],
    ["no bytes", { head: new Uint8Array(), size: 0 }, "empty"],
    ["no bytes, and a journal", { head: new Uint8Array(), size: 0, journal: true }, "empty"],
    ["a text", { head: latin("run,variant,fuel\n1,A,wood\n"), size: 26 }, "notAStudy"],
    ["an archive of a spreadsheet", { head: latin(`PK\x03\x04${"\0".repeat(96)}`) }, "notAStudy"],
    ["100 zeros", { head: new Uint8Array(100) }, "notAStudy"],
    ["one byte that is not SQLite's", { head: latin("s"), size: 1 }, "notAStudy"],
    ["the magic text in another case", { head: headOf((head) => head.setUint8(0, 0x73)) }, "notAStudy"],
    ["the magic text of another version", { head: headOf((head) => head.setUint8(14, 0x34)) }, "notAStudy"],
    ["another program's database", { head: headOf((head) => head.setUint32(68, 0)) }, "notAStudy"],
    ["an application of one bit less", { head: headOf((head) => head.setUint32(68, 0x426f696d)) }, "notAStudy"],
    ["one byte of the magic text", { head: latin("S"), size: 1 }, "damaged"],
    ["cut off within the magic text", { head: latin("SQLite for"), size: 10 }, "damaged"],
    ["cut off within the head", { head: headOf().subarray(0, 99), size: 99 }, "damaged"],
    ["a write-ahead log in the head", { head: headOf((head) => head.setUint16(18, 0x0202)) }, "foreign"],
    ["only readers use a log", { head: headOf((head) => head.setUint8(19, 2)) }, "foreign"],
    ["a write-ahead log beside it", { stray: "s.boilstudy-wal" }, "foreign"],
    [
      "a log beside another program's database",
      { head: headOf((head) => head.setUint32(68, 0)), stray: "s.boilstudy-wal" },
      "notAStudy",
    ],
    ["a format of later days", { head: headOf((head) => head.setUint16(18, 0x0303)) }, "damaged"],
    ["format 0", { head: headOf((head) => head.setUint16(18, 0)) }, "damaged"],
    ["newer", { head: headOf((head) => head.setUint32(60, 4)) }, "newer"],
    ["newer by far", { head: headOf((head) => head.setUint32(60, 0xffffffff)) }, "newer"],
    ["one byte short", { size: 40_959 }, "damaged"],
    ["one page short", { size: 36_864 }, "damaged"],
    ["its head alone", { size: 100 }, "damaged"],
    ["bytes behind its end", { size: 41_000 }, "study 3"],
    ["more pages than a disk holds", { head: headOf((head) => head.setUint32(28, 0xffffffff)) }, "damaged"],
    [
      "a count of pages of an old writer, which does not count",
      { head: headOf((head) => head.setUint32(92, 6)) },
      "study 3",
    ],
    ["such a count, and half a page", { head: headOf((head) => head.setUint32(92, 6)), size: 40_000 }, "damaged"],
    ["pages of no bytes", { head: headOf((head) => head.setUint16(16, 0)) }, "damaged"],
    ["pages of 256 bytes", { head: headOf((head) => head.setUint16(16, 256)) }, "damaged"],
    ["pages of 4095 bytes", { head: headOf((head) => head.setUint16(16, 4095)) }, "damaged"],
    [
      "pages of 65,536 bytes, written as 1",
      { head: headOf((head) => head.setUint16(16, 1)), size: 655_360 },
      "study 3",
    ],
    ["pages of 512 bytes of which 33 are kept free", { head: tight(33), size: 5_120 }, "damaged"],
    ["32, which is as much as may be", { head: tight(32), size: 5_120 }, "study 3"],
    ["a fraction of a page that is none", { head: headOf((head) => head.setUint8(21, 65)) }, "damaged"],
  ])("%s", (_what, facts, expected) => {
    expect(look(facts)).toBe(expected);
  });

  test("the head may be a part of a larger buffer", () => {
    const buffer = new Uint8Array(300);
    buffer.set(headOf(), 111);
    expect(look({ head: buffer.subarray(111, 211) })).toBe("study 3");
  });
});
