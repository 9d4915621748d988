import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { BenchStudy, fieldOf } from "./bench-door.ts";

let bench: BenchStudy;
let run: string;
beforeEach(async () => {
  bench = await BenchStudy.begin();
  run = await bench.beginRun();
});
afterEach(() => bench.close());

type Specimens = Extract<Parameters<BenchStudy["edit"]>[0], { kind: "specimens" }>["specimens"];
const edit = (basis: "wet" | "dry", specimens: Specimens, entry: 1 | 2 | 3 | 4 = 1) =>
  ({ kind: "specimens", run, phase: "cold-start", entry, basis, specimens }) as const;

describe("moisture of several specimens", () => {
  test("of a meter: the mean on its basis, the readings beside it, in each phase", async () => {
    await bench.edit(edit("dry", [{ reading: "14,2" }, { reading: "15.1" }, { reading: "14.8" }]));
    // (14.2 + 15.1 + 14.8) / 3 = 14.7
    for (const phase of ["cold-start", "simmer"] as const) {
      const field = fieldOf(await bench.bench(run), phase, "moisture_wet_percent");
      expect(field).toMatchObject({ text: "14.7", specimens: "meter: 14.2; 15.1; 14.8 %", entry: 1 });
      expect(field.other?.isIn).toBe(true);
    }
    await bench.undo();
    expect(fieldOf(await bench.bench(run), "simmer", "moisture_wet_percent")).toMatchObject({
      text: "",
      specimens: null,
    });
  });

  test("of the oven: from the masses, with the dish; the other basis is emptied", async () => {
    await bench.type(run, "cold-start", "moisture_dry_percent", "20");
    await bench.edit(
      edit("wet", [
        { before: "60", after: "54", dish: "10" },
        { before: "50", after: "45", dish: null },
      ]),
    );
    // (60 − 54) / (60 − 10) = 12 %; (50 − 45) / 50 = 10 %; mean 11 %.
    const field = await bench.field(run, "cold-start", "moisture_wet_percent");
    expect(field).toMatchObject({ text: "11", specimens: "oven: 60 to 54 g with a dish of 10 g; 50 to 45 g" });
    expect(field.other?.isIn).toBe(false);
    await bench.edit(edit("dry", [{ before: "60", after: "54", dish: "10" }]));
    // 6 / (54 − 10) = 13.636 %
    expect((await bench.field(run, "cold-start", "moisture_wet_percent")).text).toBe("13.64");
  });

  test("a moisture that is typed in afterwards is no mean of specimens any more", async () => {
    await bench.edit(edit("wet", [{ reading: "12" }, { reading: "13" }]));
    await bench.type(run, "cold-start", "moisture_wet_percent", "11", "12.5");
    expect(await bench.field(run, "cold-start", "moisture_wet_percent")).toMatchObject({ text: "11", specimens: null });
    expect(await bench.field(run, "simmer", "moisture_wet_percent")).toMatchObject({ text: "11", specimens: null });
  });

  test("of a further fuel entry", async () => {
    await bench.type(run, "cold-start", "fuel2", "kindling");
    await bench.edit(edit("wet", [{ reading: "8" }, { reading: "9" }], 2));
    const field = await bench.field(run, "cold-start", "fuel2_moisture_wet_percent");
    expect(field).toMatchObject({ text: "8.5", specimens: "meter: 8; 9 %", entry: 2 });
  });

  test.for<[string, "wet" | "dry", Specimens, RegExp]>([
    ["no number", "wet", [{ reading: "12" }, { reading: "a bit" }], /Specimen 2: “a bit” is no number/],
    ["nothing", "wet", [{ reading: " " }], /Specimen 1 is empty/],
    ["thousands", "wet", [{ reading: "1,200.5" }], /Specimen 1: “1,200.5” is no number/],
    [
      "all water",
      "wet",
      [{ reading: "11" }, { reading: "11" }, { reading: "100" }],
      /Specimen 3: 100 % cannot be on the wet/,
    ],
    ["less than nothing", "dry", [{ reading: "-2" }], /Specimen 1: .2 % cannot be on the dry/],
    [
      "heavier after",
      "wet",
      [{ before: "50", after: "55", dish: null }],
      /Specimen 1 weighs more after the oven \(55 g\)/,
    ],
    ["dish too heavy", "dry", [{ before: "50", after: "45", dish: "45" }], /Specimen 1: the dish \(45 g\)/],
    ["no mass", "dry", [{ before: "0", after: "0", dish: null }], /Specimen 1: a mass of 0 g/],
    ["meter and oven", "wet", [{ reading: "12" }, { before: "50", after: "45", dish: null }], /all specimens alike/],
  ])("refused, naming the specimen: %s", async ([, basis, specimens, told]) => {
    expect(await bench.refusal(edit(basis, specimens))).toMatch(told);
    expect((await bench.field(run, "cold-start", "moisture_wet_percent")).text).toBe("");
  });
});
