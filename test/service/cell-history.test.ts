import { afterEach, beforeEach, expect, it } from "vitest";
import type { Door } from "../../app/contract/index.ts";
import { ownDoor } from "../build/own-door.ts";
import { ask, makeEdit, taken, undo, who } from "./requests.ts";

let door: Door;
let close: () => Promise<void>;
let study: string;
beforeEach(async () => {
  ({ door, close } = ownDoor());
  ({ study } = await taken(door, "Weighed"));
});
afterEach(() => close());

/** Run R01 is of the variant "no skirt, wide gap", of which the factor skirt is "no". */
const ofRun = (column: string, text: string, was: string) =>
  makeEdit(door, study, { kind: "cells", run: "1", cells: [{ phase: null, column, text, was }], why: null });

async function history(column: string): Promise<string[]> {
  const asked = { kind: "cell.history", study, run: "1", phase: null, column } as const;
  const { steps } = await ask<"cell.history">(door, asked);
  return steps.map(({ way, before, after }) => `${way}: ${before} → ${after}`);
}

it("a factor's level is what its variant has where the run has none of its own", async () => {
  await ofRun("factor:skirt", "half", "no");
  await ofRun("factor:skirt", "", "half");
  await undo(door, study);
  await undo(door, study);
  expect(await history("factor:skirt")).toEqual([
    "edit:  → no",
    "edit: no → half",
    "edit: half → ",
    "undo:  → half",
    "undo: half → no",
  ]);
});

it("a run that is moved to another variant has its levels", async () => {
  await ofRun("variant", "skirt, narrow gap", "no skirt, wide gap");
  expect(await history("factor:skirt")).toEqual(["edit:  → no", "edit: no → yes"]);
  expect(await history("factor:gap")).toEqual(["edit:  → 25 mm", "edit: 25 mm → 12 mm"]);
});

it("a variant that an undo took away still has its name in the history", async () => {
  await ofRun("variant", "a third stove", "no skirt, wide gap");
  await undo(door, study);
  expect(await history("variant")).toEqual([
    "edit:  → no skirt, wide gap",
    "edit: no skirt, wide gap → a third stove",
    "undo: a third stove → no skirt, wide gap",
  ]);
});

it("an order beyond what a study keeps is refused with a sentence, in a cell and in a file", async () => {
  const cells = [{ phase: null, column: "order", text: "1e13", was: "1" }];
  const edit = { kind: "cells", run: "1", cells, why: null } as const;
  const reply = await door.ask({ kind: "edit.make", study, who, edit });
  expect(reply).toMatchObject({
    ok: false,
    reason: "refused",
    message: expect.stringMatching(/order of run .*R01.*1, 2, 3/),
  });
  const file =
    "run,variant,phase,order,start,end,fuel,fuel_start_g,fuel_end_g,moisture_wet_percent,air_C,altitude_m,pot1_empty_g,pot1_start_g,pot1_end_g,pot1_start_C,pot1_end_C\nA,x,cold-start,1e13,07:00,07:30,eucalyptus,1600,900,12,20,1600,600,5600,5400,20,94\n";
  await expect(taken(door, "Numbered", file)).rejects.toThrow(/order of run .*A.*1, 2, 3/);
});
