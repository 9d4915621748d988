import { afterEach, beforeEach, expect, it } from "vitest";
import type { Door } from "../../app/contract/index.ts";
import type { UserFolders } from "../../app/service/index.ts";
import { manyRuns } from "../bench/many-runs.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";
import { ask, makeEdit, rename, taken, undo } from "./requests.ts";

/** What takes long in a large study lets others have their turn. */
let folders: UserFolders;
let remove: () => void;
let door: Door;
beforeEach(() => {
  ({ folders, remove } = ownFolders());
  door = ownDoor(folders).door;
});
afterEach(async () => {
  await door.close();
  remove();
});

const runs = 1_500;

/** How often something else came to its turn while the work was done. */
async function turnsDuring(work: () => Promise<unknown>): Promise<number> {
  let turns = 0;
  const others = setInterval(() => {
    turns += 1;
  }, 1);
  await work();
  clearInterval(others);
  return turns;
}

it("the first edit waits for the check of the whole study, and nobody waits for the edit", async () => {
  const { study } = await taken(door, "Large", manyRuns(runs), null);
  await door.close();
  door = ownDoor(folders).door;
  await ask<"study.open">(door, { kind: "study.open", place: study });
  expect(await turnsDuring(() => makeEdit(door, study, rename("Checked first")))).toBeGreaterThan(3);
}, 60_000);

it("all runs are worked out in slices", async () => {
  const { study } = await taken(door, "Large", manyRuns(runs), null);
  expect(await turnsDuring(() => ask<"runs.show">(door, { kind: "runs.show", study }))).toBeGreaterThan(3);
}, 60_000);

it("questions about many runs that came in, or came back, are worked out in the background", async () => {
  const view = await taken(door, "Large", manyRuns(runs), null);
  expect(view).toMatchObject({ runs, looking: expect.any(Number) });
  const whole = async () => {
    for (;;) {
      const shown = await ask<"study.show">(door, { kind: "study.show", study: view.study });
      if (shown.looking === null) return shown;
      await new Promise((done) => setTimeout(done, 5));
    }
  };
  await whole();
  await undo(door, view.study);
  expect(await whole()).toMatchObject({ runs: 0, questions: [] });
}, 60_000);
