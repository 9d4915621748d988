import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { copyFileSync, rmSync } from "node:fs";
import { DatabaseSync } from "node:sqlite";
import { setTimeout } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import type { StudyDatabase } from "../../../app/store/index.ts";
import { seededGenerator } from "../../../core/index.ts";
import { createStudy, newPaths, note, openStudy, phaseOf, runOf, verifyAll } from "./sample.ts";

/**
 * Processes that edit a study are killed at random moments, 300 in all. What this proves: an edit that was confirmed survives the
 * death of the process at any moment, and the file needs nobody's help. What it does not prove: that it survives a loss of power,
 * for which the disk must have kept what it said it had.
 */
const kills = 300;
const lanes = 2;
/** A new file after so many kills. */
const killsPerFile = 30;

const program = fileURLToPath(new URL("./edit-stream.ts", import.meta.url));
const newPath = newPaths();

function newStudy(): string {
  const path = newPath();
  const study = createStudy(path);
  study.edit(note("import"), [
    { subject: "variant", item: 1, after: { name: "Rocket", position: 0, levels: new Map() } },
    { subject: "run", item: 1, after: runOf("R1", 0, [phaseOf("simmer", [["char_g", 1, 30]], [["note", "x"]])]) },
  ]);
  study.close();
  return path;
}

interface Confirmed {
  readonly edit: number;
  readonly value: number;
}

/**
 * Where Node keeps what it compiled: a child then starts in a third of the time. Node fills it at the end of a process, so one
 * is let to its end first.
 */
const environment = { ...process.env, NODE_COMPILE_CACHE: `${newPath()}-compiled` };

async function fillCache(): Promise<void> {
  const child = spawn(process.execPath, ["--no-warnings", program, newStudy(), "1", "1"], { env: environment });
  expect(await once(child, "close")).toEqual([0, null]);
}

/** A child and the lines that it has written. */
class Stream {
  readonly child: ChildProcess;
  #text = "";

  constructor(path: string, seed: number) {
    this.child = spawn(process.execPath, ["--no-warnings", program, path, String(seed)], {
      env: environment,
      stdio: ["pipe", "pipe", "inherit"],
    });
    this.child.stdout?.on("data", (data: Buffer) => {
      this.#text += data.toString();
    });
  }

  /** Whole lines: one that was cut short was not confirmed. */
  get lines(): readonly string[] {
    return this.#text.split("\n").slice(0, -1);
  }

  get confirmed(): Confirmed[] {
    const edits = this.lines.filter((line) => line !== "paused").map((line) => line.split(" ").map(Number));
    return edits.map(([edit = Number.NaN, value = Number.NaN]) => ({ edit, value }));
  }

  async until(isSo: () => boolean): Promise<void> {
    while (!isSo()) {
      if (this.child.exitCode !== null) throw new Error(`the stream ended with ${this.child.exitCode}`);
      await once(this.child.stdout ?? this.child, "data");
    }
  }

  async kill(): Promise<void> {
    const closed = once(this.child, "close");
    this.child.kill("SIGKILL");
    await closed;
    expect(this.child.signalCode).toBe("SIGKILL");
  }
}

const charOf = (study: StudyDatabase): number | undefined => study.run(1).phases[0]?.readings.get("char_g")?.value;

/** All that was confirmed is there with its values, and the file is whole. Gives the number of the last edit. */
function checkFile(path: string, confirmed: readonly Confirmed[], editBefore: number): number {
  const study = openStudy(path);
  const last = study.record(1)[0]?.edit ?? 0;
  for (const { edit, value } of confirmed) {
    const after = study.changesOf(edit).find(({ subject }) => subject === "reading")?.after;
    expect(after, `edit ${edit}`).toMatchObject({ value });
  }
  // One edit may be on disk whose confirmation was cut off, and no more.
  const lastConfirmed = confirmed.at(-1)?.edit ?? editBefore;
  expect([lastConfirmed, lastConfirmed + 1]).toContain(last);
  const now = study.changesOf(last).find(({ subject }) => subject === "reading")?.after as
    | { value: number }
    | undefined;
  expect(charOf(study)).toBe(now?.value ?? 30);
  verifyAll(study);
  study.close();
  const database = new DatabaseSync(path, { readOnly: true });
  expect({ ...database.prepare("PRAGMA integrity_check").get() }).toEqual({ integrity_check: "ok" });
  database.close();
  return last;
}

/** The file alone, copied while its process lives and has it open, opens whole and has every confirmed edit. */
async function checkCopy(path: string, stream: Stream, editBefore: number): Promise<void> {
  stream.child.stdin?.write("pause\n");
  await stream.until(() => stream.lines.at(-1) === "paused");
  const copy = newPath();
  copyFileSync(path, copy);
  const confirmed = stream.confirmed;
  expect(checkFile(copy, confirmed, editBefore)).toBe(confirmed.at(-1)?.edit);
  rmSync(copy);
  stream.child.stdin?.write("go\n");
  await stream.until(() => stream.confirmed.length > confirmed.length);
}

async function runLane(lane: number): Promise<{ kills: number; confirmed: number; copies: number }> {
  const { uniform } = seededGenerator(20_261_125 + lane);
  const done = { kills: 0, confirmed: 0, copies: 0 };
  let path = "";
  let last = 0;
  for (; done.kills < kills / lanes; done.kills += 1) {
    if (done.kills % killsPerFile === 0) {
      path = newStudy();
      last = 2;
    }
    const stream = new Stream(path, 1 + Math.floor(uniform() * 1e9));
    // One in eight dies before it has confirmed anything: while it starts, opens, or makes its first edit.
    if (done.kills % 8 === 7) await setTimeout(uniform() * 150);
    else {
      await stream.until(() => stream.confirmed.length > 0);
      if (done.kills % 10 === 0) {
        await checkCopy(path, stream, last);
        done.copies += 1;
      }
      await setTimeout(uniform() * 60);
    }
    await stream.kill();
    last = checkFile(path, stream.confirmed, last);
    done.confirmed += stream.confirmed.length;
  }
  return done;
}

test(`${kills} kills while edits stream in: every confirmed edit is there, the file is whole, and so is a copy between edits`, async () => {
  await fillCache();
  const done = await Promise.all(Array.from({ length: lanes }, (_, lane) => runLane(lane)));
  const total = (of: "kills" | "confirmed" | "copies"): number => done.reduce((sum, lane) => sum + lane[of], 0);
  expect(total("kills")).toBe(kills);
  expect(total("copies")).toBeGreaterThanOrEqual(30);
  // Edits were streaming in when the processes died; on a busy machine they are fewer.
  expect(total("confirmed")).toBeGreaterThan(kills);
}, 400_000);
