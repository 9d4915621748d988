import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nextRunName } from "../../app/service/next-run.ts";

const nextAfter = (...names: string[]) => nextRunName(names.map((name, position) => ({ name, position })));

describe("the name of the next run", () => {
  it.each([
    [[], "1"],
    [["1"], "2"],
    [["R24"], "R25"],
    [["R09"], "R10"],
    [["day 2-07"], "day 2-08"],
    [["R99"], "R100"],
    // The last one counts, not the largest.
    [["R7", "R3"], "R4"],
    [["R3", "R5", "R4"], "R6"],
    [["first", "second"], "3"],
    // A number that no run count reaches is part of a name.
    [["2026112514200000"], "2026112514200001"],
  ])("after %j comes %s", (names, next) => {
    expect(nextAfter(...names)).toBe(next);
  });

  it("goes by the position, not by the place in the list", () => {
    expect(
      nextRunName([
        { name: "B2", position: 5 },
        { name: "A7", position: 1 },
      ]),
    ).toBe("B3");
  });

  it("is never one that is taken", () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.string(), fc.stringMatching(/^[A-Z]?\d{1,3}$/))), (names) => {
        expect(names).not.toContain(nextAfter(...names));
      }),
    );
  });
});
