import { describe, expect, test } from "vitest";
import { emptySettingsFile, phaseCells, type ReadingsRead, readReadings, readTable } from "../../app/import/index.ts";
import { type Phase, type PhaseName, wordsFor } from "../../core/index.ts";
import { expectNumber } from "../numbers.ts";
import { type Changes, readingsText } from "./good-readings.ts";

const readText = (text: string): ReadingsRead =>
  readReadings({ table: readTable(new TextEncoder().encode(text), "x.csv"), settings: emptySettingsFile() });
const read = (changes: Changes = {}) => readText(readingsText(changes));
const places = ({ problems }: ReadingsRead) => problems.map(({ rule, row, column }) => [rule, row, column]);
const phaseOf = (result: ReadingsRead, name: PhaseName): Phase => {
  const found = result.study?.runs[0]?.phases.find(({ phase }) => phase === name);
  if (found === undefined) expect.fail(`no ${name}: ${result.problems.map(({ message }) => message).join(" ")}`);
  return found;
};
const clockOf = (phase: Phase) => {
  if (phase.timing.kind !== "clock") expect.fail("no clock times");
  return [phase.timing.start.value, phase.timing.end.value, phase.timing.written];
};

describe("what a faultless file gives", () => {
  const result = read();

  test("one run of three phases, nothing to say", () => {
    expect(result.problems).toEqual([]);
    expect(result.notes).toEqual([]);
    expect(result.study?.name).toBe("x");
    expect(result.study?.runs.map(({ name, method, phases }) => [name, method, phases.length])).toEqual([
      ["R01", "wbt", 3],
    ]);
  });

  test("every phase knows its row", () => {
    expect(result.study?.runs[0]?.phases.map(({ phase, sourceRow }) => [phase, sourceRow])).toEqual([
      ["cold-start", 2],
      ["hot-start", 3],
      ["simmer", 4],
    ]);
  });

  test("an empty cell is no reading: the hot start's char was not weighed", () => {
    expect(phaseOf(result, "hot-start").char).toBeNull();
    expect(phaseOf(result, "hot-start").charAtStart).toBeNull();
    expect(phaseOf(result, "hot-start").carbonMonoxide).toBeNull();
  });
});

describe("units in headings", () => {
  /** Expected values: definitions of the units (SI brochure, 9th edition; international pound and foot of 1959). */
  test.each([
    ["pot1_start_g", "pot1 start (kg)", "5.8183", 5818.3],
    ["pot1_start_g", "POT1_START_KG", "5.8183", 5818.3],
    ["pot1_start_g", "pot1 start [lb]", "12.83", 5819.5901071],
    ["fuel_start_g", "fuel start (oz)", "32", 907.18474],
    ["air_C", "air (°F)", "76.1", 24.5],
    ["air_C", "air_F", "-4", -20],
    ["air_C", "air (K)", "297.65", 24.5],
    ["boiling_C", "boiling (degF)", "208.4", 98],
    ["pressure_kPa", "pressure (hPa)", "1013.25", 101.325],
    ["pressure_kPa", "pressure_mbar", "850", 85],
    ["pressure_kPa", "pressure (Pa)", "84559.7", 84.5597],
    ["pressure_kPa", "pressure (bar)", "0.85", 85],
    ["altitude_m", "altitude (ft)", "5000", 1524],
    ["altitude_m", "altitude_km", "1.524", 1524],
    ["net_calorific_kJ_per_kg", "net calorific (MJ/kg)", "18.4", 18400],
    ["net_calorific_kJ_per_kg", "net_calorific_MJ_per_kg", "18.403", 18403],
    ["moisture_wet_percent", "moisture wet (fraction)", "0.119", 11.9],
    ["co_g", "CO (mg)", "5200.5", 5.2005],
    ["pm25_mg", "PM25 (g)", "0.1203", 120.3],
  ])("%s from %s: %s", (column, heading, cell, expected) => {
    const known = readingsText().split("\n")[0]?.split(",").includes(column) ?? false;
    const cells = { [`2.${column}`]: cell, [`3.${column}`]: cell, [`4.${column}`]: cell };
    const result = read({ rename: { [column]: heading }, cells, ...(known ? {} : { add: [column] }) });
    const cold = phaseOf(result, "cold-start");
    const [run] = result.study?.runs ?? [];
    if (run === undefined) expect.fail(result.problems.map(({ message }) => message).join(" "));
    const written = phaseCells(run, cold).find((found) => found.column === column)?.cell;
    // Exactly: decimals are scaled as decimals and rounded once.
    expect(written).toBe(expected);
    expect(result.notes.some((note) => note.includes(heading) && note.includes(column))).toBe(true);
  });

  test.each([
    ["duration (s)", "1530", 25.5],
    ["duration (h)", "0.425", 25.5],
    ["duration (h:mm:ss)", "0:25:30", 25.5],
    ["duration (mm:ss)", "25:30", 25.5],
    ["duration_min", "25.5", 25.5],
  ])("a duration from %s: %s", (heading, cell, minutes) => {
    const cells = { "3.start": "", "3.end": "", "3.duration_min": cell };
    const { timing } = phaseOf(read({ add: ["duration_min"], rename: { duration_min: heading }, cells }), "hot-start");
    expect(timing.kind).toBe("duration");
    expectNumber(timing.kind === "duration" ? timing.minutes.value : null, minutes);
  });

  test("an unknown unit is refused with the known ones; a word behind a name is a note", () => {
    const result = read({ rename: { pressure_kPa: "pressure (mmHg)" }, add: ["pressure_kPa"] });
    expect(places(result)).toEqual([["unit-unknown", 1, "pressure (mmHg)"]]);
    expect(result.problems[0]?.message).toContain("kPa, Pa, hPa, mbar, bar");
    expect(read({ add: ["cost", "air_quality", "char colour"] }).problems).toEqual([]);
  });
});

