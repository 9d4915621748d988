import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Edit } from "../../app/contract/index.ts";
import {
  ask,
  cellEdit,
  door,
  exported,
  folders,
  imported,
  make,
  otherRuns,
  refusal,
  restart,
  runs,
  show,
  undoLast,
  who,
} from "./own-program.ts";

const because = "The scale was read twice.";

const questions = async () => (await ask<"questions.show">({ kind: "questions.show", study: null })).questions;

/** The study, once all of it has been looked at: until then no questions are told. */
async function looked() {
  await expect.poll(async () => (await show()).looking, { timeout: 10_000 }).toBeNull();
  return show();
}

/** The question of a rule about a run; null: about the whole study. */
async function asked(rule: string, run: string | null = "R03") {
  return (await questions()).find((one) => one.rule === rule && one.run === run);
}

/** Wood of no moisture at R03's cold start, which is asked about at its cell. */
async function questioned() {
  await make(await cellEdit("R03", "cold-start", "moisture_wet_percent", "0"));
  const found = await asked("moistureZero");
  if (found === undefined) throw new Error("nothing is asked");
  return found;
}

const answer = (question: string, reason = because): Edit => ({ kind: "answer", question, because: reason });
const reopen = (question: string): Edit => ({ kind: "reopen", question });
const redoLast = async () => {
  const { redo } = await ask<"study.state">({ kind: "study.state", study: null });
  return ask<"edit.redo">({ kind: "edit.redo", study: null, who, edit: redo?.edit ?? 1 });
};

describe("an answer", () => {
  it("closes the question everywhere, is told in words, and is there after a restart", async () => {
    const open = (await looked()).questions.length;
    const question = await questioned();
    expect(question).toMatchObject({ run: "R03", phase: "cold-start", column: "moisture_wet_percent", answer: null });
    expect(question.id).toMatch(/^[0-9a-f]{32}$/);
    expect((await looked()).questions.length).toBe(open + 1);
    const { done } = await make(answer(question.id));
    expect(done).toMatch(/question about run R03 answered/);

    await restart();
    const after = await asked("moistureZero");
    expect(after).toMatchObject({ id: question.id, message: question.message, answer: { because, who } });
    expect(Math.abs(Date.now() - Date.parse(after?.answer?.at ?? ""))).toBeLessThan(60_000);
    const view = await looked();
    expect(view.questions.length).toBe(open);
    expect(view.answeredQuestions).toMatchObject([{ id: question.id, answer: { because, who } }]);
    const { all } = await runs();
    const run = all.find((one) => one.run === "R03");
    expect([...(run?.questions ?? []), ...(run?.phases ?? []).flatMap((phase) => phase.questions)]).not.toContainEqual(
      expect.objectContaining({ rule: "moistureZero" }),
    );
  });

  it("is undone and done again like any edit", async () => {
    const question = await questioned();
    await make(answer(question.id));
    await undoLast();
    expect((await asked("moistureZero"))?.answer).toBeNull();
    await redoLast();
    expect((await asked("moistureZero"))?.answer).toMatchObject({ because, who });
  });

  it("given again stands in the place of the first, and undo brings the first back", async () => {
    const question = await questioned();
    await make(answer(question.id));
    await make(answer(question.id, "It was kiln-dried."));
    expect((await asked("moistureZero"))?.answer?.because).toBe("It was kiln-dried.");
    expect((await looked()).answeredQuestions).toHaveLength(1);
    await undoLast();
    expect((await asked("moistureZero"))?.answer?.because).toBe(because);
    expect(await refusal({ kind: "edit.make", study: null, who, edit: answer(question.id) })).toMatch(/already/);
  });

  it("is taken back: the question is open again, and that can be undone", async () => {
    const question = await questioned();
    await make(answer(question.id));
    const { done } = await make(reopen(question.id));
    expect(done).toMatch(/opened again/);
    expect((await asked("moistureZero"))?.answer).toBeNull();
    expect(await refusal({ kind: "edit.make", study: null, who, edit: reopen(question.id) })).toMatch(/open already/);
    await undoLast();
    expect((await asked("moistureZero"))?.answer).toMatchObject({ because });
  });

  it("of a question that is not asked is refused in words", async () => {
    for (const edit of [answer("0".repeat(32)), reopen("0".repeat(32))]) {
      expect(await refusal({ kind: "edit.make", study: null, who, edit })).toMatch(/not asked any more/);
    }
    expect((await show()).undo).toBeNull();
  });

  it("of the whole study stands as long as the same is said of it", async () => {
    await make({ kind: "renameStudy", name: "Kept" });
    const single = otherRuns
      .split("\n")
      .filter((line, index) => index === 0 || line.startsWith("M01,"))
      .map((line) => line.replace("no skirt, wide gap", "alone"))
      .join("\n");
    const taken = await imported(single, { kind: "open", study: null });
    if (!taken.ok) throw new Error(taken.message);
    const question = await asked("fewRuns", null);
    expect(question).toMatchObject({ runId: null, variant: "alone", answer: null });
    const { done } = await make(answer(question?.id ?? ""));
    expect(done).toMatch(/question about the study answered/);
    expect((await asked("fewRuns", null))?.answer).toMatchObject({ because });
    const { answeredQuestions } = JSON.parse(await exported("results.json"));
    expect(answeredQuestions).toMatchObject([{ variant: "alone", because, who }]);
  });
});

