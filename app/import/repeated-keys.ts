/** A key that an object of a JSON text has twice: its path, and the row of the second. */
export interface RepeatedKey {
  readonly path: string;
  readonly row: number;
}

interface Level {
  /** Null for a list. */
  readonly keys: Set<string> | null;
  key: string;
  index: number;
}

/** Strings, brackets, commas and line breaks; all else between them does not matter here. */
const tokens = /"(?:[^"\\]|\\.)*"|[{}[\],\n]/g;

/** So many are enough to mend a file by; the path of each is as long as the text is deep. */
const mostRepeated = 100;

/**
 * Keys that stand twice in one object, of which a JSON parser silently takes the last. The text has to be valid JSON.
 */
export function repeatedKeys(text: string): readonly RepeatedKey[] {
  const repeated: RepeatedKey[] = [];
  const levels: Level[] = [];
  let row = 1;
  /** A text at this place is a key. */
  let atKey = false;
  for (const [token] of text.matchAll(tokens)) {
    if (repeated.length >= mostRepeated) break;
    const level = levels.at(-1);
    if (token === "\n") row += 1;
    else if (token === "{" || token === "[") {
      levels.push({ keys: token === "{" ? new Set() : null, key: "", index: 0 });
      atKey = token === "{";
    } else if (token === "}" || token === "]") {
      levels.pop();
      atKey = false;
    } else if (token === ",") {
      if (level !== undefined) level.index += 1;
      atKey = level?.keys != null;
    } else if (atKey && level?.keys != null) {
      level.key = JSON.parse(token) as string;
      if (level.keys.has(level.key)) repeated.push({ path: pathOf(levels), row });
      level.keys.add(level.key);
      atKey = false;
    }
  }
  return repeated;
}

function pathOf(levels: readonly Level[]): string {
  return levels.reduce((path, { keys, key, index }) => {
    if (keys === null) return `${path}[${index}]`;
    return path === "" ? key : `${path}.${key}`;
  }, "");
}
