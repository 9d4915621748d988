import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { Door, GridView, MonteCarloView } from "../../app/contract/index.ts";
import { ownDoor } from "../build/own-door.ts";
import { expectNumber } from "../numbers.ts";
import { ask, cellEdit, firstChoice, makeEdit, readings, refusal, settings, taken, undo } from "./requests.ts";

/**
 * Uncertainties as pages are told of them. Expected figures were worked by hand from the readings and settings of the example with the
 * formulas of JCGM 100:2008: a weighing's resolution of 1 g is a rectangle of half-width 0.5 g, variance 0.5^2/3 (4.3.7); the balance's
 * gain is 0.2 % at k = 2, so 0.1 % of what is weighed (4.3.3); a clock read to the minute is a rectangle of half-width 30 s.
 */

let door: Door;
let close: () => Promise<void>;
beforeEach(() => {
  ({ door, close } = ownDoor());
});
afterEach(() => close());

/** 97.5 % and 99.5 % points of the standard normal distribution (NIST/SEMATECH e-Handbook, 1.3.6.7.1, to more digits). */
const k95 = 1.959963985;
const k99 = 2.575829304;

const study = async (csv = readings, settingsFile: string | null = settings) =>
  (await taken(door, "One week", csv, settingsFile)).study;
const withSettings = (change: Record<string, unknown>) => JSON.stringify({ ...JSON.parse(settings), ...change });
const whole = { sort: null, find: "", variant: null, phase: null, only: "all" } as const;
const grid = (of: string, choice: Partial<GridView> & Record<string, unknown> = {}) =>
  ask<"grid.show">(door, { kind: "grid.show", study: of, choice: { ...whole, ...choice }, from: 0, count: 500 });

/** The half-width beside one result. */
async function halfOf(of: string, run: string, phase: string, key: string): Promise<number | null | undefined> {
  const { columns, part } = await grid(of);
  const at = columns.filter(({ quantity }) => quantity !== null).findIndex((column) => column.key === key);
  return part.find((row) => row.run === run && row.phase === phase)?.expanded[at];
}

async function idOf(of: string, run: string): Promise<string> {
  return (await grid(of)).part.find((row) => row.run === run)?.runId ?? "";
}

const lines = readings.split("\n");
/** The heading and the rows of some runs. */
const only = (...runs: string[]) =>
  [lines[0], ...lines.filter((line) => runs.some((run) => line.startsWith(`${run},`)))].join("\n");

describe("results in the grid", () => {
  it("carry their expanded uncertainty at the study's confidence", async () => {
    const of = await study();
    // R01, cold start: 1633 - 939 = 694 g of wood, two weighings.
    const wood = Math.sqrt((0.001 * 694) ** 2 + 2 * (0.25 / 3));
    expectNumber((await halfOf(of, "R01", "cold-start", "result.fuelConsumedMoist")) ?? 0, k95 * wood, {
      relative: 1e-8,
    });
    // Two readings of a clock.
    const minutes = Math.sqrt(2 * (0.25 / 3));
    expectNumber((await halfOf(of, "R01", "cold-start", "result.timeToBoil")) ?? 0, k95 * minutes, { relative: 1e-8 });
    const { hasErrors, columns, part } = await grid(of);
    expect(hasErrors).toBe(true);
    const results = columns.filter(({ quantity }) => quantity !== null).length;
    for (const row of part) expect(row.expanded).toHaveLength(results);
  });

  it("follow the confidence and the errors of the settings", async () => {
    const of = await study(readings, withSettings({ confidence: 0.99 }));
    const wood = Math.sqrt((0.001 * 694) ** 2 + 2 * (0.25 / 3));
    expectNumber((await halfOf(of, "R01", "cold-start", "result.fuelConsumedMoist")) ?? 0, k99 * wood, {
      relative: 1e-8,
    });
    const { instruments } = JSON.parse(settings);
    const coarse = { ...instruments, fuelBalance: { components: [instruments.fuelBalance.components[0]] } };
    const other = await study(readings, withSettings({ instruments: coarse }));
    expectNumber(
      (await halfOf(other, "R01", "cold-start", "result.fuelConsumedMoist")) ?? 0,
      k95 * Math.sqrt(0.5 / 3),
      { relative: 1e-8 },
    );
  });

  it("of a whole run stand with its first row alone, as the results do", async () => {
    const of = await study();
    expect(await halfOf(of, "R01", "cold-start", "runResult.taskFuel5L")).toBeGreaterThan(0);
    expect(await halfOf(of, "R01", "simmer", "runResult.taskFuel5L")).toBeNull();
  });

  it("have none where nothing is stated of any error, and none where all that they come from counts as exact", async () => {
    const of = await study(only("R01", "R02"), null);
    const { hasErrors, part } = await grid(of);
    expect(hasErrors).toBe(false);
    for (const row of part) expect(row.expanded).toEqual([]);
    const clockless = { instruments: { thermometer: JSON.parse(settings).instruments.thermometer } };
    const other = await study(only("R01", "R02"), withSettings({ ...clockless }));
    expect(await halfOf(other, "R01", "cold-start", "result.timeToBoil")).toBeNull();
  });

  it("are those of now after an edit, and of before when it is undone", async () => {
    const of = await study();
    const half = () => halfOf(of, "R01", "cold-start", "result.fuelConsumedMoist");
    const before = await half();
    const { edit } = await cellEdit(door, of, "R01", "cold-start", "fuel_end_g", "839");
    await makeEdit(door, of, edit);
    expectNumber((await half()) ?? 0, k95 * Math.sqrt((0.001 * 794) ** 2 + 0.5 / 3), { relative: 1e-8 });
    await undo(door, of);
    expect(await half()).toBe(before);
  });
});

