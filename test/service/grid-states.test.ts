import { readFileSync, writeFileSync } from "node:fs";
import { DatabaseSync } from "node:sqlite";
import { afterEach, beforeEach, expect, it } from "vitest";
import type { Door, GridChoice, GridRowView } from "../../app/contract/index.ts";
import type { UserFolders } from "../../app/service/index.ts";
import { manyRuns } from "../bench/many-runs.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";
import { plainCell, plainOrder, plainRows } from "./grid-plain.ts";
import { ask, makeEdit, rename, settings, taken, who } from "./requests.ts";

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

const whole: GridChoice = { sort: null, find: "", variant: null, phase: null, only: "all" };
const grid = (study: string, choice: Partial<GridChoice> = {}, from = 0, count = 500) =>
  ask<"grid.show">(door, { kind: "grid.show", study, choice: { ...whole, ...choice }, from, count });
const state = (study: string) => ask<"study.state">(door, { kind: "study.state", study });
const places = (rows: readonly GridRowView[]) => rows.map(({ runId, phase }) => `${runId} ${phase}`);

async function known(study: string): Promise<void> {
  while ((await state(study)).looking !== null) await new Promise((done) => setTimeout(done, 5));
}
async function again(): Promise<void> {
  await door.close();
  door = ownDoor(folders).door;
}

it("a study that is still being looked at shows its rows at once, and all there is to them later", async () => {
  const { study } = await taken(door, "Large", manyRuns(1_000), settings);
  await again();
  await ask<"study.open">(door, { kind: "study.open", place: study });
  const early = await grid(study, {}, 2_900, 100);
  expect((await state(study)).looking).not.toBeNull();
  expect(early).toMatchObject({ rows: 3_000, runs: 1_000, allRows: 3_000, allRuns: 1_000 });
  expect(early.part).toHaveLength(100);
  await known(study);
  const late = await grid(study, {}, 2_900, 100);
  expect(late.revision).toBeGreaterThan(early.revision);
  // What was read at once is what there is; results have joined it.
  const readings = ({ columns }: typeof late) => columns.filter(({ column }) => column !== null);
  expect(readings(early)).toEqual(readings(late));
  const cells = ({ columns, part }: typeof late) =>
    part.map(({ cells: some }) => some.filter((_, at) => columns[at]?.column !== null));
  expect(cells(early)).toEqual(cells(late));
  expect(places(early.part)).toEqual(places(late.part));
}, 60_000);

it("sorting a study by a result while it is looked at waits until every run is worked out", async () => {
  const { study } = await taken(door, "Large", manyRuns(800), settings);
  await again();
  await ask<"study.open">(door, { kind: "study.open", place: study });
  const sort = { column: "result.thermalEfficiency", falling: true };
  const [one, same, find] = await Promise.all([
    grid(study, { sort }),
    grid(study, { sort }),
    grid(study, { find: "N77" }),
  ]);
  const at = one.columns.findIndex(({ key }) => key === sort.column);
  const values = one.part.map(({ cells }) => Number(cells[at]));
  expect(values).toEqual(values.toSorted((left, right) => right - left));
  expect(same.part).toEqual(one.part);
  // N77 and N770 to N779, three phases each.
  expect(find.rows).toBe(33);
  await known(study);
  const rows = plainRows(await ask<"runs.show">(door, { kind: "runs.show", study }));
  const wanted = plainOrder(rows, one.columns, { ...whole, sort }).slice(0, 500);
  expect(places((await grid(study, { sort })).part)).toEqual(wanted.map(({ runId, phase }) => `${runId} ${phase}`));
  expect(places(one.part)).toEqual(wanted.map(({ runId, phase }) => `${runId} ${phase}`));
}, 60_000);

it("what takes long lets others have their turn", async () => {
  const { study } = await taken(door, "Large", manyRuns(600), settings);
  await known(study);
  let turns = 0;
  const others = setInterval(() => {
    turns += 1;
  }, 1);
  expect((await grid(study, { find: "98765432" })).rows).toBe(0);
  clearInterval(others);
  expect(turns).toBeGreaterThan(3);
}, 60_000);

