/**
 * One part of the benchmark of large study files, in a process of its own so that its memory is its own: `FOLDER` has a study as
 * `study-file.ts make` makes it. Goes through the grid of readings and results as a page does. Prints a line of JSON for each figure.
 */
import { join } from "node:path";
import type { Door, GridChoice, ReplyValues, Request } from "../../app/contract/index.ts";
import { createDoor } from "../../app/service/index.ts";

const [folder = ""] = process.argv.slice(2);
const folders = { studies: join(folder, "studies"), data: join(folder, "data") };
const who = "bench";

const say = (name: string, value: number, unit: "ms" | "MB") => console.log(JSON.stringify({ name, value, unit }));
const peak = () => process.resourceUsage().maxRSS / 1024;

const door: Door = createDoor({ folders });
async function ask<K extends Request["kind"]>(message: Extract<Request, { kind: K }>): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(reply.message);
  return reply.value as ReplyValues[K];
}

/** Longest that others had to wait for their turn while the work was done. */
async function timed<T>(name: string, work: () => Promise<T>): Promise<T> {
  let longest = 0;
  let last = performance.now();
  const turns = setInterval(() => {
    longest = Math.max(longest, performance.now() - last);
    last = performance.now();
  }, 0);
  const start = performance.now();
  const value = await work();
  const time = performance.now() - start;
  longest = Math.max(longest, performance.now() - last);
  clearInterval(turns);
  say(name, time, "ms");
  say("  longest turn in it", longest, "ms");
  return value;
}

const { studies } = await ask<"shelf.show">({ kind: "shelf.show" });
const { study } = await ask<"study.open">({ kind: "study.open", place: studies[0]?.place ?? "" });
const state = () => ask<"study.state">({ kind: "study.state", study });

const whole: GridChoice = { sort: null, find: "", variant: null, phase: null, only: "all" };
const show = (choice: Partial<GridChoice>, from = 0, count = 500) =>
  ask<"grid.show">({ kind: "grid.show", study, choice: { ...whole, ...choice }, from, count });

await timed("grid, the first 100 rows while the study is being looked at", () => show({}, 0, 100));
while ((await state()).looking !== null) await new Promise((done) => setTimeout(done, 5));
await timed("grid, questions of the study (Study page)", () => ask<"study.show">({ kind: "study.show", study }));
const first = await timed("grid, the first part of 500 rows", () => show({}));
await timed("grid, 100 rows in the middle", () => show({}, 15_000, 100));
await timed("grid, 500 rows near the end", () => show({}, first.rows - 500));
for (let from = 0; from < first.rows; from += 500) await show({}, from);
say("grid, peak memory of the process after all rows were gone through", peak(), "MB");

const column = first.columns.findIndex(({ key }) => key === "reading.pot1_end_g");
const cellOf = (row: (typeof first.part)[number] | undefined, more: number) => {
  const was = String(row?.cells[column] ?? "");
  return {
    run: row?.runId ?? "",
    phase: row?.phase ?? null,
    column: "pot1_end_g",
    text: String(Number(was) + more),
    was,
  };
};
const { run, ...cell } = cellOf(first.part[0], -3);
await timed("grid, an edit of one cell", () =>
  ask<"edit.make">({ kind: "edit.make", study, who, edit: { kind: "cells", run, cells: [cell], why: null } }),
);
await timed("grid, the part of 500 rows after it", () => show({}));
await timed("grid, sorted by a reading", () => show({ sort: { column: "reading.fuel_end_g", falling: false } }));
await timed("grid, sorted by the runs' names", () => show({ sort: { column: "run.run", falling: true } }));
const byResult = { sort: { column: "result.thermalEfficiency", falling: true } };
await timed("grid, sorted by a result", () => show(byResult));
await timed("grid, the same again", () => show(byResult));
const find = { find: "N4711" };
await timed("grid, a text found", () => show(find));
await timed("grid, the same again", () => show(find));
await timed("grid, a number found", () => show({ find: "1234" }));
await timed("grid, rows with questions", () => show({ only: "questions" }));

/** Moves all cells of so many rows, twelve columns, by a decimal comma. */
const columns = [
  ...["pot1_end_g", "pot1_start_g", "fuel_start_g", "fuel_end_g", "air_C", "boiling_C"],
  ...["pot1_start_C", "pot1_end_C", "moisture_wet_percent", "char_with_container_g", "lid", "note"],
];
async function paste(name: string, rows: number, more: string) {
  const cells: Extract<Extract<Request, { kind: "edit.make" }>["edit"], { kind: "cellsOfRuns" }>["cells"] = [];
  for (let from = 0; from < rows; from += 500) {
    const { part, columns: shown } = await show({}, from, Math.min(500, rows - from));
    for (const row of part) {
      for (const column of columns) {
        const was = String(row.cells[shown.findIndex((one) => one.column === column)] ?? "");
        const text = /^\d+$/.test(was)
          ? `${was},${more}`
          : /^\d+\.\d+$/.test(was)
            ? was.replace(/\.\d+$/, `,${more}`)
            : `seen ${more}`;
        if (was !== "" || column === "lid" || column === "note") {
          cells.push({ run: row.runId, phase: row.phase, column, text, was });
        }
      }
    }
  }
  const given = cells.slice(0, 20_000);
  await timed(`grid, ${name} (${given.length} cells) pasted`, () =>
    ask<"edit.make">({ kind: "edit.make", study, who, edit: { kind: "cellsOfRuns", way: "paste", cells: given } }),
  );
}
await paste("40 rows × 12 columns", 40, "2");
await timed("grid, the part of 500 rows after it", () => show({}));
await paste("as many as there may be", 2_000, "4");
await timed("grid, the part of 500 rows after it", () => show({}));
const { undo } = await state();
await timed("grid, that undone", () => ask<"edit.undo">({ kind: "edit.undo", study, who, edit: undo?.edit ?? 0 }));
say("grid, peak memory of the whole process", peak(), "MB");
await door.close();