describe("the budget of a result", () => {
  const budget = async (of: string, run: string, quantity: string) =>
    ask<"budget.ofResult">(door, { kind: "budget.ofResult", study: of, run: await idOf(of, run), quantity });

  it("ranks what it is made of: share, alone, what halving it gives", async () => {
    const of = await study();
    const { budget: text, hasErrors } = await budget(of, "R01", "cold-start.fuelConsumedMoist");
    expect(hasErrors).toBe(true);
    // U = 1.96 x 0.8052 g; the gain has 0.4816 of 0.6483 g^2 of the variance: 74 %.
    expect(text).toMatchObject({
      value: "694.0 ± 1.6",
      unit: "g",
      coverage: "at 95 %, coverage factor 1.96",
      notes: [],
    });
    expect(text.rows).toEqual([
      {
        name: "balance for fuel and char",
        detail: "gain, shared by all runs 74 %; resolution, new at each reading 26 %",
        share: "100 %",
        alone: "± 1.6 g",
        whenHalved: "± 1.6 would become ± 0.8 g",
      },
    ]);
    expect(text.chart?.rows).toEqual([
      { name: "balance for fuel and char", share: 100, text: "100 %", isScatter: false },
    ]);
  });

  it("says what is not included, and where nothing is stated at all", async () => {
    const { instruments } = JSON.parse(settings);
    const { moistureMeter: _, ...others } = instruments;
    const of = await study(readings, withSettings({ instruments: others }));
    const { budget: text } = await budget(of, "R01", "cold-start.thermalEfficiency");
    expect(text.notes.join(" ")).toMatch(/Not included:.*moisture meter/);
    const bare = await study(only("R01", "R02"), null);
    const wood = "cold-start.fuelConsumedMoist";
    const none = await budget(bare, "R01", wood);
    expect(none).toMatchObject({ hasErrors: false, budget: { rows: [], chart: null } });
  });

  it("is refused of a run, a quantity or a result that is not there", async () => {
    const of = await study();
    const run = await idOf(of, "R01");
    const asked = (message: object) => refusal(door, { kind: "budget.ofResult", study: of, run, ...message } as never);
    expect(await asked({ quantity: "cold-start.soot" })).toMatch(/no quantity called “cold-start.soot”/);
    expect(await asked({ quantity: "high-power.isoFirepower" })).toMatch(/Run “R01” has no such result now/);
    expect(await asked({ run: "999", quantity: "taskFuel5L" })).toMatch(/not in the study/);
  });
});

