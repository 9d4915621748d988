import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  emptySettingsFile,
  longestCell,
  type ReadingsRead,
  readLeavingOutBadRows,
  readReadings,
  readSettings,
  readTable,
} from "../../app/import/index.ts";
import { readingsCells, readingsText } from "./good-readings.ts";

const timeLimit = 120_000;
const utf8 = (text: string) => new TextEncoder().encode(text);

/** Either a study or errors, never neither; no number that is none, no sentence with a hole in it. */
function expectSound(result: ReadingsRead): void {
  const errors = result.problems.filter(({ severity }) => severity === "error");
  expect(result.study === null).toBe(errors.length > 0);
  for (const { message } of result.problems) {
    const sentence = message.replaceAll(/“[^”]*”/g, "");
    expect(sentence).not.toMatch(/undefined|\bNaN\b|\[object|null/);
    expect(message).not.toMatch(/\n/);
  }
  let numbers = 0;
  const visit = (value: unknown): void => {
    if (typeof value === "number") {
      numbers += 1;
      if (!Number.isFinite(value)) expect.fail(`a number that is none among the readings: ${value}`);
    } else if (value instanceof Map) for (const inner of value.values()) visit(inner);
    else if (typeof value === "object" && value !== null) for (const inner of Object.values(value)) visit(inner);
  };
  visit(result.study?.runs ?? []);
  if (result.study !== null) expect(numbers).toBeGreaterThan(0);
}

function readSoundly(bytes: Uint8Array): ReadingsRead {
  const input = { table: readTable(bytes, "x.csv"), settings: emptySettingsFile() };
  const result = readReadings(input);
  expectSound(result);
  expectSound(readLeavingOutBadRows(input));
  return result;
}

const hostile = fc.oneof(
  fc.constantFrom(
    "__proto__",
    "constructor",
    "prototype",
    "toString",
    "\0",
    "\u202e\u2066x",
    "<img src=x onerror=alert(1)>",
    "=HYPERLINK(1)",
    "'",
    '"',
    '""',
    '"\n',
    ",",
    ";;;",
    "\r",
    "\ud800",
    "\ufeff",
    "#REF!",
    "NaN",
    "-Infinity",
    "1e309",
    "-0",
    "0",
    "1e-320",
    "9".repeat(400),
    `0.${"0".repeat(400)}1`,
    "1e999999999",
    "-1E-999999999",
    "0e99999999999",
    "١٢٣",
    "12:60",
    "00:00",
    "23:59:59.999",
    "9999-12-31T23:59",
    "0000-01-01",
    "1900-01-01T00:00-14:00",
    "cold-start",
    "low-power",
    "R01",
    "100",
    "-1",
    "1,5",
    "1.5",
    "((((",
    "[(",
    "factor:",
    "factor:x",
    "pot1_start_g (kg)",
    "fuel_start_stone",
  ),
  fc.string({ unit: "binary", maxLength: 20 }),
  fc.double().map(String),
);

describe("whatever the bytes are", () => {
  test(
    "random bytes",
    () => {
      fc.assert(
        fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => void readSoundly(bytes)),
        { numRuns: 500 },
      );
    },
    timeLimit,
  );

  test(
    "a good file with bytes changed",
    () => {
      const good = utf8(readingsText());
      const change = fc.tuple(fc.nat({ max: good.length - 1 }), fc.integer({ min: 0, max: 255 }));
      fc.assert(
        fc.property(fc.array(change, { minLength: 1, maxLength: 6 }), (changes) => {
          const bytes = good.slice();
          for (const [at, byte] of changes) bytes[at] = byte;
          readSoundly(bytes);
        }),
        { numRuns: 500 },
      );
    },
    timeLimit,
  );

  test(
    "a good file cut off anywhere",
    () => {
      const good = utf8(readingsText());
      for (let length = 0; length < good.length; length += 7) readSoundly(good.subarray(0, length));
    },
    timeLimit,
  );
});

describe("whatever the cells are", () => {
  const cells = readingsCells({
    add: ["order", "excluded", "boiled_at", "duration_min", "factor:skirt", "fuel2_start_g", "weather"],
  });
  const columns = cells[0]?.length ?? 0;
  const change = fc.tuple(fc.nat({ max: 3 }), fc.nat({ max: columns - 1 }), hostile);
  const quote = (cell: string) => `"${cell.replaceAll('"', '""')}"`;

  test(
    "cells and headings replaced, quoted as they should be",
    () => {
      fc.assert(
        fc.property(
          fc.array(change, { minLength: 1, maxLength: 8 }),
          fc.constantFrom(",", ";", "\t"),
          (changes, mark) => {
            const changed = cells.map((row) => [...row]);
            for (const [row, column, text] of changes) (changed[row] ?? [])[column] = text;
            readSoundly(utf8(changed.map((row) => row.map(quote).join(mark)).join("\n")));
          },
        ),
        { numRuns: 1000 },
      );
    },
    timeLimit,
  );

  test(
    "cells replaced without quotation marks",
    () => {
      fc.assert(
        fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
          const changed = cells.map((row) => [...row]);
          for (const [row, column, text] of changes) (changed[row] ?? [])[column] = text;
          readSoundly(utf8(changed.map((row) => row.join(",")).join("\n")));
        }),
        { numRuns: 500 },
      );
    },
    timeLimit,
  );
});