describe("number cells", () => {
  test.each([
    ["5818", 5818],
    [" 5818.0 ", 5818],
    ["5.818E+3", 5818],
    ["58180e-1", 5818],
    ["+5818.", 5818],
  ])("%s is read", (cell, expected) => {
    const { masses } = phaseOf(read({ cells: { "2.pot1_start_g": cell } }), "cold-start").pots[0] ?? {};
    expectNumber(masses?.kind === "weighed" ? masses.start.value : null, expected);
  });

  test.each([
    ["0x16BA", "unit-in-cell"],
    ["1e999", "not-finite"],
    ["1e-999", "not-finite"],
    ["-Infinity", "not-finite"],
    ["#N/A", "spreadsheet-error"],
    ["5800-5818", "two-numbers"],
    ["5800 and 5818", "two-numbers"],
    ["5,818.0", "thousands-separator"],
    ["5'818", "thousands-separator"],
    ["5\u202f818", "thousands-separator"],
    ["5818g", "unit-in-cell"],
    ["~5818", "not-a-number"],
    ["--5", "not-a-number"],
    ["'5818", "not-a-number"],
    ["five", "not-a-number"],
    ["1.2.3", "not-a-number"],
  ])("%s is refused as %s", (cell, rule) => {
    expect(places(read({ cells: { "2.pot1_start_g": cell } }))).toEqual([[rule, 2, "pot1_start_g"]]);
  });

  test("a file with semicolons and decimal commas is read, and it is said", () => {
    const commas = readingsText({ delimiter: ";" }).replaceAll(".", ",");
    const result = readText(commas);
    expect(result.problems).toEqual([]);
    expect(result.study?.runs).toEqual(read().study?.runs);
    expect(result.notes.join()).toMatch(/Semicolons.*comma was read as the decimal mark/);
  });

  test("semicolons with decimal points are read as points", () => {
    const result = read({ delimiter: ";" });
    expect(result.study?.runs).toEqual(read().study?.runs);
    expect(result.notes.join()).not.toMatch(/decimal mark/);
  });

  test("all problems of all cells at once, in order of row and column", () => {
    const result = read({ cells: { "4.end": "never", "2.fuel_start_g": "much", "2.air_C": "NaN", "3.phase": "warm" } });
    expect(places(result)).toEqual([
      ["not-a-number", 2, "fuel_start_g"],
      ["not-finite", 2, "air_C"],
      ["unknown-phase", 3, "phase"],
      ["not-a-time", 4, "end"],
    ]);
    expect(result.study).toBeNull();
  });
});

