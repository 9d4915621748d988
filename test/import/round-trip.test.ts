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
      "numbers that are kept beside others, in another unit and with decimal commas",
      {
        add: ["duration_min", "hydrogen_percent"],
        rename: { duration_min: "duration (h:mm)", char_container_g: "char container (kg)" },
        cells: {
          "2.duration_min": "0:27",
          "3.hydrogen_percent": "6,1",
          "2.char_container_g": "0,248",
          "3.char_container_g": "0,248",
          "4.char_container_g": "0,248",
          ...Object.fromEntries([2, 3, 4].flatMap((row) => [[`${row}.moisture_wet_percent`, "11,9"]])),
          ...{ "2.air_C": "24,5", "3.air_C": "25,1", "4.air_C": "25,6" },
          ...{ "2.boiling_C": "98,2", "3.boiling_C": "98,2", "4.boiling_C": "98,2" },
          ...{ "2.pot1_start_C": "22,4", "3.pot1_start_C": "22,7", "4.pot1_start_C": "97,9" },
          ...{ "2.pot1_end_C": "98,1", "3.pot1_end_C": "98,2", "4.pot1_end_C": "96,4" },
        },
        delimiter: ";",
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

test("a third fuel without a second, with a value kept beside it: written as the second, with that value", () => {
  const fuel = { fuel3: "pine", fuel3_start_g: "90", fuel3_end_g: "20", fuel3_moisture_wet_percent: "9" };
  const kept = { fuel3_net_calorific_kJ_per_kg: "18000", fuel3_hydrogen_percent: "6" };
  const cells = Object.entries({ ...fuel, ...kept }).map(([column, text]) => [`4.${column}`, text]);
  const add = Object.keys({ ...fuel, ...kept });
  const first = readText(readingsText({ add, cells: Object.fromEntries(cells) }));
  expect(first.problems).toEqual([]);
  const runs = first.study?.runs ?? [];
  expect(runs[0]?.phases[2]?.fuels.map(({ fuel: name }) => name)).toEqual(["eucalyptus", "pine"]);
  const text = writeReadings({ name: "study", settings: settingsFor(emptySettingsFile(), runs), runs });
  const second = readText(text);
  expect(second.problems).toEqual([]);
  expect(withoutNames(second.study?.runs ?? [])).toEqual(withoutNames(runs));
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
