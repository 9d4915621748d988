import { describe, expect, test } from "vitest";
import { emptySettingsFile, readReadings, readTable } from "../../../app/import/index.ts";
import { changesOf, coreRun, editedRun, storedRun } from "../../../app/service/stored/index.ts";
import type { StoredRun } from "../../../app/store/content.ts";
import { defaultSettings, type Run } from "../../../core/index.ts";
import { readingsText } from "../../import/good-readings.ts";
import { numbered } from "./runs.ts";

const levels = new Map([["skirt", "no"]]);
const variant = { name: "clay insert", position: 0, levels };

/** What a study file gives for the one run: each reading an object of its own, acts shared by number alone. */
function stored(): StoredRun {
  const table = readTable(new TextEncoder().encode(readingsText({ add: ["factor:skirt"] })), "x.csv");
  const [run] = readReadings({ table, settings: emptySettingsFile() }).study?.runs ?? [];
  if (run === undefined) expect.fail("no run");
  const factors = new Map([["skirt", "no"]]);
  const place = { position: 4, variant: 1, variantLevels: levels, attachment: 9, act: numbered(1) };
  const made = storedRun({ ...run, factors }, place);
  const phases = made.phases.map((phase) => ({
    ...phase,
    readings: new Map([...phase.readings].map(([column, reading]) => [column, { ...reading }])),
  }));
  return { ...made, phases };
}

const run = () => coreRun(stored(), 7, variant);
const place = () => ({ item: 7, variant: 1, variantLevels: levels, act: numbered(1000) });

function edited(...cells: readonly (readonly [null | "cold-start" | "hot-start" | "simmer", string, string])[]): Run {
  const edits = cells.map(([phase, column, text]) => ({ phase, column, text }));
  const result = editedRun(run(), defaultSettings(), edits, "en");
  if (!result.ok) expect.fail(result.problems.map(({ message }) => message).join(" "));
  return result.run;
}

describe("the changes of an edit", () => {
  test("none where nothing is edited", () => {
    expect(changesOf(stored(), run(), place())).toEqual([]);
  });

  test("one reading, one change, of a new act", () => {
    expect(changesOf(stored(), edited(["hot-start", "moisture_wet_percent", "12,4"]), place())).toEqual([
      {
        subject: "reading",
        item: 7,
        phase: "hot-start",
        field: "moisture_wet_percent",
        after: { act: 1000, value: 12.4 },
      },
    ]);
  });

  test("a reading that equals the same quantity of another phase takes its act", () => {
    const act = stored().phases[0]?.readings.get("air_C")?.act;
    expect(changesOf(stored(), edited(["simmer", "air_C", "24.5"]), place())).toEqual([
      { subject: "reading", item: 7, phase: "simmer", field: "air_C", after: { act, value: 24.5 } },
    ]);
  });

  test("the same value as a reading of its own is a change", () => {
    const [cold, ...others] = run().phases;
    if (cold === undefined) expect.fail("no phase");
    const apart: Run = { ...run(), phases: [{ ...cold, airTemperature: { id: "apart", value: 24.5 } }, ...others] };
    expect(changesOf(stored(), apart, place())).toEqual([
      { subject: "reading", item: 7, phase: "cold-start", field: "air_C", after: { act: 1000, value: 24.5 } },
    ]);
  });

  test("fields of the run, levels against those of the variant, texts", () => {
    const after = edited(
      [null, "operator", "second shift"],
      [null, "factor:skirt", ""],
      [null, "factor:fan", "off"],
      ["simmer", "note", "gusts"],
    );
    expect(changesOf(stored(), after, place())).toEqual([
      { subject: "runField", item: 7, field: "operator", after: "second shift" },
      {
        subject: "runField",
        item: 7,
        field: "levels",
        after: new Map([
          ["fan", "off"],
          ["skirt", null],
        ]),
      },
      { subject: "text", item: 7, phase: "simmer", field: "note", after: "gusts" },
    ]);
  });

  test("clock times that become a duration: the timing, what goes, what comes, and the start as a note", () => {
    const changes = changesOf(stored(), edited(["simmer", "end", ""], ["simmer", "duration_min", "45"]), place());
    expect(changes.map((change) => ("field" in change ? [change.subject, change.field] : [change.subject]))).toEqual([
      ["timing"],
      ["reading", "start"],
      ["reading", "end"],
      ["reading", "duration_min"],
      ["text", "start"],
    ]);
  });

  test("left out and brought back", () => {
    const after = edited([null, "excluded", "it rained"]);
    expect(changesOf(stored(), after, place())).toEqual([
      { subject: "runField", item: 7, field: "leftOut", after: "it rained" },
    ]);
  });

  test("another variant", () => {
    const after = edited([null, "variant", "metal"]);
    const at = { ...place(), variant: 2, variantLevels: new Map<string, string>() };
    expect(changesOf(stored(), after, at)).toEqual([
      { subject: "runField", item: 7, field: "variant", after: 2 },
      // A cell is a cell: the run keeps the levels that stand in it.
      { subject: "runField", item: 7, field: "levels", after: new Map([["skirt", "no"]]) },
    ]);
  });
});
