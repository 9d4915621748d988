import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, expect } from "vitest";
import type { Door, Edit, ReplyValues, Request } from "../../app/contract/index.ts";
import type { UserFolders } from "../../app/service/index.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";

const project = join(import.meta.dirname, "..", "..");
/** A program of its own for each test, on a user's folders of its own, and what a person asks of it. */
export const good = readFileSync(join(project, "sample-data", "good", "tall-kettle-stove.csv"));
const goodSettings = readFileSync(join(project, "sample-data", "good", "tall-kettle-stove.settings.json"));
export const first = { quantity: null, variant: null, baseline: null };
export const who = "Ama";

export let folders: UserFolders;
let remove: () => void;
export let door: Door;
beforeEach(() => {
  ({ folders, remove } = ownFolders());
  door = ownDoor(folders).door;
});
afterEach(async () => {
  await door.close();
  remove();
});

export async function ask<K extends Request["kind"]>(message: Extract<Request, { kind: K }>): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(reply.message);
  return reply.value as ReplyValues[K];
}

export async function refusal(message: Request): Promise<string> {
  const reply = await door.ask(message);
  if (reply.ok) throw new Error("not refused");
  expect(reply.reason).toBe("refused");
  return reply.message;
}

/** The program ends and starts again; meanwhile something may happen to its files. */
export async function restart(meanwhile: () => void = () => {}): Promise<void> {
  await door.close();
  meanwhile();
  door = ownDoor(folders).door;
}

export const show = (study: string | null = null) => ask<"study.show">({ kind: "study.show", study });
export const make = (edit: Edit, study: string | null = null) =>
  ask<"edit.make">({ kind: "edit.make", study, who, edit });

export async function exported(
  what: "readings.csv" | "settings.json" | "results.json" | "record.csv",
  study: string | null = null,
) {
  // Monte Carlo is not what these tests are about.
  const { contentBase64 } = await ask<"export">({ kind: "export", study, what, choice: first, trials: 0 });
  return Buffer.from(contentBase64, "base64").toString();
}

export async function runs(study: string | null = null) {
  const { readingColumns, runs: all } = await ask<"runs.show">({ kind: "runs.show", study });
  const cell = (run: string, phase: string, column: string) =>
    all.find((one) => one.run === run)?.phases.find((one) => one.phase === phase)?.readings[
      readingColumns.indexOf(column)
    ];
  const id = (run: string) => all.find((one) => one.run === run)?.id ?? "";
  return { all, cell, id };
}

/** An edit of one cell, from what stands there now. */
export async function cellEdit(
  run: string,
  phase: "cold-start" | "simmer",
  column: string,
  text: string,
): Promise<Edit> {
  const { cell, id } = await runs();
  return {
    kind: "cells",
    run: id(run),
    cells: [{ phase, column, text, was: cell(run, phase, column) ?? "" }],
    why: null,
  };
}

export async function undoLast(study: string | null = null) {
  const { undo } = await ask<"study.state">({ kind: "study.state", study });
  return ask<"edit.undo">({ kind: "edit.undo", study, who, edit: undo?.edit ?? 1 });
}

const upload = (name: string, content: string | Buffer) => ({
  name,
  contentBase64: Buffer.from(content).toString("base64"),
});

export async function imported(
  csv: string | Buffer,
  into: { kind: "new"; studyName: string } | { kind: "open"; study: null },
) {
  const settings = into.kind === "new" ? upload("s.json", goodSettings) : null;
  const { importId } = await ask<"import.check">({ kind: "import.check", readings: upload("week.csv", csv), settings });
  return door.ask({ kind: "import.accept", importId, into, who });
}

/** The example's readings under other names of runs. */
export const otherRuns = good.toString().replaceAll(/^R(\d+),/gm, "M$1,");
