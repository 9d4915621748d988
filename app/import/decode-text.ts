import { largestFile } from "./limits.ts";

/** How the bytes of a file were understood. */
export type TextEncodingFound =
  | { readonly name: "UTF-8"; readonly marked: boolean }
  | { readonly name: "UTF-16"; readonly order: "LE" | "BE"; readonly marked: boolean };

export type DecodedText =
  | { readonly ok: true; readonly text: string; readonly encoding: TextEncodingFound }
  | { readonly ok: false; readonly because: "too-large" | "workbook" | "encoding-utf16" }
  | { readonly ok: false; readonly because: "encoding" | "nul"; readonly line: number };

const beginsWith = (bytes: Uint8Array, ...start: number[]) => start.every((byte, index) => bytes[index] === byte);

/** Byte order of UTF-16 without a mark: Latin text has a zero in every other byte. Null where it does not look like that. */
function utf16ByPattern(bytes: Uint8Array): "LE" | "BE" | null {
  const length = Math.min(bytes.length, 4096) & ~1;
  if (length < 4 || bytes.length % 2 !== 0) return null;
  let even = 0;
  let odd = 0;
  for (let index = 0; index < length; index += 2) {
    if (bytes[index] === 0) even += 1;
    if (bytes[index + 1] === 0) odd += 1;
  }
  const pairs = length / 2;
  if (odd > 0.7 * pairs && even === 0) return "LE";
  return even > 0.7 * pairs && odd === 0 ? "BE" : null;
}

function lineOf(text: string, index: number): number {
  return text.slice(0, index).split(/\r\n|\r|\n/).length;
}

/** Strict: bytes that mean nothing in an encoding give null, never a replacement character. */
function decode(bytes: Uint8Array, label: "utf-8" | "utf-16le" | "utf-16be"): string | null {
  try {
    return new TextDecoder(label, { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

/** Line of the first bytes that are not UTF-8. */
function firstBadLine(bytes: Uint8Array): number {
  const text = new TextDecoder("utf-8").decode(bytes);
  // A replacement character that the text really holds may come first; it is found by decoding up to it strictly.
  const encoder = new TextEncoder();
  for (let index = text.indexOf("\ufffd"), tries = 0; index !== -1; index = text.indexOf("\ufffd", index + 1)) {
    tries += 1;
    const upTo = encoder.encode(text.slice(0, index + 1)).length;
    if (tries > 20 || decode(bytes.subarray(0, upTo), "utf-8") === null) return lineOf(text, index);
  }
  return 1;
}

/**
 * Bytes of a file as text. UTF-8 is read strictly, UTF-16 with its byte order mark or by its clear pattern; nothing else is
 * guessed. The byte order mark is taken off.
 */
export function decodeText(bytes: Uint8Array): DecodedText {
  if (bytes.length > largestFile) return { ok: false, because: "too-large" };
  // A ZIP archive (workbooks are) and the older compound document.
  if (beginsWith(bytes, 0x50, 0x4b, 0x03, 0x04) || beginsWith(bytes, 0xd0, 0xcf, 0x11, 0xe0)) {
    return { ok: false, because: "workbook" };
  }
  const markedOrder = beginsWith(bytes, 0xff, 0xfe) ? "LE" : beginsWith(bytes, 0xfe, 0xff) ? "BE" : null;
  const order = markedOrder ?? utf16ByPattern(bytes);
  const text = decode(bytes, order === null ? "utf-8" : order === "LE" ? "utf-16le" : "utf-16be");
  if (text === null) {
    return order === null
      ? { ok: false, because: "encoding", line: firstBadLine(bytes) }
      : { ok: false, because: "encoding-utf16" };
  }
  const nul = text.indexOf("\0");
  if (nul !== -1) return { ok: false, because: "nul", line: lineOf(text, nul) };
  return {
    ok: true,
    text,
    encoding:
      order === null
        ? { name: "UTF-8", marked: beginsWith(bytes, 0xef, 0xbb, 0xbf) }
        : { name: "UTF-16", order, marked: markedOrder !== null },
  };
}
