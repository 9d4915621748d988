import { describe, expect, test } from "vitest";
import {
  emptySettingsFile,
  readLeavingOutBadRows,
  readReadings,
  readSettings,
  readTable,
} from "../../app/import/index.ts";
import { mostProblems } from "../../app/import/limits.ts";
import { type Changes, readingsText } from "./good-readings.ts";

const utf8 = (text: string) => new TextEncoder().encode(text);
const input = (text: string) => ({ table: readTable(utf8(text), "x.csv"), settings: emptySettingsFile() });
const read = (text: string) => readReadings(input(text));
const found = (text: string) =>
  read(text).problems.map(({ severity, rule, row, column }) => [severity, rule, row, column]);
const changed = (changes: Changes) => found(readingsText(changes));

describe("what stands above the headings", () => {
  test.each([
    ["sep=,\n", "," as const],
    ["sep=;\n", ";" as const],
    ['"sep=;"\n', ";" as const],
    ["SEP=;\r\n", ";" as const],
    ["sep=\t\n", "\t" as const],
  ])("a spreadsheet's own line %j is passed over, and its mark is taken", (line, delimiter) => {
    const { study, problems } = read(line + readingsText({ delimiter }));
    expect(problems).toEqual([]);
    expect(study?.runs[0]?.phases[0]?.sourceRow).toBe(3);
  });

  test.each([
    ["# weighed by the spring crew\n", 2],
    ["Boil tests in spring,,,\n\n", 3],
  ])("%j is one error, which says where the headings are", (line, row) => {
    const { study, problems } = read(line + readingsText());
    expect(study).toBeNull();
    expect(problems.map(({ rule }) => rule)).toEqual(["headings-not-found"]);
    expect(problems[0]?.message).toContain(`row ${row}`);
  });

  test("cells parted by another mark are one error, which names the marks that are known", () => {
    const { problems } = read(readingsText().replaceAll(",", "|"));
    expect(problems.map(({ rule }) => rule)).toEqual(["headings-not-found"]);
    expect(problems[0]?.message).toContain("semicolon");
  });
});

test("headings once more between the rows are one error, and left out with bad rows", () => {
  const lines = readingsText().trimEnd().split("\n");
  const text = [...lines.slice(0, 2), lines[0], ...lines.slice(2)].join("\n");
  expect(found(text)).toEqual([["error", "headings-repeated", 3, null]]);
  const left = readLeavingOutBadRows(input(text));
  expect(left.study?.runs[0]?.phases).toHaveLength(3);
  expect(left.leftOutRows.map(({ row }) => row)).toEqual([3]);
});

describe("an excluded cell that gives no reason is refused: the run would silently not count", () => {
  test.each(["no", "NO", "n", "0", "false", "-", "–", "none", "n/a", "nein", "included"])("%j", (text) => {
    expect(changed({ add: ["excluded"], cells: { "2.excluded": text } })).toEqual([
      ["error", "not-a-reason", 2, "excluded"],
    ]);
  });

  test.each(["no water left", "lid fell off", "x", "yes", "0.5 kg of wood spilt"])("%j is a reason", (text) => {
    const { study } = read(readingsText({ add: ["excluded"], cells: { "2.excluded": text } }));
    expect(study?.runs[0]?.leftOut).toBe(text);
  });
});

describe("names that look alike are asked about, once", () => {
  test.each([
    ["run", "r01"],
    ["run", "R 01"],
    ["run", "R\u00a001"],
    ["run", "R01\u200b"],
    ["fuel", "Eucalyptus"],
  ])("%s %j", (column, text) => {
    expect(changed({ cells: { [`4.${column}`]: text } })).toEqual([["question", "similar-names", 4, column]]);
  });

  test("composed and decomposed letters", () => {
    const cells = { "2.fuel": "che\u0302ne", "3.fuel": "chêne", "4.fuel": "chêne" };
    expect(changed({ cells })).toEqual([["question", "similar-names", 3, "fuel"]]);
  });

  test.each(["R01-1", "R02", "R1"])("%j beside R01 is another name", (text) => {
    expect(changed({ cells: { "4.run": text } })).toEqual([]);
  });

  test("1-1 is not 11", () => {
    expect(changed({ cells: { "2.run": "R 1-1", "3.run": "R 11", "4.run": "R11" } })).toEqual([
      ["question", "similar-names", 4, "run"],
    ]);
  });
});

describe("columns that are not known", () => {
  test.each([
    ["air_C", "air temp (C)"],
    ["air_C", "air_temperature_C"],
    ["boiling_C", "boiling point (°C)"],
    ["char_with_container_g", "char_with_contaner_g"],
    ["net_calorific_kJ_per_kg", "net_caloric_kJ_per_kg"],
  ])("instead of %s, %j is asked about", (name, heading) => {
    const problems = read(readingsText({ rename: { [name]: heading } })).problems;
    expect(problems.map(({ rule, row, column }) => [rule, row, column])).toEqual([["near-column", 1, heading]]);
    expect(problems[0]?.message).toContain(`Is ${name} meant?`);
  });

  test.each(["weather", "co_sensor", "char_colour", "pot1_lid"])("%j is a note, without a question", (heading) => {
    expect(changed({ add: ["x"], rename: { x: heading }, cells: { "2.x": "7" } })).toEqual([]);
  });

  test.each(["pot5_start_g", "Pot 12 end (kg)", "fuel5_start_g"])(
    "%j has cells that would be lost: an error",
    (heading) => {
      const added = { add: ["x"], rename: { x: heading } };
      expect(changed({ ...added, cells: { "2.x": "7" } })).toEqual([["error", "entry-beyond", 1, heading]]);
      expect(changed(added)).toEqual([]);
    },
  );
});

