import { describe, expect, test } from "vitest";
import {
  defaultLocale,
  fieldName,
  procedureSteps,
  type Sheet,
  type SheetField,
  stepWords,
  wordsFor,
} from "../../core/index.ts";
import { inventedKnown, inventedPlan, inventedSheets, kindsOfSheets } from "./sample-sheets.ts";

function onlySheet(...change: Parameters<typeof inventedSheets>): Sheet {
  const [sheet, ...others] = inventedSheets(...change).sheets;
  if (sheet === undefined || others.length > 0) throw new Error("one sheet was expected");
  return sheet;
}
const fieldsOf = ({ head, bands }: Sheet): SheetField[] => [...head, ...bands.flatMap(({ fields }) => fields)];
const printed = (sheet: Sheet) =>
  fieldsOf(sheet).flatMap(({ label, value }) => (value === null ? [] : [[label, value] as const]));

describe.each(kindsOfSheets)("$method with $options", ({ method, options }) => {
  const sheet = onlySheet({ method, options });
  const steps = procedureSteps(method, options);

  test("has the steps of the Bench in their order, each once", () => {
    expect(sheet.bands.flatMap((band) => band.steps.map(({ id }) => id))).toEqual(steps.map(({ id }) => id));
    for (const { id, title, sentence } of sheet.bands.flatMap((band) => band.steps)) {
      expect(title).toBe(stepWords(id, defaultLocale).title);
      expect(sentence).toContain(stepWords(id, defaultLocale).sentence);
    }
  });

  test("has a place for every reading but those that stay as they were and what is noted in sentences", () => {
    const asked = steps
      .filter(({ id }) => id !== "anything-unusual")
      .flatMap(({ fields }) => fields)
      .filter(({ begins }) => begins?.stays !== true);
    const labels = asked.map((field) => fieldName(field, options.pots, defaultLocale));
    expect(fieldsOf(sheet).map(({ label }) => label)).toEqual([
      ...labels,
      wordsFor(defaultLocale).procedure.sheet.notes,
    ]);
    expect(printed(sheet)).toEqual([]);
  });

  test("a time has a box to tick and says how it is written; a number has its unit", () => {
    for (const { group, unit, ...field } of steps.flatMap(({ fields }) => fields)) {
      if (field.begins?.stays === true || group === "text" || group === "date" || group === "choice") continue;
      const label = fieldName(field, options.pots, defaultLocale);
      const found = fieldsOf(sheet).find((one) => one.label === label);
      expect(found?.unit, label).toBe(unit);
      expect(found?.isTicked, label).toBe(group === "time");
      expect(found?.hint, label).toBe(group === "time" ? "h:min" : null);
    }
  });
});

describe("what is known", () => {
  test("is printed in", () => {
    const runs = [{ run: "R07", variant: "skirt, narrow gap", order: 7, block: "day 2" }];
    const sheet = onlySheet({ known: inventedKnown, runs, options: { pots: 2 } });
    expect(sheet.title).toBe("Run R07");
    expect(printed(sheet)).toEqual([
      ["Variant", "skirt, narrow gap"],
      ["Place in order", "7"],
      ["Block", "day 2"],
      ["Altitude", "1600"],
      ["Wood", "eucalyptus, split"],
      ["Pot 1, empty", "612"],
      ["Pot 2, empty", "588.5"],
      ["Container, empty", "248"],
    ]);
  });

  test("a few fuels are ticked, many or long names are written by hand", () => {
    const wood = (fuels: string[]) =>
      fieldsOf(onlySheet({ known: { ...inventedKnown, fuels } })).find(({ label }) => label === "Wood");
    expect(wood(["eucalyptus", "pine"])).toMatchObject({ choices: ["eucalyptus", "pine"], isWritten: false });
    expect(wood(["a", "b", "c", "d"])).toMatchObject({ choices: [], isWritten: true, value: null });
    expect(wood(["x".repeat(40), "y".repeat(40)])).toMatchObject({ choices: [], isWritten: true, value: null });
    expect(wood([])).toMatchObject({ choices: [], isWritten: true, value: null });
  });

  test("moisture asks on which basis", () => {
    const moisture = fieldsOf(onlySheet()).find(({ label }) => label === "Moisture of the wood");
    expect(moisture).toMatchObject({ unit: "%", isWritten: true, choices: ["wet basis", "dry basis"] });
  });
});

describe("several runs", () => {
  test("a sheet for each run of the plan, in its order", () => {
    const { sheets } = inventedSheets({ runs: inventedPlan });
    expect(sheets.map(({ title }) => title)).toEqual(inventedPlan.map(({ run }) => `Run ${run}`));
    expect(sheets.map(({ number }) => number).slice(0, 2)).toEqual(["Sheet 1 of 24", "Sheet 2 of 24"]);
    sheets.forEach((sheet, index) => {
      expect(printed(sheet).map(([, value]) => value)).toEqual([
        inventedPlan[index]?.variant,
        String(index + 1),
        inventedPlan[index]?.block,
      ]);
    });
  });

  test("so many blank ones", () => {
    const { sheets } = inventedSheets({ runs: { blank: 3 } });
    expect(sheets).toHaveLength(3);
    expect(new Set(sheets.map(({ title }) => title)).size).toBe(1);
    expect(sheets[0]?.head[0]?.label).toBe("Run");
  });

  test.each([0, -1, 1.5, Number.NaN])("%s sheets are a programmer's error", (blank) => {
    expect(() => inventedSheets({ runs: { blank } })).toThrow(RangeError);
    expect(() => inventedSheets({ runs: [] })).toThrow(RangeError);
  });
});

test("cautions are those of the program, once", () => {
  const sheet = onlySheet();
  expect(sheet.cautions.texts).toEqual(wordsFor(defaultLocale).screens.cautions);
  expect(JSON.stringify(sheet).split("carbon monoxide, which kills")).toHaveLength(2);
});
