import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  emptySettingsFile,
  readReadings,
  readSettings,
  readTable,
  settingsFor,
  writeReadings,
  writeSettings,
} from "../../app/import/index.ts";
import { readingsText } from "./good-readings.ts";
import { settings, study, withoutNames } from "./studies.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const readText = (text: string) =>
  readReadings({ table: readTable(bytes(text), "study.csv"), settings: emptySettingsFile() });

describe("readings written and read again", () => {
  test("any study: values, sharing of readings, exclusions, conditions and other columns are the same", () => {
    fc.assert(
      fc.property(study, (made) => {
        const text = writeReadings(made);
        const read = readText(text);
        expect(read.problems.filter(({ severity }) => severity === "error")).toEqual([]);
        expect(withoutNames(read.study?.runs ?? [])).toEqual(withoutNames(made.runs));
        expect(writeReadings({ ...made, runs: read.study?.runs ?? [] })).toBe(text);
      }),
      { numRuns: 200 },
    );
  }, 60_000);

  test.each([
    ["as it stands", {}],
    [
      "kilograms and degrees Fahrenheit",
      {
        rename: { pot1_start_g: "Pot1 Start (kg)", pot1_end_g: "pot1 end (kg)", air_C: "air (°F)" },
        cells: {
          "2.pot1_start_g": "5.8183",
          "2.pot1_end_g": "5.667",
          "3.pot1_start_g": "5.832",
          "3.pot1_end_g": "5.674",
          "4.pot1_start_g": "5.666",
          "4.pot1_end_g": "4.953",
          "2.air_C": "76.1",
          "3.air_C": "76.1",
          "4.air_C": "78",
        },
      },
    ],
    [
      "past midnight",
      {
        cells: {
          "2.start": "23:20:05.5",
          "2.end": "23:58",
          "3.start": "23:59",
          "3.end": "00:24",
          "4.start": "00:26",
          "4.end": "01:11",
        },
      },
    ],
    [
      "offsets from UTC",
      {
        cells: {
          "2.start": "2026-03-10T01:10+03:00",
          "2.end": "2026-03-10T01:37+03:00",
          "3.start": "2026-03-10T08:45Z",
          "3.end": "2026-03-10T09:10:00.250Z",
        },
      },
    ],
    [
      "an excluded run, a kept duration and a container without char",
      {
        add: ["excluded", "duration_min", "weather"],
        cells: { "2.excluded": "=rain", "3.duration_min": "25", "3.char_container_g": "248", "4.weather": "'cold" },
      },
    ],
  ] as const)("a file: %s", (_, changes) => {
    const first = readText(readingsText(changes));
    expect(first.problems).toEqual([]);
    const runs = first.study?.runs ?? [];
    expect(runs).not.toEqual([]);
    const second = readText(writeReadings({ name: "study", settings: settingsFor(emptySettingsFile(), runs), runs }));
    expect(second.problems).toEqual([]);
    // Identifiers too are the same: they come from the names of run, phase and column.
    expect(second.study?.runs).toEqual(runs);
  });
});

test("settings written and read again are the same", () => {
  fc.assert(
    fc.property(settings, (made) => {
      const read = readSettings(bytes(writeSettings(made)), "settings.json");
      expect(read.problems).toEqual([]);
      expect(read.settings).toEqual(made);
    }),
    { numRuns: 200 },
  );
});