describe("times", () => {
  test("bare times pass midnight within a phase and between phases, rows in any order", () => {
    const cells = {
      "2.start": "23:50",
      "2.end": "00:17",
      "3.start": "00:20:30",
      "3.end": "00:45",
      "4.start": "00:47",
      "4.end": "01:32",
    };
    const lines = readingsText({ cells }).trimEnd().split("\n");
    const shuffled = [lines[0], lines[3], lines[1], lines[2]].join("\n");
    for (const result of [read({ cells }), readText(shuffled)]) {
      expect(clockOf(phaseOf(result, "cold-start"))).toEqual([1430, 1457, "time"]);
      expect(clockOf(phaseOf(result, "hot-start"))).toEqual([1460.5, 1485, "time"]);
      expect(clockOf(phaseOf(result, "simmer"))).toEqual([1487, 1532, "time"]);
    }
  });

  test("dated times count from the run's date; offsets go to UTC", () => {
    const cells = {
      "2.start": "2026-03-10T23:50",
      "2.end": "2026-03-11T00:17",
      "3.start": "2026-03-11T01:20+03:00",
      "3.end": "2026-03-10T22:45:00.5Z",
    };
    const result = read({ cells });
    expect(clockOf(phaseOf(result, "cold-start"))).toEqual([1430, 1457, "dateTime"]);
    expect(clockOf(phaseOf(result, "hot-start"))).toEqual([1340, 1365 + 0.5 / 60, "utcDateTime"]);
  });

  test("a run without a date takes that of its first dated time", () => {
    const result = read({
      remove: ["date"],
      cells: { "2.start": "2026-03-10T08:10", "2.end": "2026-03-10T08:37" },
    });
    expect(result.study?.runs[0]?.date).toBe("2026-03-10");
  });

  test.each(["8:5", "24:00", "08:60", "8.10", "08:10 pm", "2026-02-29T08:10", "2026-03-10T08:10+15:00", "2026-03-10"])(
    "%s is no time",
    (cell) => {
      expect(places(read({ cells: { "2.start": cell } }))).toEqual([["not-a-time", 2, "start"]]);
    },
  );

  test("start, end and a duration that agrees: the clock is used, the duration kept", () => {
    const result = read({ add: ["duration_min"], cells: { "2.duration_min": "27.5" } });
    expect(clockOf(phaseOf(result, "cold-start"))).toEqual([490, 517, "time"]);
    expect(phaseOf(result, "cold-start").conditions.others).toEqual([{ heading: "duration_min", text: "27.5" }]);
    expect(result.notes.join()).toMatch(/duration/);
  });

  test("an ISO phase knows when it boiled", () => {
    const result = read({
      add: ["boiled_at"],
      cells: { "2.phase": "high-power", "3.phase": "medium-power", "4.phase": "low-power", "2.boiled_at": "08:31" },
    });
    expectNumber(phaseOf(result, "high-power").boiledAt?.value, 511);
    expect(result.study?.settings).toMatchObject({ method: "iso", confidence: 0.9 });
  });
});

