import { describe, expect, test } from "vitest";
import { fuelColumnNames, layoutColumns } from "../../app/import/index.ts";
import { fieldKey, furtherFuelFields, type ProcedureField } from "../../core/index.ts";
import { allProcedures, fillIn, importText, phasesOf, readingsOf } from "./invented-run.ts";

const named = (pots: number) => Array.from({ length: pots }, (_, index) => `pot${index + 1}`);
const known = new Map(layoutColumns.map((column) => [column.name, column]));

describe.each(allProcedures)("$method with $options", ({ method, options, steps }) => {
  const fields = steps.flatMap((step) => step.fields);
  const keys = fields.map(fieldKey);

  test("has each step and each field once", () => {
    const ids = steps.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(keys.toSorted()).toEqual([...new Set(keys)].toSorted());
  });

  test("has each column that the readings file needs of a phase (readings-csv: marked with an asterisk)", () => {
    for (const column of ["run", "variant"]) expect(keys).toContain(column);
    const needed = [
      ...["start", "end", "fuel_start_g", "fuel_end_g", "moisture_wet_percent"],
      ...named(options.pots).flatMap((pot) =>
        ["empty_g", "start_g", "end_g", "start_C", "end_C"].map((end) => `${pot}_${end}`),
      ),
    ];
    for (const phase of phasesOf(method)) {
      for (const column of needed) expect(keys).toContain(fieldKey({ phase, column }));
    }
  });

  test("names columns of the layout alone: of the run without a phase, all others with one of the method's", () => {
    for (const { phase, column, otherBasis, unit } of fields) {
      const found = known.get(column);
      expect(found, column).toBeDefined();
      expect(phase === null, column).toBe(found?.ofRun);
      if (phase !== null) expect(phasesOf(method)).toContain(phase);
      if (otherBasis !== null) expect(known.has(otherBasis), otherBasis).toBe(true);
      const suffix = /_(g|mg|C|percent|mm|m)$/.exec(column)?.[1] ?? null;
      const shown: Record<string, string> = { C: "°C", percent: "%" };
      expect(unit, column).toBe(suffix === null ? null : (shown[suffix] ?? suffix));
    }
  });

  test("a field begins with one that was filled before", () => {
    const before = new Set<string>();
    for (const field of fields) {
      if (field.begins !== null) {
        const { phase, column, less } = field.begins;
        expect(before).toContain(fieldKey({ phase, column }));
        if (less !== null) expect(before).toContain(fieldKey({ phase, column: less }));
        if (less === null && field.begins.stays) expect(column).toBe(field.column);
      }
      before.add(fieldKey(field));
    }
  });

  test("the clock's times are fields of their step; each phase starts, then ends", () => {
    for (const { clock, fields: own, phase } of steps) {
      if (clock === null) expect(own.filter(({ group }) => group === "time")).toEqual([]);
      else expect(own).toContainEqual(expect.objectContaining({ phase, column: clock.column, group: "time" }));
    }
    for (const phase of phasesOf(method)) {
      const acts = steps.filter((step) => step.phase === phase).flatMap(({ clock }) => clock?.column ?? []);
      expect(acts).toEqual(method === "iso" ? ["start", "boiled_at", "end"] : ["start", "end"]);
    }
  });

  test("typed step by step it is a run that the import takes without a word", () => {
    const text = readingsOf(fillIn(steps, () => null));
    const read = importText(text);
    expect(read.problems.map(({ message }) => message)).toEqual([]);
    expect(read.notes).toEqual([]);
    const [run, ...others] = read.study?.runs ?? [];
    expect(others).toEqual([]);
    expect(run?.method).toBe(method);
    expect(run?.phases.map(({ phase }) => phase)).toEqual(phasesOf(method));
    for (const phase of run?.phases ?? []) {
      expect(phase.pots).toHaveLength(options.pots);
      expect(phase.carbonMonoxide !== null).toBe(options.emissions);
      const isWeighed = phase.phase !== "hot-start" || options.charAtHotStart;
      expect(phase.char?.kind ?? null, phase.phase).toBe(isWeighed ? "weighed" : null);
    }
  });
});

describe("needed", () => {
  const { steps } = allProcedures.find(
    ({ method, options }) => method === "wbt" && options.pots === 2 && options.charAtHotStart && options.emissions,
  ) ?? { steps: [] };
  const without = (gap: ProcedureField) =>
    importText(readingsOf(fillIn(steps, (field) => (fieldKey(field) === fieldKey(gap) ? "" : null))));
  const ofPhases = steps.flatMap(({ fields }) => fields);

  test.each(ofPhases.map((field) => [fieldKey(field), field] as const))("%s", (_, field) => {
    const errors = without(field).problems.filter(({ severity }) => severity === "error");
    expect(errors.length > 0).toBe(field.needed);
  });
});

describe("the simmer", () => {
  test.each(allProcedures.filter(({ method }) => method === "wbt"))("goes on from the hot start ($options)", (one) => {
    const sheet = fillIn(one.steps, ({ phase, column }) =>
      phase === "hot-start" && column === "pot1_end_g" ? "5432" : null,
    );
    expect(sheet.get("simmer pot1_start_g")?.text).toBe("5432");
    expect(sheet.get("simmer pot1_start_C")?.text).toBe("98.1");
    // Container with char, 309 g, less the container, 248 g.
    expect(sheet.get("simmer char_at_start_g")?.text).toBe(one.options.charAtHotStart ? "61" : undefined);
    const begin = one.steps.find(({ id }) => id === "simmer.begin");
    // 45 minutes: Water Boiling Test 4.2.3, from memory.
    expect(begin?.clock).toEqual({ act: "starts", column: "start", countDownMinutes: 45 });
  });

  test("a hot start does not begin with the wood that the cold start left", () => {
    for (const { steps } of allProcedures) {
      for (const { phase, column, begins } of steps.flatMap(({ fields }) => fields)) {
        if (column === "fuel_start_g" && phase !== "simmer") expect(begins).toBeNull();
      }
    }
  });
});

test("further wood has the columns of its entry", () => {
  for (const entry of [2, 3, 4] as const) {
    const names = fuelColumnNames[entry - 1];
    const fields = furtherFuelFields("simmer", entry);
    expect(fields.map(({ column }) => column)).toEqual([names?.fuel, names?.moistureWet, names?.start, names?.end]);
    expect(fields.map(({ otherBasis }) => otherBasis)).toEqual([null, names?.moistureDry, null, null]);
  }
});