/** A study of the example's 25 runs in whose file a note of some run was changed by a disk's fault. */
async function damaged(): Promise<string> {
  const { study, file } = await taken(door, "Damaged");
  await makeEdit(door, study, rename("Damaged later"));
  await door.close();
  const pages = new DatabaseSync(file, { readOnly: true });
  const leaves = pages.prepare("SELECT pageno FROM dbstat WHERE name = 'phase_text' AND pagetype = 'leaf'").all();
  pages.close();
  const bytes = readFileSync(file);
  const page = Number(leaves[1]?.pageno);
  const place = bytes.indexOf("invented example", (page - 1) * 4096 + 2048);
  expect(place).toBeLessThan(page * 4096);
  bytes.write("j", place);
  writeFileSync(file, bytes);
  door = ownDoor(folders).door;
  return study;
}

it("of a damaged file what can be read is shown, sorted and found; nothing can be pasted", async () => {
  const study = await damaged();
  await ask<"study.open">(door, { kind: "study.open", place: study });
  await known(study);
  expect((await state(study)).readOnly).toMatch(/damaged/);
  const rows = plainRows(await ask<"runs.show">(door, { kind: "runs.show", study }));
  expect(rows).toHaveLength(72);
  const { columns, ...view } = await grid(study);
  expect(view).toMatchObject({ rows: 72, allRows: 72, runs: 24, allRuns: 24 });
  for (const choice of [
    {},
    { find: "example" },
    { find: "day 2", only: "counting" as const },
    ...columns.map(({ key }) => ({ sort: { column: key, falling: true } })),
  ]) {
    const wanted = plainOrder(rows, columns, { ...whole, ...choice });
    const shown = await grid(study, choice);
    expect(places(shown.part), JSON.stringify(choice)).toEqual(wanted.map(({ runId, phase }) => `${runId} ${phase}`));
    for (const [at, row] of shown.part.entries()) {
      const plain = wanted[at];
      if (plain !== undefined) expect(row.cells).toEqual(columns.map(({ key }) => plainCell(plain, key, row.isFirst)));
    }
  }
  const [first] = view.part;
  const cell = {
    run: first?.runId ?? "",
    phase: first?.phase ?? null,
    column: "note",
    text: "x",
    was: "invented example",
  };
  const edit = { kind: "cellsOfRuns" as const, way: "paste" as const, cells: [cell] };
  const reply = await door.ask({ kind: "edit.make", study, who, edit });
  expect(reply).toMatchObject({ ok: false, reason: "refused", message: expect.stringMatching(/damaged/) });
}, 60_000);

it("of a large study questions follow an edit once they are worked out, and windows are told", async () => {
  const { study } = await taken(door, "Large", manyRuns(400), settings);
  await known(study);
  const showStudy = () => ask<"study.show">(door, { kind: "study.show", study });
  await showStudy();
  const before = await grid(study, {}, 0, 3);
  const at = before.columns.findIndex(({ key }) => key === "reading.moisture_wet_percent");
  const [row] = before.part;
  const cell = {
    phase: "cold-start" as const,
    column: "moisture_wet_percent",
    text: "60",
    was: String(row?.cells[at]),
  };
  await makeEdit(door, study, { kind: "cells", run: row?.runId ?? "", cells: [cell], why: null });
  const soon = await grid(study, {}, 0, 3);
  expect(soon.part[0]?.cells[at]).toBe("60");
  await showStudy();
  expect((await state(study)).revision).toBeGreaterThan(soon.revision);
  const later = await grid(study, {}, 0, 3);
  expect(later.part[0]?.questions.map(({ column }) => column)).toContain("moisture_wet_percent");
  const rows = plainRows(await ask<"runs.show">(door, { kind: "runs.show", study }));
  const asked = await grid(study, { only: "questions" });
  const wanted = plainOrder(rows, asked.columns, { ...whole, only: "questions" });
  expect(asked.rows).toBe(wanted.length);
  expect(places(asked.part)).toEqual(wanted.slice(0, 500).map(({ runId, phase }) => `${runId} ${phase}`));
  const [question] = later.part[0]?.questions ?? [];
  // An answer closes it at once, and taking it back opens it.
  await makeEdit(door, study, { kind: "answer", question: question?.id ?? "", because: "rained on" });
  expect((await grid(study, {}, 0, 3)).part[0]?.questions.map(({ id }) => id)).not.toContain(question?.id);
  await makeEdit(door, study, { kind: "reopen", question: question?.id ?? "" });
  expect((await grid(study, {}, 0, 3)).part[0]?.questions.map(({ id }) => id)).toContain(question?.id);
}, 60_000);
