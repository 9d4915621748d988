/**
 * One part of the benchmark of large study files: `FOLDER` opens the study that was made there, begins a run on the Bench and types
 * some of its fields. Prints a line of JSON for each figure.
 */
import { join } from "node:path";
import type { Edit, ReplyValues, Request } from "../../app/contract/index.ts";
import { createDoor } from "../../app/service/index.ts";

const [folder = ""] = process.argv.slice(2);
const door = createDoor({ folders: { studies: join(folder, "studies"), data: join(folder, "data") } });
const who = "bench";

async function ask<K extends Request["kind"]>(message: Extract<Request, { kind: K }>): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(reply.message);
  return reply.value as ReplyValues[K];
}

const say = (name: string, value: number) => console.log(JSON.stringify({ name, value, unit: "ms" }));
const median = (times: readonly number[]) => times.toSorted((one, other) => one - other)[times.length >> 1] ?? 0;

const { studies } = await ask<"shelf.show">({ kind: "shelf.show" });
const { study } = await ask<"study.open">({ kind: "study.open", place: studies[0]?.place ?? "" });
while ((await ask<"study.state">({ kind: "study.state", study })).looking !== null) {
  await new Promise((done) => setTimeout(done, 20));
}
const make = (edit: Edit) => ask<"edit.make">({ kind: "edit.make", study, who, edit });
const { begin } = await ask<"bench.show">({ kind: "bench.show", study, run: null });
const form = { pots: 1, charAtHotStart: true, emissions: false } as const;
const { run } = await make({ kind: "beginRun", variant: begin.variant ?? "plain", ...form });
if (run === null) throw new Error("no run was begun");
let start = performance.now();
await ask<"bench.show">({ kind: "bench.show", study, run });
say("the Bench of a run that was begun", performance.now() - start);

const cells = [
  ["air_C", "18.9"],
  ["boiling_C", "94.6"],
  ["moisture_wet_percent", "12.1"],
  ["pot1_empty_g", "612"],
  ["char_container_g", "248"],
  ["pot1_start_g", "5611"],
  ["pot1_start_C", "20.3"],
  ["fuel_start_g", "1604"],
  ["start", "09:14"],
  ["end", "09:43"],
] as const;
const edited: number[] = [];
const shown: number[] = [];
for (const [column, text] of cells) {
  start = performance.now();
  await make({ kind: "cells", run, cells: [{ phase: "cold-start", column, text, was: "" }], why: null });
  edited.push(performance.now() - start);
  start = performance.now();
  await ask<"bench.show">({ kind: "bench.show", study, run });
  shown.push(performance.now() - start);
}
say("a field of the Bench, on disk (median of 10)", median(edited));
say("  its step shown anew, with questions and results (median of 10)", median(shown));
await door.close();