describe("one mass in kilograms among grams is asked about", () => {
  test.each([
    ["fuel_end_g", "0.378"],
    ["pot1_empty_g", "0.815"],
  ])("%s of %s", (column, cell) => {
    expect(changed({ cells: { [`2.${column}`]: cell } })).toEqual([["question", "mass-unit", 2, column]]);
  });

  test("the char's container, with and without char", () => {
    expect(changed({ cells: { "2.char_container_g": "0.248", "2.char_with_container_g": "0.309" } })).toEqual([
      ["question", "mass-unit", 2, "char_container_g"],
      ["question", "mass-unit", 2, "char_with_container_g"],
    ]);
  });

  test("a char at start of zero is none, and not asked about", () => {
    expect(changed({ add: ["char_at_start_g"], cells: { "4.char_at_start_g": "0" } })).toEqual([]);
  });
});

test.each([
  ["1e308", "mass-too-large"],
  ["1000000.1", "mass-too-large"],
])("a pot of %s g would overflow, or be nonsense: refused", (cell, rule) => {
  expect(changed({ cells: { "2.pot1_start_g": cell } })).toEqual([["error", rule, 2, "pot1_start_g"]]);
});

test.each([
  ["08:10", "08:10"],
  ["2026-03-10T09:00", "2026-03-10T08:37"],
])("times that cannot be are named as they are written: %s to %s", (start, end) => {
  const [problem] = read(readingsText({ cells: { "2.start": start, "2.end": end } })).problems;
  expect(problem?.message).toContain(`“${start}”`);
  expect(problem?.message).toContain(`“${end}”`);
});

test.each([
  ["of one run", () => "R"],
  ["of many", (index: number) => `R${index}`],
])("a file that is nothing but faults, %s, ends with a word about it, and keeps no endless list", (_, name) => {
  const [heading = ""] = readingsText().split("\n");
  const row = heading.replaceAll(/[^,]+/g, "?");
  const rows = Array.from({ length: 10_000 }, (_, index) => row.replace("?", name(index)));
  const text = input([heading, ...rows].join("\n"));
  for (const { study, problems } of [readReadings(text), readLeavingOutBadRows(text)]) {
    expect(study).toBeNull();
    expect(problems[0]?.rule).toBe("too-many-problems");
    expect(problems.length).toBe(mostProblems + 1);
  }
});

describe("settings", () => {
  const problemsOf = (text: string) => readSettings(utf8(text), "s.json").problems;

  test.each([
    ['{"method":"wbt",\n"method":"iso"}', "method", 2],
    ['{"fuels":{"oak":{"netCalorific":18000},"oak":{"netCalorific":19000}}}', "fuels.oak", 1],
    [
      '{"instruments":{"clock":{"components":[{"name":"a\\"{,","name":"b"}]}}}',
      "instruments.clock.components[0].name",
      1,
    ],
    ['{"fuels":{"a":{"netCalorific":18000},"\\u0061":{"netCalorific":19000}}}', "fuels.a", 1],
  ])("a key that stands twice: %s", (text, column, row) => {
    expect(problemsOf(text).filter(({ rule }) => rule === "key-twice")).toMatchObject([{ column, row }]);
  });

  test("keys that stand twice a thousand times, deep inside one another, are listed up to a hundred", () => {
    const text = `${'{"method":1,"method":'.repeat(1000)}1${"}".repeat(1000)}`;
    expect(problemsOf(text).filter(({ rule }) => rule === "key-twice")).toHaveLength(100);
  });

  test("the same key in two objects, or as a value, is none", () => {
    const text = '{"fuels":{"oak":{"netCalorific":18000},"netCalorific":{"netCalorific":19000}},"method":"wbt"}';
    expect(problemsOf(text)).toEqual([]);
  });

  test.each([
    ['{"confidence":95}', "“95”"],
    ['{"confidence":0.05}', "“0.05”"],
    ['{"confidence":"0.95"}', "“0.95” (a text)"],
    ['{"method":"WBT"}', "“WBT” (a text)"],
    ['{"fuels":{"oak":{"netCalorific":18.4}}}', "“18.4”"],
    ['{"fuels":{"oak":{"netCalorific":1e400}}}', "“Infinity”"],
    ['{"char":{"netCalorific":{"value":29.5}}}', "“29.5”"],
    ['{"fuels":{"oak":{"grossCalorific":19500,"hydrogenPercent":0.06}}}', "“0.06”"],
  ])("what stands there is named: %s", (text, shown) => {
    expect(problemsOf(text).map(({ message }) => message)).toEqual([expect.stringContaining(`Found was ${shown}`)]);
  });
});