describe("the budget of a comparison", () => {
  const choice = { quantity: "cold-start.fuelConsumedMoist", variant: null, baseline: null };
  const asked = (of: string, chosen: typeof choice) =>
    ask<"budget.ofComparison">(door, { kind: "budget.ofComparison", study: of, choice: chosen });

  it("of one run each: the readings' own errors, what is shared, and what of it cancels", async () => {
    // R01: 694 g, R02: 1483 - 918 = 565 g, of different variants.
    const of = await study(only("R01", "R02"));
    const { hasErrors, parts } = await asked(of, choice);
    expect(hasErrors).toBe(true);
    const [difference, variant, baseline] = parts;
    // u^2 = 4 x 0.25/3 + (0.001 x (565 - 694))^2 = 0.3500 g^2; the gain has 0.0166 of it: 5 %.
    expect(difference).toMatchObject({ of: "difference", title: "the difference" });
    expect(difference?.budget.value).toBe("−129.0 ± 1.2");
    expect(difference?.budget.rows.map(({ name, share }) => [name, share])).toEqual([
      ["errors new at each reading", "95 %"],
      ["balance for fuel and char", "5 %"],
    ]);
    // Apart: 1.96 x 0.001 x hypot(694, 565) = 1.8 g; together 1.96 x 0.129 = 0.3 g.
    expect(difference?.advice.join(" ").replaceAll("\u00a0", " ")).toMatch(
      /No replicates.*they would make ± 1\.8 g, together they make ± 0\.3 g/,
    );
    expect([variant?.title, baseline?.title]).toEqual(["skirt, narrow gap", "no skirt, wide gap"]);
    expect(variant?.budget.value).toBe("565.0 ± 1.4");
    expect(baseline?.budget.value).toBe("694.0 ± 1.6");
  });

  it("of several runs: scatter beside what is shared; the means of Compare have the same intervals", async () => {
    const of = await study();
    const { parts } = await asked(of, choice);
    expect(parts.map(({ budget }) => budget.rows[0]?.name)).toEqual(Array(3).fill("run-to-run scatter"));
    const shown = await ask<"compare.show">(door, { kind: "compare.show", study: of, choice });
    if (!("comparison" in shown)) throw new Error("nothing to compare");
    const { everything, surer } = shown.comparison;
    const row = everything.find(({ key }) => key === choice.quantity);
    expect([row?.variant, row?.baseline]).toEqual(parts.slice(1).map(({ budget }) => budget.value));
    expect(surer.join(" ")).toMatch(/more runs would help, better instruments hardly/);
  });

  it("is empty where no errors are stated: intervals come from scatter alone, and that is said", async () => {
    const of = await study(readings, null);
    expect(await asked(of, choice)).toEqual({ hasErrors: false, parts: [] });
    const shown = await ask<"compare.show">(door, { kind: "compare.show", study: of, choice: firstChoice });
    if (!("comparison" in shown)) throw new Error("nothing to compare");
    expect(shown.comparison.surer.join(" ")).toMatch(/come from run-to-run scatter alone/);
    const stated = await study();
    const other = await ask<"compare.show">(door, { kind: "compare.show", study: stated, choice: firstChoice });
    if (!("comparison" in other)) throw new Error("nothing to compare");
    expect(other.comparison.surer.join(" ")).not.toMatch(/scatter alone/);
  });

  it("is empty where there is one variant, and refused of a variant that is not there", async () => {
    const of = await study(only("R01"));
    expect(await asked(of, choice)).toEqual({ hasErrors: true, parts: [] });
    expect(
      await refusal(door, { kind: "budget.ofComparison", study: of, choice: { ...firstChoice, variant: "no such" } }),
    ).toMatch(/no variant called “no such”/);
  });
});