describe("an answer holds for what the cell held", () => {
  it("falls away when the reading is changed, and is there again when that is undone or changed back", async () => {
    const question = await questioned();
    await make(answer(question.id));
    await make(await cellEdit("R03", "cold-start", "moisture_wet_percent", "45"));
    expect((await questions()).filter((one) => one.answer !== null)).toEqual([]);
    expect((await looked()).answeredQuestions).toEqual([]);
    await undoLast();
    expect((await asked("moistureZero"))?.answer).toMatchObject({ because });
    await make(await cellEdit("R03", "cold-start", "moisture_wet_percent", "12"));
    expect(await asked("moistureZero")).toBeUndefined();
    await make(await cellEdit("R03", "cold-start", "moisture_wet_percent", "0"));
    expect((await asked("moistureZero"))?.answer).toMatchObject({ because });
  });

  it("is not moved by other cells, other runs or another name of the run", async () => {
    const question = await questioned();
    await make(answer(question.id));
    await make(await cellEdit("R03", "cold-start", "wind", "strong"));
    const { id } = await runs();
    const cells = [{ phase: null, column: "run", text: "R03b", was: "R03" }];
    await make({ kind: "cells", run: id("R03"), cells, why: null });
    expect(await asked("moistureZero", "R03b")).toMatchObject({ id: question.id, answer: { because } });
  });

  it("about a whole phase holds for its readings, whatever other runs come to be, and not for others of them", async () => {
    const taken = await imported(otherRuns, { kind: "open", study: null });
    if (!taken.ok) throw new Error(taken.message);
    const question = await asked("sameReadings", "M03");
    expect(question).toMatchObject({ column: null, phase: "cold-start" });
    await make(answer(question?.id ?? ""));
    const stands = async (run = "M03") => (await asked("sameReadings", run))?.answer?.because;
    const { id } = await runs();
    const cells = [{ phase: null, column: "run", text: "R03b", was: "R03" }];
    await make({ kind: "cells", run: id("R03"), cells, why: null });
    expect((await asked("sameReadings", "M03"))?.message).toContain("R03b");
    expect(await stands()).toBe(because);
    await make(await cellEdit("M03", "cold-start", "note", "seen again"));
    expect(await stands()).toBe(because);
    await make(await cellEdit("M03", "cold-start", "air_C", "19"));
    expect(await stands()).toBeUndefined();
  });

  it("is for this cell alone: the same reading elsewhere is asked about anew", async () => {
    const question = await questioned();
    await make(answer(question.id));
    await make(await cellEdit("R04", "cold-start", "moisture_wet_percent", "0"));
    const other = await asked("moistureZero", "R04");
    expect(other?.id).not.toBe(question.id);
    expect(other?.answer).toBeNull();
  });
});

