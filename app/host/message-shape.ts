/**
 * What a message may be made of, before anything reads it: the hosts hold every message to this, and the door's schema comes after.
 * A readings file with a million rows left out is far below; what is above could only be meant to exhaust the program.
 */
export interface MessageLimits {
  /** Lists and objects within one another. */
  readonly depth: number;
  /** Values and keys altogether. */
  readonly values: number;
}

export const usualMessageLimits: MessageLimits = { depth: 64, values: 2_000_000 };

const code = (letter: string) => letter.charCodeAt(0);
const quote = code('"');
const backslash = code("\\");
const comma = code(",");
const openings = [code("["), code("{")] as const;
const closings = [code("]"), code("}")] as const;

/** Where the text that begins here ends; the end of all where it does not. Most of a message is one long text: it is searched, not read. */
function endOfText(json: Uint8Array, start: number): number {
  for (let end = json.indexOf(quote, start + 1); end >= 0; end = json.indexOf(quote, end + 1)) {
    let before = end - 1;
    while (json[before] === backslash) before -= 1;
    // An even number of backslashes quote one another.
    if ((end - before) % 2 === 1) return end;
  }
  return json.length;
}

/**
 * Whether JSON in UTF-8 keeps to the limits, told from its brackets and commas alone (RFC 8259): it is not parsed, for 24 MB of brackets
 * become gigabytes when they are. Bytes that are no JSON may pass; the parser refuses them.
 */
export function jsonFits(json: Uint8Array, limits: MessageLimits = usualMessageLimits): boolean {
  let depth = 0;
  let values = 1;
  for (let at = 0; at < json.length; at += 1) {
    const byte = json[at];
    if (byte === quote) at = endOfText(json, at);
    else if (byte === comma) values += 1;
    else if (byte === openings[0] || byte === openings[1]) {
      depth += 1;
      values += 1;
    } else if (byte === closings[0] || byte === closings[1]) depth -= 1;
    if (depth > limits.depth || values > limits.values) return false;
  }
  return true;
}

export type MessageShape = "fits" | "tooLarge" | "notPlain";

/**
 * The same for a message that comes as values and not as bytes, copied from another process (structured clone: it may hold itself,
 * maps, dates or bytes, which are no message). `letters` bounds its texts and keys, in UTF-16 units: never more than bytes of UTF-8.
 */
export function shapeOf(message: unknown, letters: number, limits: MessageLimits = usualMessageLimits): MessageShape {
  const waiting: { readonly value: unknown; readonly depth: number }[] = [{ value: message, depth: 0 }];
  let lettersSeen = 0;
  let valuesSeen = 1;
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { value, depth } = next;
    if (typeof value === "string") lettersSeen += value.length;
    else if (typeof value === "object" && value !== null) {
      if (depth >= limits.depth) return "notPlain";
      const kind: unknown = Object.getPrototypeOf(value);
      const isList = Array.isArray(value);
      if (!isList && kind !== Object.prototype && kind !== null) return "notPlain";
      // Before its members are listed: a list's length costs its sender nothing.
      if (isList && valuesSeen + value.length > limits.values) return "tooLarge";
      const keys = Object.keys(value);
      if (isList && keys.length !== value.length) return "notPlain";
      valuesSeen += keys.length;
      for (const key of keys) {
        if (!isList) lettersSeen += key.length;
        waiting.push({ value: (value as Record<string, unknown>)[key], depth: depth + 1 });
      }
    } else if (typeof value === "bigint" || typeof value === "function" || typeof value === "symbol") return "notPlain";
    if (lettersSeen > letters || valuesSeen > limits.values) return "tooLarge";
  }
  return "fits";
}
