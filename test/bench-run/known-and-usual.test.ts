import { afterEach, describe, expect, test } from "vitest";
import { expectNumber } from "../numbers.ts";
import { ask } from "../service/requests.ts";
import { BenchStudy, fieldOf } from "./bench-door.ts";
import { exampleRun, exampleVariant } from "./example-run.ts";
import { oneRun } from "./one-run.ts";

let bench: BenchStudy;
afterEach(() => bench.close());

describe("what is offered", () => {
  test("in the day's next run, what held in the one before; later phases, what the earlier ended with", async () => {
    bench = await BenchStudy.begin();
    const first = await bench.beginRun();
    for (const [phase, column, text] of oneRun) {
      const there = fieldOf(await bench.bench(first), phase, column).text;
      if (there !== text) await bench.type(first, phase, column, text, there);
    }
    await bench.type(first, "cold-start", "wind", "calm");
    const second = await bench.bench(await bench.beginRun());
    const offered = (phase: "cold-start" | "hot-start" | "simmer", column: string) =>
      fieldOf(second, phase, column).offered;
    for (const [column, text] of [
      ["air_C", "18.5"],
      ["boiling_C", "94.6"],
      ["fuel", "pine"],
      ["moisture_wet_percent", "11.2"],
      ["wind", "calm"],
      ["pot1_empty_g", "612"],
      ["char_container_g", "212"],
    ] as const) {
      expect([column, offered("cold-start", column)]).toEqual([column, { text, from: "as in run 1" }]);
    }
    // What is read anew each time is not.
    expect([offered("cold-start", "pot1_start_g"), offered("cold-start", "fuel_start_g")]).toEqual([null, null]);
    expect(fieldOf(second, "cold-start", "altitude_m").isPassed).toBe(true);

    const filled = await bench.bench(first);
    await bench.type(first, "simmer", "pot1_start_g", "", "5441");
    const emptied = await bench.bench(first);
    expect(fieldOf(emptied, "simmer", "pot1_start_g").offered).toEqual({
      text: "5441",
      from: "as the hot start ended",
    });
    expect(fieldOf(filled, "simmer", "pot1_start_g").offered).toBeNull();
  });

  test("on the first run of all, what was set up for the study", async () => {
    bench = await BenchStudy.begin();
    const setUp = (subject: "place" | "pot", item: string | null, fields: readonly (readonly [string, string])[]) =>
      bench.edit({
        ...{ kind: "setUp", subject, item },
        fields: fields.map(([field, text]) => ({ field, text, was: "" })),
      });
    await setUp("pot", null, [
      ["name", "tall pot"],
      ["emptyMass_g", "612"],
    ]);
    const sections = await ask<"setup.show">(bench.door, { kind: "setup.show", study: bench.study });
    const place = sections.sections.find(({ subject }) => subject === "place")?.items[0]?.item ?? null;
    await setUp("place", place, [["altitude_m", "1600"]]);
    const view = await bench.bench(await bench.beginRun());
    const offered = (column: string) => fieldOf(view, "cold-start", column).offered;
    expect(offered("pot1_empty_g")).toEqual({ text: "612", from: "as set up for the study" });
    expect(offered("altitude_m")?.text).toBe("1600");
    // Water boils at about 94.7 °C at 1600 m: 1 K less for each 300 m (common knowledge).
    expectNumber(Number(offered("boiling_C")?.text), 94.7, { absolute: 0.2 });
    expect(fieldOf(view, "cold-start", "altitude_m").isPassed).toBe(true);
  });

  test("char in the simmer's stove is the hot start's, without its container", async () => {
    bench = await BenchStudy.begin();
    const run = await bench.beginRun("plain", { charAtHotStart: true });
    await bench.type(run, "cold-start", "char_container_g", "212");
    await bench.type(run, "hot-start", "char_with_container_g", "259.3");
    expect((await bench.field(run, "simmer", "char_at_start_g")).offered).toMatchObject({ text: "47.3" });
  });
});

