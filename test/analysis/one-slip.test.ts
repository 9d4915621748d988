import { describe, expect, it } from "vitest";
import { oneForUnits, oneQuestionEach } from "../../core/analysis/one-slip.ts";
import type { Question } from "../../core/analysis/question.ts";
import { type Suspicion, touch } from "../../core/analysis/slips/numbered-run.ts";
import type { PhaseName } from "../../core/readings/phase.ts";

const run = { name: "R1", variant: "A" };

function seen(rule: string, phase: PhaseName | null, column: string | null, ...more: readonly string[]): Suspicion {
  const own = phase === null || column === null ? [] : touch(phase, column);
  return { rule, phase, column, message: `${rule} at ${phase} ${column}`, touches: [...own, ...more] };
}

const places = (some: readonly Question[]) => some.map(({ rule, phase, column }) => `${rule} ${phase} ${column}`);
const asked = (...suspicions: readonly Suspicion[]) => places(oneQuestionEach(run, [], suspicions));

describe("one slip raises one question", () => {
  it("a moisture that is outside in every phase is asked about at the first", () => {
    const phases = ["cold-start", "hot-start", "simmer"] as const;
    expect(asked(...phases.map((phase) => seen("outsideRuns", phase, "moisture_wet_percent")))).toEqual([
      "outsideRuns cold-start moisture_wet_percent",
    ]);
    // Weighings of different phases are different acts.
    expect(asked(...phases.map((phase) => seen("outsideRuns", phase, "fuel_end_g")))).toHaveLength(3);
  });

  it("two pots whose weighings were exchanged are asked about once; another moment of theirs by itself", () => {
    expect(
      asked(
        seen("outsideRuns", "hot-start", "pot1_start_g"),
        seen("outsideRuns", "hot-start", "pot2_start_g"),
        seen("outsideRuns", "hot-start", "pot2_end_g"),
        seen("outsideRuns", "simmer", "pot2_start_g"),
      ),
    ).toEqual([
      "outsideRuns hot-start pot1_start_g",
      "outsideRuns hot-start pot2_end_g",
      "outsideRuns simmer pot2_start_g",
    ]);
  });

  it("an hour that is wrong by twelve is asked about at the clock, not as a run out of order, too", () => {
    expect(asked(seen("outOfOrder", null, "date", "date"), seen("timeOfDay", "cold-start", "start"))).toEqual([
      "timeOfDay cold-start start",
    ]);
    expect(asked(seen("outOfOrder", null, "date", "date"))).toEqual(["outOfOrder null date"]);
  });
});

describe("masses in another unit", () => {
  const mass = (phase: PhaseName, column: string): Question => {
    return { rule: "mass-unit", run: "R1", variant: null, phase, column, message: `${column}?` };
  };
  const other: Question = { ...mass("cold-start", "wind"), rule: "odd" };

  it("of one phase are one question, which says how many more there are", () => {
    const once = oneForUnits(
      [mass("cold-start", "fuel_start_g"), other, mass("cold-start", "fuel_end_g"), mass("cold-start", "char_g")],
      "en",
    );
    expect(places(once)).toEqual(["mass-unit cold-start fuel_start_g", "odd cold-start wind"]);
    expect(once[0]?.message).toBe("fuel_start_g? 2 more masses of this phase look the same.");
  });

  it("of two phases are two; a single one stays as it is", () => {
    const two = [mass("cold-start", "fuel_start_g"), mass("simmer", "fuel_start_g")];
    expect(oneForUnits(two, "en")).toEqual(two);
  });
});