describe("one reading or several", () => {
  const ids = (result: ReadingsRead, pick: (phase: Phase) => { id: string } | null | undefined) =>
    new Set(result.study?.runs.flatMap(({ phases }) => phases.map((phase) => pick(phase)?.id)));

  test("what stands with one value in the phases of a run is one reading", () => {
    const result = read({ cells: { "3.air_C": "24.5", "4.air_C": "24.5" } });
    expect(ids(result, ({ airTemperature }) => airTemperature)).toEqual(new Set(["R01/cold-start/air_C"]));
    expect(ids(result, ({ boilingPoint }) => boilingPoint.measured).size).toBe(1);
    expect(ids(result, ({ fuels }) => fuels[0]?.moisture?.percent).size).toBe(1);
    expect(ids(result, ({ fuels }) => fuels[0]?.calorific?.value).size).toBe(1);
    expect(ids(result, ({ pots }) => (pots[0]?.masses.kind === "weighed" ? pots[0].masses.empty : null)).size).toBe(1);
    expect(ids(result, ({ char }) => (char?.kind === "weighed" ? char.container : null))).toEqual(
      new Set(["R01/cold-start/char_container_g", undefined]),
    );
  });

  test("another value is another reading, and weighings are never shared", () => {
    const result = read({ cells: { "3.moisture_wet_percent": "12.4", "3.fuel_start_g": "912" } });
    expect(ids(result, ({ fuels }) => fuels[0]?.moisture?.percent).size).toBe(2);
    expect(ids(result, ({ fuels }) => fuels[0]?.massBefore).size).toBe(3);
  });

  test("two runs never share", () => {
    const second = readingsText({ cells: { "2.run": "R02", "3.run": "R02", "4.run": "R02" } })
      .split("\n")
      .slice(1);
    const result = readText(readingsText() + second.join("\n"));
    expect(ids(result, ({ boilingPoint }) => boilingPoint.measured).size).toBe(2);
  });

  test("identifiers stay apart whatever runs are called", () => {
    const names = ["R_01", "R 01", "R~5f~01", "R/01", "__proto__", "R01"];
    const text = [
      readingsText().split("\n")[0],
      ...names.flatMap((name) =>
        readingsText({ cells: { "2.run": name, "3.run": name, "4.run": name } })
          .trim()
          .split("\n")
          .slice(1),
      ),
    ].join("\n");
    const runs = readText(text).study?.runs ?? [];
    expect(new Set(runs.map(({ id }) => id)).size).toBe(names.length);
    for (const { id } of runs) expect(id).toMatch(/^[A-Za-z0-9~-][A-Za-z0-9_~-]*$/);
  });
});

describe("fuel entries", () => {
  const add = ["fuel2", "fuel2_start_g", "fuel2_end_g", "fuel2_moisture_wet_percent", "fuel2_net_calorific_kJ_per_kg"];
  const masses = { "2.fuel2_start_g": "60", "2.fuel2_end_g": "0", "2.fuel2_moisture_wet_percent": "11.9" };

  test("a further entry without a name is the main fuel: its name, calorific value and moisture, as the same readings", () => {
    const [first, second] = phaseOf(read({ add, cells: masses }), "cold-start").fuels;
    expect(second?.fuel).toBe("eucalyptus");
    expect(second?.calorific).toBe(first?.calorific);
    expect(second?.moisture?.percent.id).toBe(first?.moisture?.percent.id);
  });

  test("another fuel has its own", () => {
    const cells = { ...masses, "2.fuel2": "kindling", "2.fuel2_net_calorific_kJ_per_kg": "19000" };
    const [first, second] = phaseOf(read({ add, cells }), "cold-start").fuels;
    expectNumber(second?.calorific?.value.value, 19_000);
    expect(second?.moisture?.percent.id).not.toBe(first?.moisture?.percent.id);
  });

  test("another fuel without a calorific value leaves it to the settings", () => {
    const [, second] = phaseOf(read({ add, cells: { ...masses, "2.fuel2": "kindling" } }), "cold-start").fuels;
    expect(second?.calorific).toBeNull();
  });
});