describe("Monte Carlo of a result", { timeout: 120_000 }, () => {
  const wood = "cold-start.fuelConsumedMoist";
  type Way = "show" | "start" | "cancel";
  const check = async (of: string, way: Way, run: string, quantity = wood): Promise<MonteCarloView> =>
    ask<"monteCarlo.show">(door, {
      // Three requests of one shape, and of one reply.
      kind: `monteCarlo.${way}` as "monteCarlo.show",
      study: of,
      run: await idOf(of, run),
      quantity,
    });
  const done = async (of: string, run: string, quantity = wood) => {
    let view: MonteCarloView | null = null;
    await expect
      .poll(
        async () => {
          view = await check(of, "show", run, quantity);
          return view.state;
        },
        { timeout: 60_000 },
      )
      .toBe("done");
    return view as unknown as Extract<MonteCarloView, { state: "done" }>;
  };

  it("is drawn on demand with the trials of the settings, tells how far it is, and agrees where the formula is a difference", async () => {
    const of = await study();
    expect(await check(of, "show", "R01")).toEqual({
      state: "none",
      trials: "200\u202f000 trials, seed 1",
      because: null,
    });
    expect(await check(of, "start", "R01")).toEqual({ state: "running", share: 0 });
    const { result } = await done(of, "R01");
    expect(result).toMatchObject({ unit: "g", tone: "agrees", trials: "200\u202f000 trials, seed 1" });
    expect(result.verdict.join(" ")).toMatch(/first order and Monte Carlo agree/);
    const [mean, uncertainty, symmetric, shortest] = result.rows;
    // 694 g with u = 0.8052 g; ends 692.4 and 695.6 g.
    expect(mean).toMatchObject({ monteCarlo: "694.0", firstOrder: "694.0" });
    expect(uncertainty).toMatchObject({ monteCarlo: "0.81", firstOrder: "0.81" });
    expect(symmetric).toMatchObject({ monteCarlo: "692.4 to 695.6", firstOrder: "692.4 to 695.6" });
    expect(shortest?.firstOrder).toBe("");
    // The whole run was drawn at once: its other results are there.
    expect((await check(of, "show", "R01", "taskFuel5L")).state).toBe("done");
    expect((await check(of, "show", "R02")).state).toBe("none");
  });

  it("stops at once, and nothing else waits for it", async () => {
    const of = await study(readings, withSettings({ monteCarlo: { trials: 10_000_000, seed: 3 } }));
    expect((await check(of, "start", "R01")).state).toBe("running");
    let share = 0;
    await expect
      .poll(async () => {
        const view = await check(of, "show", "R01");
        share = view.state === "running" ? view.share : -1;
        return share;
      })
      .toBeGreaterThan(0);
    expect(share).toBeLessThan(1);
    // Another window goes on meanwhile: it edits, and is answered.
    const { edit } = await cellEdit(door, of, "R02", "cold-start", "fuel_end_g", "900");
    await makeEdit(door, of, edit);
    expect((await check(of, "show", "R01")).state).toBe("running");
    expect(await check(of, "cancel", "R01")).toMatchObject({ state: "none", because: null });
    expect((await check(of, "show", "R01")).state).toBe("none");
    expect((await check(of, "cancel", "R01")).state).toBe("none");
  });

  it("is kept while the run is the same, and forgotten when it changes or the settings do", async () => {
    const of = await study(readings, withSettings({ monteCarlo: { trials: 20_000, seed: 1 } }));
    await check(of, "start", "R01");
    const first = await done(of, "R01");
    const other = await cellEdit(door, of, "R02", "cold-start", "fuel_end_g", "900");
    await makeEdit(door, of, other.edit);
    expect(await check(of, "start", "R01")).toEqual(first);
    const { edit } = await cellEdit(door, of, "R01", "cold-start", "fuel_end_g", "839");
    await makeEdit(door, of, edit);
    expect((await check(of, "show", "R01")).state).toBe("none");
    await check(of, "start", "R01");
    expect((await done(of, "R01")).result.rows[0]?.monteCarlo).toBe("794.0");
  });

  it("is not begun where there is nothing to draw, or no trials are asked for", async () => {
    const bare = await study(only("R01", "R02"), null);
    expect(await check(bare, "start", "R01")).toMatchObject({ state: "none", because: /nothing to draw/ as never });
    const of = await study(only("R01", "R02"), withSettings({ monteCarlo: { trials: 0, seed: 1 } }));
    expect(await check(of, "start", "R01")).toMatchObject({ state: "none" });
    const view = await check(of, "show", "R01");
    expect(view.state === "none" && view.because).toMatch(/no Monte Carlo/);
  });

  it("gives no standard deviation where a t of so few degrees of freedom has none, and says so", async () => {
    const { instruments } = JSON.parse(settings);
    const component = { name: "any", distribution: "normal", relativeStandardUncertainty: 0.001, kind: "shared" };
    const fuelBalance = { components: [{ ...component, degreesOfFreedom: 2 }] };
    const of = await study(
      only("R01", "R02"),
      withSettings({ instruments: { ...instruments, fuelBalance }, monteCarlo: { trials: 20_000, seed: 1 } }),
    );
    await check(of, "start", "R01", wood);
    const { result } = await done(of, "R01");
    // JCGM 101:2008, 6.4.9.4 (from memory): a mean above 1 degree of freedom, a standard deviation above 2. First order has u = 0.694 g.
    const [mean, uncertainty] = result.rows;
    expect(mean?.monteCarlo).toMatch(/^69[34]\.\d$/);
    expect(uncertainty).toMatchObject({ monteCarlo: "none", firstOrder: "0.69" });
    expect(result.verdict.join(" ")).toMatch(/has no standard deviation, nor has what it enters/);
  });

  it("says so where the trials leave what is physically possible, and which interval to use", async () => {
    // 694 g of wood by a balance that is good to 350 g at each weighing: in some trials less than nothing is burnt.
    const { instruments } = JSON.parse(settings);
    const fuelBalance = {
      components: [{ name: "any", distribution: "normal", standardUncertainty: 350, kind: "independent" }],
    };
    const of = await study(
      only("R01", "R02"),
      withSettings({ instruments: { ...instruments, fuelBalance }, monteCarlo: { trials: 50_000, seed: 1 } }),
    );
    await check(of, "start", "R01", wood);
    const { result } = await done(of, "R01", "cold-start.fuelConsumedMoist");
    // Below 0 where z < -694/(350 sqrt(2)) = -1.402: 8.04 % of a normal distribution, 0.12 % being the spread of 50 000 trials.
    expect(result.tone).toBe("differs");
    expect(result.verdict.join(" ").replaceAll("\u00a0", " ")).toMatch(
      /in (?:7\.[6789]|8\.[012345]) % of the trials.*outside what is physically possible/,
    );
  });
});
