import { describe, expect, test } from "vitest";
import type { Run } from "../../../core/index.ts";
import { edit, minutesOf, phaseOf, refused, runOf, taken, textIn } from "./cells.ts";
import { likeness } from "./runs.ts";

describe("times", () => {
  test("a clock time is read with the run's date, the other phases stay", () => {
    const before = runOf();
    const after = taken(before, ["cold-start", "end", "8:36:30"]);
    expect(minutesOf(after, "cold-start")).toEqual([490, 516.5, "time"]);
    expect(phaseOf(after, "hot-start")).toBe(phaseOf(before, "hot-start"));
    const { timing } = phaseOf(after, "cold-start");
    const { timing: was } = phaseOf(before, "cold-start");
    if (timing.kind !== "clock" || was.kind !== "clock") expect.fail("no clock times");
    expect(timing.start).toBe(was.start);
    expect(timing.end.id).not.toBe(was.end.id);
  });

  test("past midnight, and back again", () => {
    const before = runOf();
    const after = taken(before, ["simmer", "start", "23:30"], ["simmer", "end", "00:15"]);
    expect(minutesOf(after, "simmer")).toEqual([1410, 1455, "time"]);
    expect(textIn(after, "simmer", "end")).toBe("00:15");
    expect(minutesOf(taken(after, ["simmer", "start", "09:12"], ["simmer", "end", "09:57"]), "simmer")).toEqual(
      minutesOf(before, "simmer"),
    );
  });

  test("a later end of one phase does not move the next", () => {
    const slip = taken(runOf(), ["cold-start", "end", "18:37"]);
    expect(minutesOf(slip, "hot-start")).toEqual([525, 550, "time"]);
    expect(minutesOf(taken(slip, ["cold-start", "end", "08:37"]), "hot-start")).toEqual([525, 550, "time"]);
  });

  test("a duration in place of clock times, and what was noted beside it", () => {
    const before = runOf();
    const start = taken(before, ["simmer", "end", ""], ["simmer", "duration_min", "45"]);
    expect(minutesOf(start, "simmer")).toEqual([45]);
    expect(textIn(start, "simmer", "start")).toBe("09:12");
    const both = taken(start, ["simmer", "end", "09:57"]);
    expect(minutesOf(both, "simmer")).toEqual(minutesOf(before, "simmer"));
    expect(textIn(both, "simmer", "duration_min")).toBe("45");
  });

  const dated = () =>
    runOf({
      cells: {
        "2.start": "2026-03-10T08:10",
        "2.end": "2026-03-10T08:37",
        "3.start": "2026-03-11T08:45",
        "3.end": "2026-03-11T09:10",
        "4.start": "2026-03-11T09:12",
        "4.end": "2026-03-11T09:57",
      },
    });

  test("another date moves dated times along", () => {
    const after = taken(dated(), [null, "date", "2026-04-01"]);
    expect(after.date).toBe("2026-04-01");
    expect(after.phases).toEqual(dated().phases);
    expect(textIn(after, "hot-start", "start")).toBe("2026-04-02T08:45");
  });

  test("a run with dated times needs its date, one with bare times does not", () => {
    expect(refused(dated(), [null, "date", ""])).toMatchObject([{ phase: null, column: "date" }]);
    expect(taken(runOf(), [null, "date", ""])).toEqual({ ...runOf(), date: null });
  });
});

describe("a run that is left out", () => {
  const leftOut = () => taken(runOf(), [null, "excluded", "it rained"]);

  test("may lack readings, shows them empty, and keeps the others", () => {
    const after = taken(leftOut(), ["simmer", "pot1_end_g", ""], ["simmer", "end", ""], ["simmer", "fuel_end_g", ""]);
    expect(textIn(after, "simmer", "pot1_end_g")).toBe("");
    expect(textIn(after, "simmer", "start")).toBe("09:12");
    expect(textIn(after, "simmer", "pot1_start_g")).toBe("5666");
    expect(phaseOf(after, "cold-start")).toBe(phaseOf(after, "cold-start"));
    const back = refused(after, [null, "excluded", ""]);
    expect(back.map(({ phase, column }) => `${phase} ${column}`).sort()).toEqual([
      "simmer end",
      "simmer fuel_end_g",
      "simmer pot1_end_g",
    ]);
    for (const { message } of back) expect(message).toMatch(/is missing/);
    const filled = taken(
      after,
      ["simmer", "pot1_end_g", "4953"],
      ["simmer", "end", "09:57"],
      ["simmer", "fuel_end_g", "67"],
      [null, "excluded", ""],
    );
    expect(likeness(filled)).toEqual(likeness(runOf()));
  });

  test("what may happen in a run that went wrong is asked about, and refused once it counts", () => {
    const cooled = edit(leftOut(), ["cold-start", "pot1_end_C", "20"]);
    if (!cooled.ok) expect.fail("refused");
    expect(cooled.questions.map(({ rule }) => rule)).toEqual(["water-cooled"]);
    expect(refused(cooled.run, [null, "excluded", ""])).toMatchObject([{ phase: "cold-start", column: "pot1_end_C" }]);
  });
});

test("what was wrong before does not stand in the way of an edit elsewhere", () => {
  const [cold, ...others] = runOf().phases;
  const [pot] = cold?.pots ?? [];
  if (cold === undefined || pot?.masses.kind !== "weighed") expect.fail("no pot");
  const masses = { ...pot.masses, end: { id: "e", value: 6000 } };
  const run: Run = { ...runOf(), phases: [{ ...cold, pots: [{ ...pot, masses }] }, ...others] };
  expect(phaseOf(taken(run, ["cold-start", "note", "gusts"]), "cold-start").pots).toEqual([{ ...pot, masses }]);
  expect(refused(run, ["cold-start", "pot1_end_g", "6100"])).toHaveLength(1);
  expect(phaseOf(taken(run, ["cold-start", "pot1_end_g", "5667"]), "cold-start").pots[0]?.masses).toMatchObject({
    end: { value: 5667 },
  });
  // A cell that is filled in with nothing, where something lacks, is an edit of that cell.
  const lacking = taken(runOf(), [null, "excluded", "it rained"], ["simmer", "pot1_end_g", ""]);
  expect(refused({ ...lacking, leftOut: null }, ["simmer", "pot1_end_g", " "])).toHaveLength(1);
  expect(taken({ ...lacking, leftOut: null }, ["simmer", "note", "gusts"]).phases).toHaveLength(3);
});
