import { describe, expect, it } from "vitest";
import { lackingFields, partsOf, spotBeside, spotToBegin, walkOf } from "../../renderer/state/bench-walk.ts";
import { run } from "./bench-fixture.ts";

/** Where Enter goes: all fields of all steps in order, but those that are passed over. */

const plain = {
  unfolded: new Set<string>(),
  isHeld: () => false,
  isFilled: ({ text }: { text: string }) => text !== "",
  focused: null,
};
const walk = walkOf(run, plain);
const fieldsOf = (spots: typeof walk) => spots.map(({ step, field }) => field ?? step);

describe("the walk through a run", () => {
  it("passes over what is folded away, unless it is shown, typed into, or has the focus", () => {
    const humidity = "cold-start.humidity_percent";
    expect(fieldsOf(walk)).not.toContain(humidity);
    expect(fieldsOf(walkOf(run, { ...plain, unfolded: new Set(["before-the-fire"]) }))[2]).toBe(humidity);
    expect(fieldsOf(walkOf(run, { ...plain, focused: humidity }))[2]).toBe(humidity);
    expect(fieldsOf(walkOf(run, { ...plain, isHeld: ({ column }) => column === "humidity_percent" }))[2]).toBe(
      humidity,
    );
  });

  it("passes over a field in whose place another one was written, from its first digit on", () => {
    const [first = expect.fail()] = run.steps;
    const fields = first.fields.map((field) =>
      field.column === "air_C" ? { ...field, text: "", insteadOf: "boiling_C" } : field,
    );
    const steps = [{ ...first, fields }, ...run.steps.slice(1)];
    expect(fieldsOf(walkOf({ ...run, steps }, plain))[0]).toBe("cold-start.boiling_C");
    const unwritten = walkOf({ ...run, steps }, { ...plain, isFilled: () => false });
    expect(fieldsOf(unwritten)[0]).toBe("cold-start.air_C");
  });

  it("names what is folded away also while it is shown", () => {
    const [first] = run.steps;
    const { shown, folded } = partsOf(first ?? expect.fail(), { ...plain, unfolded: new Set(["before-the-fire"]) });
    expect(shown).toHaveLength(5);
    expect(folded.map(({ column }) => column)).toEqual(["humidity_percent"]);
  });

  it("goes from the last field of a step to the next step, back again, and ends at the finish", () => {
    const last = { step: "cold-start.weigh", field: "cold-start.fuel_start_g" };
    const next = { step: "cold-start.light", field: "cold-start.start" };
    expect(spotBeside(run, walk, last, 1)).toEqual(next);
    expect(spotBeside(run, walk, next, -1)).toEqual(last);
    const end = { step: "cold-start.weigh-after", field: "cold-start.char_with_container_g" };
    expect(spotBeside(run, walk, end, 1)).toEqual({ step: "finish", field: null });
    expect(spotBeside(run, walk, { step: "finish", field: null }, 1)).toBeNull();
    expect(spotBeside(run, walk, { step: "before-the-fire", field: "cold-start.air_C" }, -1)).toBeNull();
  });

  it("from a field that was folded meanwhile goes on to the next step", () => {
    const from = { step: "before-the-fire", field: "cold-start.humidity_percent" };
    expect(spotBeside(run, walk, from, 1)?.step).toBe("cold-start.weigh");
  });

  it("begins a step at its first empty field, a full one at its first", () => {
    expect(spotToBegin(run, walk, "cold-start.weigh-after")?.field).toBe("cold-start.pot1_end_g");
    expect(spotToBegin(run, walk, "before-the-fire")?.field).toBe("cold-start.air_C");
  });

  it("leads to what lacks, each in the step in which it is taken", () => {
    expect(lackingFields(run).map(({ step, field }) => [step.id, field.column])).toEqual([
      ["cold-start.weigh", "pot1_start_g"],
    ]);
  });
});
