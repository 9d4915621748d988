import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Door, Edit, ReplyValues, Request } from "../../app/contract/index.ts";

/** What tests ask a door, and what they ask it about. */

const folder = join(import.meta.dirname, "..", "..", "sample-data", "good");
export const readings = readFileSync(join(folder, "tall-kettle-stove.csv"), "utf8");
export const settings = readFileSync(join(folder, "tall-kettle-stove.settings.json"), "utf8");
export const firstChoice = { quantity: null, variant: null, baseline: null };
export const who = "Ama";

export const upload = (name: string, content: string | Uint8Array) => ({
  name,
  contentBase64: Buffer.from(content).toString("base64"),
});

export async function ask<K extends Request["kind"]>(
  door: Door,
  message: Extract<Request, { kind: K }>,
): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(`${reply.reason}: ${reply.message}`);
  return reply.value as ReplyValues[K];
}

/** The sentence of a refusal; an error where the request was done, or failed. */
export async function refusal(door: Door, message: Request): Promise<string> {
  const reply = await door.ask(message);
  if (reply.ok) throw new Error("not refused");
  if (reply.reason !== "refused") throw new Error(`${reply.reason}: ${reply.message}`);
  return reply.message;
}

export const makeEdit = (door: Door, study: string | null, edit: Edit) =>
  ask<"edit.make">(door, { kind: "edit.make", study, who, edit });

export const rename = (name: string): Edit => ({ kind: "renameStudy", name });

export async function undo(door: Door, study: string | null) {
  const state = await ask<"study.state">(door, { kind: "study.state", study });
  return ask<"edit.undo">(door, { kind: "edit.undo", study, who, edit: state.undo?.edit ?? 0 });
}

/** Takes readings in as a new study. */
export async function taken(door: Door, name: string, csv = readings, settingsFile: string | null = settings) {
  const { importId } = await ask<"import.check">(door, {
    kind: "import.check",
    readings: upload("week.csv", csv),
    settings: settingsFile === null ? null : upload("s.json", settingsFile),
  });
  return ask<"import.accept">(door, { kind: "import.accept", importId, into: { kind: "new", studyName: name }, who });
}

/** What stands in a cell now, and the edit that puts another text there. */
export async function cellEdit(
  door: Door,
  study: string | null,
  run: string,
  phase: "cold-start" | "hot-start" | "simmer" | null,
  column: string,
  text: string,
): Promise<{ readonly was: string; readonly edit: Edit }> {
  const { runs, readingColumns } = await ask<"runs.show">(door, { kind: "runs.show", study });
  const found = runs.find((one) => one.run === run);
  const cells = found?.phases.find((one) => one.phase === phase)?.readings;
  const ofRun = { run: found?.run, variant: found?.variant, date: found?.date, operator: found?.operator };
  const order = found?.order === null || found === undefined ? "" : String(found.order);
  const was =
    phase === null
      ? column === "order"
        ? order
        : (ofRun[column as keyof typeof ofRun] ?? "")
      : (cells?.[readingColumns.indexOf(column)] ?? "");
  return { was, edit: { kind: "cells", run: found?.id ?? "0", cells: [{ phase, column, text, was }], why: null } };
}