describe("values of the run", () => {
  test("an empty cell takes the run's value", () => {
    const cells = { "2.variant": "", "3.variant": "", "2.block": "day 1", "3.factor:skirt": "yes", "4.order": "7" };
    const result = read({ add: ["block", "factor:skirt", "order"], cells });
    const [run] = result.study?.runs ?? [];
    expect(run).toMatchObject({ variant: "clay insert", block: "day 1", order: 7 });
    expect(run?.factors).toEqual(new Map([["skirt", "yes"]]));
  });

  test("two orders are an error in both rows, 7 and 7.0 are not", () => {
    expect(places(read({ add: ["order"], cells: { "2.order": "7", "4.order": "8" } }))).toEqual([
      ["run-value-conflict", 2, "order"],
      ["run-value-conflict", 4, "order"],
    ]);
    expect(read({ add: ["order"], cells: { "2.order": "7", "4.order": "7.0" } }).problems).toEqual([]);
  });

  test("text is kept as it is, less one apostrophe", () => {
    const cells = { "2.note": "'=1+1", "3.note": "''x", "4.note": "<b>bold</b>" };
    const result = read({ add: ["note"], cells });
    expect(result.study?.runs[0]?.phases.map(({ conditions }) => conditions.note)).toEqual([
      "=1+1",
      "'x",
      "<b>bold</b>",
    ]);
  });

  test("unknown columns are kept and named", () => {
    const result = read({ add: ["weather"], cells: { "3.weather": "'-5 and dry" } });
    expect(phaseOf(result, "hot-start").conditions.others).toEqual([{ heading: "weather", text: "-5 and dry" }]);
    expect(result.notes.join()).toContain("weather");
  });
});

describe("a run that is left out", () => {
  test("may lack needed readings: its phase is listed with the reason, the rest is read", () => {
    const result = read({
      add: ["excluded"],
      cells: { "3.excluded": "fire went out", "4.end": "", "4.pot1_end_g": "" },
    });
    expect(result.problems).toEqual([]);
    expect(result.study?.runs[0]?.leftOut).toBe("fire went out");
    expect(result.study?.runs[0]?.phases.map(({ phase }) => phase)).toEqual(["cold-start", "hot-start"]);
    expect(result.leftOutRows).toMatchObject([{ file: "x.csv", row: 4, run: "R01", phase: "simmer" }]);
    expect(result.leftOutRows[0]?.reasons[0]).toBe("fire went out");
    expect(result.leftOutRows[0]?.reasons).toHaveLength(3);
  });

  test("water that cooled is a question there, not an error", () => {
    const cells = { "3.excluded": "fire went out", "3.pot1_end_C": "20" };
    expect(read({ add: ["excluded"], cells }).problems.map(({ rule, severity }) => [rule, severity])).toEqual([
      ["water-cooled", "question"],
    ]);
  });

  test("text in a number cell is an error all the same", () => {
    const cells = { "2.excluded": "fire went out", "3.fuel_end_g": "?" };
    expect(places(read({ add: ["excluded"], cells }))).toEqual([["not-a-number", 3, "fuel_end_g"]]);
  });
});

describe("missing columns", () => {
  test("either of two ways will do, and a near name is hinted at", () => {
    expect(places(read({ remove: ["start", "end"] }))).toEqual([
      ["column-missing", 1, "start"],
      ["column-missing", 1, "end"],
    ]);
    const result = read({ rename: { fuel_start_g: "fuel_strat_g" } });
    expect(places(result)).toEqual([["column-missing", 1, "fuel_start_g"]]);
    expect(result.problems[0]?.message).toContain("fuel_strat_g");
  });

  test("net water stands in for pots that were weighed with water", () => {
    const cells = Object.fromEntries(
      [2, 3, 4].flatMap((row) => [
        [`${row}.pot1_water_start_g`, "5000"],
        [`${row}.pot1_water_end_g`, "4800"],
      ]),
    );
    const remove = ["pot1_empty_g", "pot1_start_g", "pot1_end_g"];
    const result = read({ remove, add: ["pot1_water_start_g", "pot1_water_end_g"], cells });
    expect(phaseOf(result, "simmer").pots[0]?.masses).toMatchObject({ kind: "net", waterStart: { value: 5000 } });
  });
});

test("messages quote control characters and turned writing by their codes, on one line", () => {
  const [problem] = read({ cells: { "2.fuel_start_g": "12\u001b[31m\u202e\nred" } }).problems;
  expect(problem?.message).toContain("12\\u001b[31m\\u202e\\u000ared");
  expect(problem?.cell).toBe("12\u001b[31m\u202e\nred");
  expect(wordsFor("en").problems.cell.notANumber({ cell: "x".repeat(5000) }).length).toBeLessThan(250);
});