describe("sizes", () => {
  test("a cell at its limit is read, one over it is an error", () => {
    const text = (length: number) => utf8(readingsText({ add: ["note"], cells: { "3.note": "n".repeat(length) } }));
    expect(readSoundly(text(longestCell)).problems).toEqual([]);
    expect(readSoundly(text(longestCell + 1)).problems.map(({ rule }) => rule)).toEqual(["cell-too-long"]);
    const digits = utf8(readingsText({ cells: { "3.fuel_start_g": "9".repeat(longestCell) } }));
    expect(readSoundly(digits).problems.map(({ rule }) => rule)).toEqual(["not-a-number"]);
  });

  test.each([
    ["200 000 columns", `${"a,".repeat(200_000)}\n${"1,".repeat(200_000)}\n`],
    ["200 000 cells in one row", `${readingsText()}${"1,".repeat(200_000)}\n`],
    ["5 million commas", ",".repeat(5_000_000)],
    ["5 million quotation marks", '"'.repeat(5_000_000)],
    ["a quotation mark that is never closed", `${readingsText()}"${"x,\n".repeat(1_000_000)}`],
    ["a heading of a million brackets", `${"(".repeat(1_000_000)}\n1\n`],
    ["a heading of many blanks", `factor:${" ".repeat(9_000)}\nrun\n`],
    [
      "a number cell of many blanks and digits",
      readingsText({ cells: { "2.fuel_start_g": `1${" 1".repeat(4_000)}x` } }),
    ],
  ])(
    "%s",
    (_, text) => {
      expect(readSoundly(utf8(text)).study).toBeNull();
    },
    timeLimit,
  );

  test(
    "20 000 rows of one run and phase",
    () => {
      const [heading = "", row = ""] = readingsText().split("\n");
      const result = readReadings({
        table: readTable(utf8(`${heading}\n${`${row}\n`.repeat(20_000)}`), "x.csv"),
        settings: emptySettingsFile(),
      });
      expect(result.problems).toHaveLength(20_000);
    },
    timeLimit,
  );
});

describe("settings, whatever they are", () => {
  const readSettingsSoundly = (bytes: Uint8Array) => {
    const { settings, problems } = readSettings(bytes, "s.json");
    expect(settings === null).toBe(problems.length > 0);
    for (const { message } of problems)
      expect(message.replaceAll(/“[^”]*”/g, "")).not.toMatch(/undefined|\bNaN\b|\[object/);
  };

  test(
    "random bytes and random JSON",
    () => {
      fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), readSettingsSoundly), { numRuns: 300 });
      fc.assert(
        fc.property(fc.json({ maxDepth: 6 }), (text) => readSettingsSoundly(utf8(text))),
        { numRuns: 300 },
      );
    },
    timeLimit,
  );

  test(
    "random values under the right keys",
    () => {
      const instruments = fc.dictionary(
        fc.constantFrom("fuelBalance", "potBalance", "clock", "__proto__", "scales"),
        fc.oneof(
          fc.constantFrom("fuelBalance", "potBalance", "clock", "nowhere"),
          fc.record({ components: fc.array(fc.jsonValue({ maxDepth: 2 })) }),
          fc.record({ resolution: fc.jsonValue({ maxDepth: 1 }) }),
        ),
      );
      const file = fc.record(
        {
          method: fc.jsonValue({ maxDepth: 1 }),
          confidence: fc.jsonValue({ maxDepth: 1 }),
          fuels: fc.dictionary(fc.string(), fc.jsonValue({ maxDepth: 3 })),
          char: fc.jsonValue({ maxDepth: 3 }),
          instruments,
          monteCarlo: fc.record({ trials: fc.jsonValue({ maxDepth: 1 }), seed: fc.double() }, { requiredKeys: [] }),
        },
        { requiredKeys: [] },
      );
      fc.assert(
        fc.property(file, (value) => readSettingsSoundly(utf8(JSON.stringify(value)))),
        { numRuns: 500 },
      );
    },
    timeLimit,
  );

  test.each([
    ["a million brackets", "[".repeat(1_000_000)],
    ["nested lists", `${"[".repeat(100_000)}${"]".repeat(100_000)}`],
    ["nested objects", `${'{"fuels":'.repeat(50_000)}1${"}".repeat(50_000)}`],
  ])(
    "%s",
    (_, text) => {
      readSettingsSoundly(utf8(text));
      expect(readSettings(utf8(text), "s.json").settings).toBeNull();
    },
    timeLimit,
  );
});
