import fc from "fast-check";
import { expect, test } from "vitest";
import type { Change, StoredRun } from "../../../app/store/index.ts";
import { type PhaseName, phaseNames } from "../../../core/index.ts";
import { createStudy, newPaths, note, openStudy, phaseOf, runOf } from "./sample.ts";

const newPath = newPaths();

const columns = ["air_C", "start", "fuel", "note", "__proto__", "x".repeat(10_000), "שלום"];
const phase = fc.record({
  name: fc.constantFrom(...phaseNames),
  readings: fc.dictionary(fc.constantFrom(...columns), fc.double({ min: 0, max: 1e6, noNaN: true }), {
    noNullPrototype: false,
  }),
  texts: fc.array(fc.tuple(fc.constantFrom(...columns), fc.constantFrom("", "0", "calm", "=1+1")), { maxLength: 3 }),
});
const run = fc.record({
  phases: fc.uniqueArray(phase, { maxLength: 4, selector: ({ name }) => name }),
  date: fc.constantFrom(null, "2026-03-01", "2026-12-31"),
  order: fc.constantFrom(null, -3, 0, 7.5),
  levels: fc.constantFrom<readonly [string, string | null][]>([], [["skirt", "yes"]], [["__proto__", null]]),
});

/** What is read by column is what reading run after run gives. */
test("a column over all runs holds what each run holds", () => {
  fc.assert(
    fc.property(fc.array(run, { maxLength: 6 }), (made) => {
      const path = newPath();
      const study = createStudy(path);
      let act = 0;
      const runs = made.map(({ phases, date, order, levels }, at): [number, StoredRun] => {
        const stored = phases.map(({ name, readings, texts }) =>
          phaseOf(
            name,
            Object.entries(readings).map(([column, value]) => {
              act += 1;
              return [column, act, value] as const;
            }),
            [...new Map(texts)],
          ),
        );
        return [at * 3 + 1, { ...runOf(`R${at}`, at, stored), date, order, levels: new Map(levels) }];
      });
      const variant: Change = { subject: "variant", item: 1, after: { name: "A", position: 0, levels: new Map() } };
      study.edit(note("import"), [variant, ...runs.map(([item, after]): Change => ({ subject: "run", item, after }))]);
      study.close();

      const read = openStudy(path, true);
      const there = read.runLines().map(({ run: item }) => ({ item, ...read.run(item) }));
      for (const column of columns) {
        const wanted = there.flatMap(({ item, phases }) =>
          phases.flatMap(({ phase: name, readings, texts }) => {
            const value = readings.get(column)?.value ?? texts.get(column);
            return value === undefined ? [] : [{ run: item, phase: name, value }];
          }),
        );
        const order = (one: { run: number; phase: PhaseName }) => one.run * 8 + phaseNames.indexOf(one.phase);
        expect(read.column(column).toSorted((one, other) => order(one) - order(other))).toEqual(wanted);
      }
      const having = <T>(value: (one: (typeof there)[number]) => T | null) =>
        new Map(there.flatMap((one) => (value(one) === null ? [] : [[one.item, value(one)]])));
      expect(read.runColumn("date")).toEqual(having(({ date }) => date));
      expect(read.runColumn("order")).toEqual(having(({ order }) => order));
      expect(read.ownLevels()).toEqual(having(({ levels }) => (levels.size === 0 ? null : levels)));
      const all = (first: number, last: number) => there.filter(({ item }) => item >= first && item <= last);
      for (const [first, last] of [
        [0, 1e12],
        [4, 7],
        [2, 3],
      ] as const) {
        const phases = all(first, last).flatMap((one) => one.phases);
        const names = phases.flatMap(({ readings, texts }) => [
          ...readings.keys(),
          ...[...texts].flatMap(([name, text]) => (text === "" ? [] : [name])),
        ]);
        expect(new Set(read.columnNames(first, last))).toEqual(new Set(names));
        const withCalm = all(first, last).filter((one) =>
          one.phases.some(({ texts }) => [...texts.values()].includes("calm")),
        );
        expect(read.runsWithText(first, last, (text) => text === "calm")).toEqual(
          new Set(withCalm.map(({ item }) => item)),
        );
        expect(read.phaseNames(first, last)).toEqual(
          new Map(
            all(first, last).flatMap((one) =>
              one.phases.length === 0 ? [] : [[one.item, one.phases.map(({ phase: name }) => name)]],
            ),
          ),
        );
      }
      read.close();
    }),
    { numRuns: 60 },
  );
}, 60_000);

test("a column that no phase has is empty", () => {
  const study = createStudy(newPath());
  expect(study.column("air_C")).toEqual([]);
  expect(study.columnNames(0, 1e12)).toEqual([]);
  expect(study.phaseNames(0, 1e12)).toEqual(new Map());
  study.close();
});
