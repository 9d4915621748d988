/**
 * One part of the benchmark of large study files, in a process of its own so that its memory is its own: `make FOLDER RUNS` takes a
 * readings file in as a new study; `use FOLDER` opens it, edits, undoes, compares. Prints a line of JSON for each figure.
 */
import { join } from "node:path";
import type { Door, ReplyValues, Request } from "../../app/contract/index.ts";
import { createDoor } from "../../app/service/index.ts";
import { seededGenerator } from "../../core/index.ts";
import { manyRuns } from "./many-runs.ts";

const [what, folder = "", count = "0"] = process.argv.slice(2);
const folders = { studies: join(folder, "studies"), data: join(folder, "data") };
const who = "bench";
const edits = 200;

const say = (name: string, value: number, unit: "ms" | "MB") => console.log(JSON.stringify({ name, value, unit }));
const peak = () => process.resourceUsage().maxRSS / 1024;
const now = () => process.memoryUsage().rss / 1024 / 1024;

async function ask<K extends Request["kind"]>(
  door: Door,
  message: Extract<Request, { kind: K }>,
): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(reply.message);
  return reply.value as ReplyValues[K];
}

function quantile(times: readonly number[], share: number): number {
  return times.toSorted((one, other) => one - other)[Math.min(times.length - 1, Math.floor(times.length * share))] ?? 0;
}

async function make(): Promise<void> {
  const door = createDoor({ folders });
  const content = Buffer.from(manyRuns(Number(count))).toString("base64");
  const readings = { name: "many.csv", contentBase64: content };
  const { importId } = await ask<"import.check">(door, { kind: "import.check", readings, settings: null });
  const start = performance.now();
  await ask<"import.accept">(door, {
    kind: "import.accept",
    importId,
    into: { kind: "new", studyName: "Many runs" },
    who,
  });
  say("taking them in as a new study, on disk", performance.now() - start, "ms");
  await door.close();
}

async function use(): Promise<void> {
  const started = now();
  const door = createDoor({ folders });
  const { studies } = await ask<"shelf.show">(door, { kind: "shelf.show" });
  const place = studies[0]?.place ?? "";
  let start = performance.now();
  const { study } = await ask<"study.open">(door, { kind: "study.open", place });
  say("opening it, until the Study page has its answer", performance.now() - start, "ms");
  const state = () => ask<"study.state">(door, { kind: "study.state", study });
  while ((await state()).looking !== null) await new Promise((done) => setTimeout(done, 5));
  say("  until every run has been checked and questioned, in the background", performance.now() - start, "ms");
  say("  memory before and after", now() - started, "MB");

  const random = seededGenerator(7);
  const cells = [
    ["cold-start", "pot1_end_g"],
    ["hot-start", "fuel_end_g"],
    ["simmer", "air_C"],
    ["simmer", "note"],
  ] as const;
  const { runs } = await ask<"study.show">(door, { kind: "study.show", study });
  const times: number[] = [];
  for (let made = 0; made < edits; made += 1) {
    const run = String(1 + Math.floor(random.uniform() * runs));
    const [phase, column] = cells[made % cells.length] ?? cells[0];
    const { steps } = await ask<"cell.history">(door, { kind: "cell.history", study, run, phase, column });
    const was = steps.at(-1)?.after ?? "";
    const text = column === "note" ? `seen ${made}` : String(Number(was) + 1);
    start = performance.now();
    const cell = { phase, column, text, was };
    await ask<"edit.make">(door, {
      kind: "edit.make",
      study,
      who,
      edit: { kind: "cells", run, cells: [cell], why: null },
    });
    times.push(performance.now() - start);
  }
  say(`an edit of one cell, confirmed on disk (median of ${edits})`, quantile(times, 0.5), "ms");
  say("  95 % of them under", quantile(times, 0.95), "ms");
  const undone: number[] = [];
  for (let made = 0; made < edits; made += 1) {
    const { undo } = await state();
    if (undo === null) break;
    start = performance.now();
    await ask<"edit.undo">(door, { kind: "edit.undo", study, who, edit: undo.edit });
    undone.push(performance.now() - start);
  }
  say(`an undo (median of ${undone.length})`, quantile(undone, 0.5), "ms");
  say("  peak memory of the whole process by now", peak(), "MB");
  start = performance.now();
  const choice = { quantity: null, variant: null, baseline: null };
  await ask<"compare.show">(door, { kind: "compare.show", study, choice });
  say("Compare, the first time", performance.now() - start, "ms");
  say("  peak memory of the whole process by now", peak(), "MB");
  await door.close();
}

await (what === "make" ? make() : use());