describe("what is made of a study", () => {
  it("results.json has open questions where they were, and answered ones beside them only where there are any", async () => {
    const question = await questioned();
    type Entry = { run: string; questions: { column: string }[]; answeredQuestions?: unknown[] };
    const entry = async () =>
      (JSON.parse(await exported("results.json")).runs as Entry[]).find(({ run }) => run === "R03");
    const before = await entry();
    expect(before?.questions.map(({ column }) => column)).toContain("moisture_wet_percent");
    expect(before).not.toHaveProperty("answeredQuestions");
    await make(answer(question.id));
    const after = await entry();
    expect(after?.questions.map(({ column }) => column)).not.toContain("moisture_wet_percent");
    expect(after?.answeredQuestions).toEqual([
      {
        phase: "cold-start",
        column: "moisture_wet_percent",
        message: question.message,
        because,
        who,
        at: (await asked("moistureZero"))?.answer?.at,
      },
    ]);
    const whole = JSON.parse(await exported("results.json"));
    expect(whole).not.toHaveProperty("answeredQuestions");
    expect((whole.runs as Entry[]).filter((run) => run.answeredQuestions !== undefined)).toHaveLength(1);
  });

  it("the command line gives the same of the study file: results, and the report's annex", async () => {
    const question = await questioned();
    await make(answer(question.id));
    const here = JSON.parse(await exported("results.json"));
    const { file } = await show();
    const out = join(folders.data, "out");
    const command = join(import.meta.dirname, "..", "..", "app", "cli", "boilbench.cjs");
    await restart(() => {
      const { status, stderr } = spawnSync(
        process.execPath,
        [command, "analyse", file, "--trials", "0", "--out", out],
        {
          encoding: "utf8",
        },
      );
      expect(stderr).toBe("");
      expect(status).toBe(0);
    });
    expect(JSON.parse(readFileSync(join(out, "results.json"), "utf8")).runs).toEqual(here.runs);
    const report = readFileSync(join(out, "report.html"), "utf8");
    expect(report).toContain("Answered questions");
    expect(report).toMatch(/R03.*It is right, because: The scale was read twice\. \(Ama, \d{4}-\d\d-\d\d\)/);
  });

  it("the record says who answered what, and why", async () => {
    const question = await questioned();
    await make(answer(question.id));
    const { edits } = await ask<"record.show">({ kind: "record.show", study: null, before: null });
    expect(edits[0]).toMatchObject({ who, why: because, what: expect.stringMatching(/R03 answered/) });
    expect(await exported("record.csv")).toMatch(/answered/);
  });
});

describe("an answer about a run goes with it", () => {
  it("when its import is undone", async () => {
    const taken = await imported(otherRuns, { kind: "open", study: null });
    if (!taken.ok) throw new Error(taken.message);
    const question = await asked("sameReadings", "M03");
    await make(answer(question?.id ?? ""));
    await undoLast();
    await undoLast();
    expect((await show()).runs).toBe(25);
    expect((await questions()).filter(({ run }) => run === "M03")).toEqual([]);
    await redoLast();
    await redoLast();
    expect((await asked("sameReadings", "M03"))?.answer).toMatchObject({ because });
  });

  it("when the study goes back to a backup from before it, and comes back with undo", async () => {
    const { backups } = await ask<"backups.make">({ kind: "backups.make", study: null });
    const kept = await questioned();
    await make(answer(kept.id));
    const taken = await imported(otherRuns, { kind: "open", study: null });
    if (!taken.ok) throw new Error(taken.message);
    const question = await asked("sameReadings", "M03");
    await make(answer(question?.id ?? ""));
    const view = await ask<"backups.goBack">({
      kind: "backups.goBack",
      study: null,
      backup: backups[0]?.id ?? "",
      who,
    });
    expect(view.runs).toBe(25);
    expect((await looked()).answeredQuestions).toEqual([]);
    await undoLast();
    expect((await asked("sameReadings", "M03"))?.answer).toMatchObject({ because });
    expect((await asked("moistureZero"))?.answer).toMatchObject({ because });
    await restart();
    expect((await asked("sameReadings", "M03"))?.answer).toMatchObject({ because });
  });

  it("and a file with answers can be copied and read elsewhere", async () => {
    const question = await questioned();
    await make(answer(question.id));
    const copy = await ask<"export">({
      kind: "export",
      study: null,
      what: "study",
      choice: { quantity: null, variant: null, baseline: null },
    });
    const received = await door.ask({
      kind: "study.receive",
      file: { name: "copy.boilstudy", contentBase64: copy.contentBase64 },
    });
    if (!received.ok) throw new Error(received.message);
    expect((await looked()).answeredQuestions).toMatchObject([{ id: question.id, answer: { because } }]);
  });
});