describe("what is usual", () => {
  test("comes from the variant's runs that count: ranges, losses, durations, char", async () => {
    bench = await BenchStudy.onExample();
    const run = await bench.beginRun(exampleVariant, { charAtHotStart: true });
    for (const [phase, column, text] of exampleRun.slice(0, 11)) await bench.type(run, phase, column, text);
    const view = await bench.bench(run);
    const usual = (column: string) => fieldOf(view, "cold-start", column).usual?.replaceAll("\u202f", "");
    // Of the example's six runs of this variant (sample-data/good): R01, R08, R10, R16, R17, R23.
    expect(usual("fuel_start_g")).toBe("usual here 1355 to 1633 g");
    // 5427 of 5610 (183), 209, 196, 205, 208, 193.
    expect(usual("pot1_end_g")).toBe("was 5611 g before · usual loss here 183 to 209 g");
    // 694, 666, 665, 714, 649, 665.
    expect(usual("fuel_end_g")).toBe("was 1604 g before · usual loss here 649 to 714 g");
    // 30, 29, 30, 30, 31, 31 minutes.
    expect(usual("end")).toBe("usual here after 29 to 31 min");
    // 45, 48, 48, 49, 48, 46 g.
    expect(usual("char_with_container_g")).toBe("container 248 g · usual char here 45 to 49 g");
    expect(usual("pot1_empty_g")).toBe("usual here 612 g");
  });

  test("or from the procedure, where the variant has fewer than three", async () => {
    bench = await BenchStudy.begin();
    const run = await bench.beginRun();
    await bench.type(run, "cold-start", "boiling_C", "94.6");
    await bench.type(run, "cold-start", "pot1_empty_g", "612");
    await bench.type(run, "simmer", "start", "10:19");
    const view = await bench.bench(run);
    const usual = (phase: "cold-start" | "simmer", column: string) =>
      fieldOf(view, phase, column).usual?.replaceAll("\u202f", "") ?? null;
    expect(usual("cold-start", "pot1_start_g")).toBe("about 5000 g of water: 5612 g with the pot");
    expect(usual("cold-start", "pot1_end_C")).toBe("boiling here 94.6 °C");
    expect(usual("simmer", "end")).toBe("45 min after the start: 11:04");
    expect(usual("cold-start", "fuel_start_g")).toBeNull();
  });
});

describe("results so far", () => {
  test("come as they become computable, and say what they wait for", async () => {
    bench = await BenchStudy.onExample();
    const run = await bench.beginRun(exampleVariant, { charAtHotStart: true });
    const results = async () => {
      const [phase] = (await bench.bench(run)).soFar;
      return new Map(phase?.results.map(({ label, text, because }) => [label, text ?? because]));
    };
    const typeTo = async (from: number, to: number) => {
      for (const [phase, column, text] of exampleRun.slice(from, to)) await bench.type(run, phase, column, text);
    };
    await typeTo(0, 11);
    const atBoil = await results();
    // 09:14 to 09:43.
    expect(atBoil.get("time to boil")).toBe("29.0 min");
    expect(atBoil.get("water evaporated")).toBe("after the pot");
    expect(atBoil.get("thermal efficiency")).toBe("after the char");
    await typeTo(11, 14);
    const weighed = await results();
    // 5611 − 5419 and 1604 − 907.
    expect([weighed.get("water evaporated"), weighed.get("moist wood used")]).toEqual(["192 g", "697 g"]);
    expect(weighed.get("thermal efficiency")).toBe("after the char");
    await typeTo(14, 15);
    expect((await results()).get("thermal efficiency")).toMatch(/^\d\d\.\d %$/);
  });
});

test("a whole run of one pot needs under 50 presses of Enter beside what is written", async () => {
  bench = await BenchStudy.begin();
  const run = await bench.beginRun();
  const view = await bench.bench(run);
  const wanted = new Map(oneRun.map(([phase, column, text]) => [`${phase} ${column}`, text]));
  let presses = 0;
  for (const step of view.steps) {
    for (const { phase, column } of step.fields) {
      const now = fieldOf(await bench.bench(run), phase, column);
      if (now.isPassed) continue;
      presses += 1;
      const text = wanted.get(`${phase} ${column}`);
      if (text !== undefined && now.text !== text) await bench.type(run, phase, column, text, now.text);
      wanted.delete(`${phase} ${column}`);
    }
  }
  expect([...wanted.keys()]).toEqual([]);
  expect((await bench.bench(run)).lacks).toEqual([]);
  expect(presses).toBeLessThan(50);
});
