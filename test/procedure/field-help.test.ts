import { describe, expect, test } from "vitest";
import {
  analyseRun,
  defaultLocale,
  fieldFeeds,
  fieldHelp,
  fieldKey,
  furtherFuelFields,
  type Method,
  type ProcedureField,
  type QuantityName,
  quantityEntry,
  stepWords,
} from "../../core/index.ts";
import { allProcedures, fillIn, importText, readingsOf } from "./invented-run.ts";

/** Every quantity of a run by phase and name, of its own method. */
function valuesOf(method: Method, text: string): ReadonlyMap<string, number> {
  const { study, problems } = importText(text);
  const [run] = study?.runs ?? [];
  if (study === null || run === undefined) throw new Error(problems.map(({ message }) => message).join(" "));
  const { results } = analyseRun(run, study.settings, defaultLocale);
  const all = [
    ...results.values,
    ...results.phases.flatMap(({ phase, values }) => [...values].map(([name, value]) => [`${phase} ${name}`, value])),
  ] as [string, number][];
  const isOwn = ([key]: readonly [string, number]) => {
    const entry = quantityEntry(key.split(" ").at(-1) as QuantityName, defaultLocale);
    return entry.method === "both" || entry.method === method;
  };
  return new Map(all.filter(isOwn));
}

/** A little more of what a field holds. */
function changed(text: string): string {
  const clock = /^(\d\d):(\d\d)$/.exec(text);
  if (clock !== null) return `${clock[1]}:${String(Number(clock[2]) + 1).padStart(2, "0")}`;
  const more = Number(text) + (Number(text) > 100 ? 3 : 0.3);
  return text === "" || Number.isNaN(more) ? `${text}x` : more.toFixed(1);
}

const isEmission = (name: QuantityName) => /^(co|pm25|highPower(Co|Pm25)|mean(Co|Pm25))(Per|Rate)/.test(name);

describe.each(["wbt", "iso"] as const)("what a reading feeds is what changes with it: %s", (method) => {
  const { steps } = allProcedures.find(
    (one) => one.method === method && one.options.pots === 2 && one.options.charAtHotStart && one.options.emissions,
  ) ?? { steps: [] };
  const fields = steps
    .flatMap((step) => step.fields)
    .filter(({ phase, column }) => phase !== null && column !== "char_at_start_g");

  const compare = (field: ProcedureField, without: string[]) => {
    const clear = ({ column }: ProcedureField) => (without.includes(column) ? "" : null);
    const plain = fillIn(steps, clear);
    const key = fieldKey(field);
    const other = fillIn(steps, (one) => (fieldKey(one) === key ? changed(plain.get(key)?.text ?? "") : clear(one)));
    // What usually is one reading changes in every phase; what is read anew there does not.
    for (const [name, cell] of other) {
      if (cell.field.begins?.stays === false && name !== key) cell.text = plain.get(name)?.text ?? "";
    }
    const [before, after] = [plain, other].map((sheet) => valuesOf(method, readingsOf(sheet)));
    const names = [...(before ?? [])]
      .filter(([name, value]) => after?.get(name) !== value)
      .map(([name]) => name.split(" ").at(-1) as QuantityName);
    const isOfEmission = ["co_g", "pm25_mg"].includes(field.column);
    const found = new Set(names.filter((name) => isOfEmission || !isEmission(name)));
    expect(new Set(fieldFeeds(method, field)), key).toEqual(found);
  };

  test.each(fields.map((field) => [fieldKey(field), field] as const))("%s", (_, field) => {
    // The altitude counts only where the boiling point was not read.
    compare(field, field.column === "altitude_m" ? ["boiling_C"] : []);
  });

  test("char at the start", () => {
    const inBed = steps.flatMap((step) => step.fields).filter(({ column }) => column === "char_at_start_g");
    expect(inBed).toHaveLength(method === "wbt" ? 1 : 2);
    for (const field of inBed) compare(field, []);
  });
});

describe("words", () => {
  test.each(allProcedures)("every step and field of $method with $options has them", ({ method, options, steps }) => {
    for (const step of steps) {
      const { title, sentence } = stepWords(step.id, defaultLocale);
      expect(title.length).toBeLessThan(30);
      // At most two sentences.
      expect(sentence.match(/[.?!](\s|$)/g)?.length ?? 0, sentence).toBeLessThanOrEqual(2);
      const names = step.fields
        .filter(({ begins }) => begins?.stays !== true)
        .map((field) => fieldHelp(field, options.pots, method, defaultLocale).name);
      // Within a step no two fields are called alike, but for what is noted of each phase.
      if (step.id !== "anything-unusual") expect(new Set(names).size, step.id).toBe(names.length);
    }
  });

  test("a number says which pot where there are several", () => {
    const name = (pots: number) =>
      fieldHelp({ phase: "simmer", column: "pot2_start_g" }, pots, "wbt", defaultLocale).name;
    expect(name(1)).toBe("Pot with water");
    expect(name(2)).toBe("Pot 2 with water");
    expect(fieldHelp({ phase: "simmer", column: "pot2_end_C" }, 2, "wbt", defaultLocale).name).toBe("Water, pot 2");
  });

  test("what a field feeds is named as everywhere else", () => {
    const { feeds, feedsSentence } = fieldHelp({ phase: "simmer", column: "start" }, 1, "wbt", defaultLocale);
    expect(feeds).toContain(quantityEntry("turnDownRatio", defaultLocale).label);
    for (const label of feeds) expect(feedsSentence).toContain(label);
    expect(fieldHelp({ phase: null, column: "operator" }, 1, "wbt", defaultLocale).feeds).toEqual([]);
  });

  test("further wood is told from the first", () => {
    const names = furtherFuelFields("cold-start", 3).map((field) => fieldHelp(field, 1, "wbt", defaultLocale).name);
    expect(new Set(names).size).toBe(4);
    for (const name of names) expect(name).toContain("further entry 2");
    const [, , before] = furtherFuelFields("cold-start", 3);
    if (before === undefined) expect.fail("no field");
    expect(fieldFeeds("wbt", before)).toEqual(fieldFeeds("wbt", { phase: "cold-start", column: "fuel_start_g" }));
  });

  test("a column that no step has is a programmer's error", () => {
    expect(() => fieldHelp({ phase: "simmer", column: "excluded" }, 1, "wbt", defaultLocale)).toThrow(RangeError);
  });
});
