import { existsSync, readdirSync, readFileSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { Door, Edit, ReplyValues, Request, StudyView } from "../../app/contract/index.ts";
import type { UserFolders } from "../../app/service/index.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";

const project = join(import.meta.dirname, "..", "..");
const good = readFileSync(join(project, "sample-data", "good", "tall-kettle-stove.csv"));
const goodSettings = readFileSync(join(project, "sample-data", "good", "tall-kettle-stove.settings.json"));
const first = { quantity: null, variant: null, baseline: null };
const who = "Ama";

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

async function ask<K extends Request["kind"]>(message: Extract<Request, { kind: K }>): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(reply.message);
  return reply.value as ReplyValues[K];
}

async function refusal(message: Request): Promise<string> {
  const reply = await door.ask(message);
  if (reply.ok) throw new Error("not refused");
  expect(reply.reason).toBe("refused");
  return reply.message;
}

/** The program ends and starts again. */
async function restart(): Promise<void> {
  await door.close();
  door = ownDoor(folders).door;
}

const show = (study: string | null = null) => ask<"study.show">({ kind: "study.show", study });
const make = (edit: Edit, study: string | null = null) => ask<"edit.make">({ kind: "edit.make", study, who, edit });

async function exported(
  what: "readings.csv" | "settings.json" | "results.json" | "record.csv",
  study: string | null = null,
) {
  const { contentBase64 } = await ask<"export">({ kind: "export", study, what, choice: first });
  return Buffer.from(contentBase64, "base64").toString();
}

async function runs(study: string | null = null) {
  const { readingColumns, runs: all } = await ask<"runs.show">({ kind: "runs.show", study });
  const cell = (run: string, phase: string, column: string) =>
    all.find((one) => one.run === run)?.phases.find((one) => one.phase === phase)?.readings[
      readingColumns.indexOf(column)
    ];
  const id = (run: string) => all.find((one) => one.run === run)?.id ?? "";
  return { all, cell, id };
}

/** An edit of one cell, from what stands there now. */
async function cellEdit(run: string, phase: "cold-start" | "simmer", column: string, text: string): Promise<Edit> {
  const { cell, id } = await runs();
  return {
    kind: "cells",
    run: id(run),
    cells: [{ phase, column, text, was: cell(run, phase, column) ?? "" }],
    why: null,
  };
}

async function undoLast(study: string | null = null) {
  const { undo } = await ask<"study.state">({ kind: "study.state", study });
  return ask<"edit.undo">({ kind: "edit.undo", study, who, edit: undo?.edit ?? 1 });
}

const upload = (name: string, content: string | Buffer) => ({
  name,
  contentBase64: Buffer.from(content).toString("base64"),
});

async function imported(
  csv: string | Buffer,
  into: { kind: "new"; studyName: string } | { kind: "open"; study: null },
) {
  const settings = into.kind === "new" ? upload("s.json", goodSettings) : null;
  const { importId } = await ask<"import.check">({ kind: "import.check", readings: upload("week.csv", csv), settings });
  return door.ask({ kind: "import.accept", importId, into, who });
}

/** The example's readings under other names of runs. */
const otherRuns = good.toString().replaceAll(/^R(\d+),/gm, "M$1,");

describe("an edit", () => {
  it("is in the file when it is confirmed, and there after the program ended and started again", async () => {
    const before = await show();
    expect(before).toMatchObject({ isExample: true, readOnly: null });
    await expect.poll(async () => (await show()).looking).toBeNull();
    const { done } = await make(await cellEdit("R01", "cold-start", "pot1_end_g", "5400"));
    expect(done).toMatch(/R01.*“5427”.*“5400”/);
    await restart();
    const again = await show();
    expect(again).toMatchObject({ study: before.study, file: before.file, names: expect.arrayContaining([who]) });
    expect((await runs()).cell("R01", "cold-start", "pot1_end_g")).toBe("5400");
    expect(again.undo?.label).toMatch(/R01/);
    await undoLast();
    expect((await runs()).cell("R01", "cold-start", "pot1_end_g")).toBe("5427");
  });

  it("changes the results of its run, and what follows for the whole study, at once", async () => {
    const before = JSON.parse(await exported("results.json"));
    await make(await cellEdit("R01", "cold-start", "fuel_end_g", "800"));
    const after = JSON.parse(await exported("results.json"));
    const burnt = (results: { runs: { run: string; phases: { values: Record<string, { value: number }> }[] }[] }) =>
      results.runs.find(({ run }) => run === "R01")?.phases[0]?.values.burningRate?.value;
    expect(burnt(after)).not.toBe(burnt(before));
    expect(after.variants[0]).not.toEqual(before.variants[0]);
    expect(after.runs.slice(1)).toEqual(before.runs.slice(1));
  });

  it("takes both decimal signs, and nothing that could be a thousands separator", async () => {
    await make(await cellEdit("R01", "cold-start", "pot1_end_g", "5400,5"));
    expect((await runs()).cell("R01", "cold-start", "pot1_end_g")).toBe("5400.5");
    const edit = await cellEdit("R01", "cold-start", "pot1_end_g", "5,400.5");
    expect(await refusal({ kind: "edit.make", study: null, who, edit })).toMatch(/5,400\.5/);
  });

  const refused: [string, string, string, RegExp][] = [
    ["a text for a number", "pot1_end_g", "heavy", /heavy/],
    ["a negative mass", "pot1_end_g", "-5", /-5|negative/],
    ["a pot lighter than it is empty", "pot1_end_g", "100", /empty/],
    ["an end before its start", "end", "07:10", /./],
    ["more wood after than before", "fuel_end_g", "2000", /./],
    ["nothing where a reading is needed", "fuel_start_g", "", /./],
    ["an infinite number", "pot1_end_g", "1e999", /./],
    ["a formula", "pot1_end_g", "=1+1", /=1\+1/],
  ];
  for (const [what, column, text, sentence] of refused) {
    it(`refuses ${what} with a sentence, and changes nothing`, async () => {
      const before = await exported("readings.csv");
      const edit = await cellEdit("R01", "cold-start", column, text);
      const message = await refusal({ kind: "edit.make", study: null, who, edit });
      expect(message).toMatch(sentence);
      expect(message).not.toMatch(/\brow\b|\bfile\b/i);
      expect(await exported("readings.csv")).toBe(before);
      expect((await show()).undo).toBeNull();
    });
  }

  it("is refused where the cell was changed meanwhile, with what stands there now", async () => {
    const stale = await cellEdit("R01", "cold-start", "pot1_end_g", "5400");
    await make(await cellEdit("R01", "cold-start", "pot1_end_g", "5410"));
    expect(await refusal({ kind: "edit.make", study: null, who, edit: stale })).toMatch(/5427.*5410/);
    expect((await runs()).cell("R01", "cold-start", "pot1_end_g")).toBe("5410");
  });

  it("keeps who, when, what was, what is, and why", async () => {
    const edit = await cellEdit("R01", "cold-start", "pot1_end_g", "5400");
    if (edit.kind !== "cells") throw new Error("not an edit of cells");
    await make({ ...edit, why: "misread the sheet" });
    await undoLast();
    const history = await ask<"cell.history">({
      kind: "cell.history",
      study: null,
      run: edit.run,
      phase: "cold-start",
      column: "pot1_end_g",
    });
    expect(history.steps).toMatchObject([
      { before: "", after: "5427", way: "edit" },
      { before: "5427", after: "5400", who, why: "misread the sheet", way: "edit" },
      { before: "5400", after: "5427", who, way: "undo" },
    ]);
    for (const { at } of history.steps) expect(Math.abs(Date.now() - Date.parse(at))).toBeLessThan(60_000);
    const { edits } = await ask<"record.show">({ kind: "record.show", study: null, before: null });
    expect(edits.map(({ way }) => way).slice(0, 2)).toEqual(["undo", "edit"]);
  });

  it("is handed over with the whole record, a line for each cell that was changed", async () => {
    const edit = await cellEdit("R01", "cold-start", "pot1_end_g", "5400,5");
    if (edit.kind !== "cells") throw new Error("not an edit of cells");
    await make({ ...edit, why: "=misread, the sheet" });
    await make({ kind: "renameStudy", name: "Rainy week" });
    await undoLast();
    const lines = (await exported("record.csv")).trim().split("\r\n");
    expect(lines[0]).toBe("edit,at,who,way,what,run,phase,column,before,after,why");
    const [begun, taken, cell, renamed, back] = lines.slice(1);
    expect(begun).toMatch(/begun/);
    expect(taken).toMatch(/^2,.*,edit,25 runs taken in/);
    expect(cell).toMatch(/^3,[^,]+Z,Ama,edit,".*",R01,cold-start,pot1_end_g,5427,5400\.5,"'=misread, the sheet"$/);
    expect(renamed).toMatch(/^4,[^,]+Z,Ama,edit,/);
    expect(back).toMatch(/^5,[^,]+Z,Ama,undo,/);
  });

  it("leaves a run out with a reason, and lets it count again", async () => {
    const run = (await runs()).id("R01");
    const before = await exported("results.json");
    await make({ kind: "leaveOut", run, reason: "the wind took the flame" });
    expect((await show()).leftOutRuns).toContainEqual({ run: "R01", reason: "the wind took the flame" });
    expect(
      await refusal({ kind: "edit.make", study: null, who, edit: { kind: "leaveOut", run, reason: "x" } }),
    ).toMatch(/left out already/);
    await make({ kind: "bringBack", run, reason: "it did not" });
    expect(await exported("results.json")).toBe(before);
  });

  it("renames a run and the study; a name that is taken is refused", async () => {
    const run = (await runs()).id("R01");
    const rename = (text: string): Edit => ({
      kind: "cells",
      run,
      cells: [{ phase: null, column: "run", text, was: "R01" }],
      why: null,
    });
    expect(await refusal({ kind: "edit.make", study: null, who, edit: rename("R02") })).toMatch(/R02.*already/);
    await make(rename("First run"));
    expect((await runs()).id("First run")).toBe(run);
    await make({ kind: "renameStudy", name: "Rainy week" });
    expect(await show()).toMatchObject({ name: "Rainy week" });
    const { studies } = await ask<"shelf.show">({ kind: "shelf.show" });
    expect(studies).toMatchObject([{ name: "Rainy week", isGone: false }]);
  });

  it("moves a run to a variant that is new, and undo takes the variant away again", async () => {
    const before = (await show()).variants;
    const run = (await runs()).id("R01");
    const cells = [{ phase: null, column: "variant", text: "taller skirt", was: "no skirt, wide gap" }];
    await make({ kind: "cells", run, cells, why: null });
    expect((await show()).variants.map(({ name }) => name)).toContain("taller skirt");
    await undoLast();
    expect((await show()).variants).toEqual(before);
  });

  it("gives a moved run the levels of its new variant, and a new variant the levels of its first run", async () => {
    const move = async (text: string, was: string) =>
      make({
        kind: "cells",
        run: (await runs()).id("R01"),
        cells: [{ phase: null, column: "variant", text, was }],
        why: null,
      });
    const levels = async (name: string) => (await show()).variants.find((variant) => variant.name === name)?.factors;
    const narrow = await levels("skirt, narrow gap");
    await move("skirt, narrow gap", "no skirt, wide gap");
    expect(await levels("skirt, narrow gap")).toEqual(narrow);
    await move("taller skirt", "skirt, narrow gap");
    expect(await levels("taller skirt")).toEqual(narrow);
  });

  it("of a cell that there cannot be is refused", async () => {
    const run = (await runs()).id("R01");
    for (const [phase, column, was] of [
      ["high-power", "pot1_end_g", ""],
      [null, "pot1_end_g", "5427"],
    ] as const) {
      const edit: Edit = { kind: "cells", run, cells: [{ phase, column, text: "1", was }], why: null };
      expect(await refusal({ kind: "edit.make", study: null, who, edit })).toMatch(/cannot|not something/);
    }
  });

  it("may empty a needed cell of a run that is left out, whose results then say why they are missing", async () => {
    const run = (await runs()).id("R01");
    await make({ kind: "leaveOut", run, reason: "abandoned" });
    await make(await cellEdit("R01", "cold-start", "fuel_end_g", ""));
    const missing = (await runs()).all[0]?.phases[0]?.missing.find(({ quantity }) => quantity === "burningRate");
    expect(missing?.because).toBe("a reading that it needs was not recorded");
    const back: Edit = { kind: "bringBack", run, reason: "after all" };
    expect(await refusal({ kind: "edit.make", study: null, who, edit: back })).toMatch(/fuel after/);
  });

  it("needs a name, and a run that is there", async () => {
    const edit = await cellEdit("R01", "cold-start", "pot1_end_g", "5400");
    expect(await door.ask({ kind: "edit.make", study: null, who: "  ", edit })).toMatchObject({ ok: false });
    const gone = { ...edit, run: "987654321" } as Edit;
    expect(await refusal({ kind: "edit.make", study: null, who, edit: gone })).toMatch(/not in the study/);
  });

  const hostile: [string, string][] = [
    ["markup", "<img src=x onerror=alert(1)>"],
    ["quotes", `"'\`\\ -- ; DROP TABLE run`],
    ["right-to-left marks", "\u202Eevil\u2066name"],
    ["10,000 characters", "x".repeat(10_000)],
    ["__proto__", "__proto__"],
    ["a formula", "=HYPERLINK(1)"],
    ["an emoji of several parts", "👩🏾‍🔬"],
  ];
  for (const [what, name] of hostile) {
    it(`keeps a variant's name with ${what} as it is`, async () => {
      const run = (await runs()).id("R01");
      const cells = [{ phase: null, column: "variant", text: name, was: "no skirt, wide gap" }];
      await make({ kind: "cells", run, cells, why: null });
      await restart();
      expect((await runs()).all.find(({ id }) => id === run)?.variant).toBe(name);
      expect(await door.ask({ kind: "compare.show", study: null, choice: { ...first, variant: name } })).toMatchObject({
        ok: true,
      });
      await undoLast();
      expect((await runs()).all.find(({ id }) => id === run)?.variant).toBe("no skirt, wide gap");
    });
  }
  it("does not take a NUL or half a character into any text", async () => {
    for (const name of ["a\0b", "a\uD800b"]) {
      expect(await refusal({ kind: "edit.make", study: null, who, edit: { kind: "renameStudy", name } })).toMatch(
        /name/,
      );
    }
  });
});

describe("undo and redo", () => {
  it("go back over everything and forth again, across a restart, to the same bytes", async () => {
    await imported(good, { kind: "new", studyName: "A week" });
    const contents = [await exported("readings.csv")];
    const run = (await runs()).id("R02");
    const edits: Edit[] = [
      await cellEdit("R01", "cold-start", "pot1_end_g", "5400"),
      await cellEdit("R01", "simmer", "note", "sooty"),
      { kind: "leaveOut", run, reason: "rain" },
      await cellEdit("R01", "cold-start", "char_at_start_g", "3"),
      { kind: "renameStudy", name: "Another week" },
    ];
    for (const edit of edits) {
      await make(edit);
      contents.push(await exported("readings.csv"));
    }
    await imported(otherRuns, { kind: "open", study: null });
    contents.push(await exported("readings.csv"));
    for (const content of contents.toReversed().slice(1)) {
      await undoLast();
      expect(await exported("readings.csv")).toBe(content);
      await restart();
    }
    for (const content of contents.slice(1)) {
      const { redo } = await ask<"study.state">({ kind: "study.state", study: null });
      await ask<"edit.redo">({ kind: "edit.redo", study: null, who, edit: redo?.edit ?? 0 });
      expect(await exported("readings.csv")).toBe(content);
    }
  });

  it("is refused where another edit came since it was shown", async () => {
    await make(await cellEdit("R01", "cold-start", "pot1_end_g", "5400"));
    const { undo } = await show();
    await make(await cellEdit("R01", "cold-start", "pot1_end_g", "5410"));
    expect(await refusal({ kind: "edit.undo", study: null, who, edit: undo?.edit ?? 0 })).toMatch(/5400.*5410/);
  });
});

describe("studies", () => {
  it("are begun, listed, opened and kept apart", async () => {
    const one = await ask<"study.create">({ kind: "study.create", name: "One/../stove", method: "iso", who });
    expect(one).toMatchObject({ runs: 0, method: "iso", confidence: 0.9, isExample: false });
    expect(one.file).toBe(join(folders.studies, "One stove.boilstudy"));
    const two = await ask<"study.create">({ kind: "study.create", name: "Two", method: "wbt", who });
    await make({ kind: "renameStudy", name: "One, renamed" }, one.study);
    expect((await show(two.study)).name).toBe("Two");
    expect((await show(one.study)).name).toBe("One, renamed");
    const { studies, names } = await ask<"shelf.show">({ kind: "shelf.show" });
    expect(studies.map(({ place }) => place)).toEqual(expect.arrayContaining([one.study, two.study]));
    expect(names).toContain(who);
    await restart();
    expect((await ask<"study.open">({ kind: "study.open", place: one.study })).name).toBe("One, renamed");
    // A window that was open before the restart goes on where it was.
    expect((await show(two.study)).name).toBe("Two");
  });

  it("of one name get numbers, and nothing is overwritten", async () => {
    const create = () => ask<"study.create">({ kind: "study.create", name: "Same", method: "wbt", who });
    const files = [(await create()).file, (await create()).file, (await create()).file];
    expect(files.map((file) => file.slice(folders.studies.length + 1))).toEqual([
      "Same.boilstudy",
      "Same 2.boilstudy",
      "Same 3.boilstudy",
    ]);
  });

  it("are copied, with their record, to a file that opens alone", async () => {
    await make(await cellEdit("R01", "cold-start", "pot1_end_g", "5400"));
    const content = await exported("readings.csv");
    const { fileName } = await ask<"study.saveCopy">({ kind: "study.saveCopy", study: null, name: "For the funder" });
    expect(readdirSync(folders.studies)).toEqual([fileName.slice(folders.studies.length + 1)]);
    const copied = await ask<"export">({ kind: "export", study: null, what: "study", choice: first });
    const { study } = await ask<"study.receive">({
      kind: "study.receive",
      file: { name: "C:\\mail\\..\\stick.boilstudy", contentBase64: copied.contentBase64 },
    });
    expect(await exported("readings.csv", study)).toBe(content);
    const opened = await door.openFile(fileName);
    if (!opened.ok) throw new Error(opened.message);
    expect(await exported("readings.csv", opened.study)).toBe(content);
    await undoLast(opened.study);
    expect((await runs(opened.study)).cell("R01", "cold-start", "pot1_end_g")).toBe("5427");
  });

  it("take a further readings file in one step; runs that are there already are named, and nothing is taken", async () => {
    const before = await exported("readings.csv");
    const again = await imported(good, { kind: "open", study: null });
    expect(again).toMatchObject({ ok: false, reason: "refused" });
    if (!again.ok) expect(again.message).toMatch(/25 runs.*R01/);
    expect(await exported("readings.csv")).toBe(before);
    const taken = await imported(otherRuns, { kind: "open", study: null });
    if (!taken.ok) throw new Error(taken.message);
    expect(taken.value as StudyView).toMatchObject({ runs: 50, inputs: [{}, {}, {}] });
    await undoLast();
    expect(await exported("readings.csv")).toBe(before);
  });

  it("go back to a backup in one step, which can be undone", async () => {
    await make(await cellEdit("R01", "cold-start", "pot1_end_g", "5400"));
    const then = await exported("readings.csv");
    const { backups } = await ask<"backups.make">({ kind: "backups.make", study: null });
    expect(backups).toMatchObject([{ runs: 25 }]);
    await imported(otherRuns, { kind: "open", study: null });
    await make({ kind: "renameStudy", name: "Too far" });
    const now = await exported("readings.csv");
    const backup = backups[0]?.id ?? "";
    expect(await ask<"backups.goBack">({ kind: "backups.goBack", study: null, backup, who })).toMatchObject({
      runs: 25,
    });
    expect(await exported("readings.csv")).toBe(then);
    expect((await show()).name).not.toBe("Too far");
    await undoLast();
    expect(await exported("readings.csv")).toBe(now);
    expect(await refusal({ kind: "backups.goBack", study: null, backup: "..", who })).toMatch(/not there any more/);
  });
});

describe("files that are no whole study", () => {
  const received = (content: Buffer) => ({
    kind: "study.receive" as const,
    file: { name: "x.boilstudy", contentBase64: content.toString("base64") },
  });
  const table: [string, Buffer, RegExp][] = [
    ["an empty file", Buffer.alloc(0), /is empty/],
    ["a readings file", good, /not a study/],
    ["noise", Buffer.from("SQLite format 3\0".padEnd(5000, "?")), /not a study|damaged/],
  ];
  for (const [what, content, sentence] of table) {
    it(`${what} is refused with a sentence, and not kept`, async () => {
      expect(await refusal(received(content))).toMatch(sentence);
      expect(existsSync(folders.studies) ? readdirSync(folders.studies) : []).toEqual([]);
    });
  }

  it("a study cut short is never written to; its backup becomes a study of its own", async () => {
    const { study, file } = await ask<"study.create">({ kind: "study.create", name: "Cut", method: "wbt", who });
    await imported(good, { kind: "new", studyName: "Whole" });
    const whole = await show();
    await ask<"backups.make">({ kind: "backups.make", study: whole.study });
    await door.close();
    truncateSync(whole.file, 30_000);
    const bytes = readFileSync(whole.file);
    door = ownDoor(folders).door;
    const reply = await door.ask({ kind: "study.open", place: whole.study });
    if (reply.ok) expect((reply.value as StudyView).readOnly).toMatch(/damaged/);
    else expect(reply.message).toMatch(/damaged/);
    expect(readFileSync(whole.file).equals(bytes)).toBe(true);
    const { backups } = await ask<"backups.ofPlace">({ kind: "backups.ofPlace", place: whole.study });
    const backup = backups[0]?.id ?? "";
    const back = await ask<"backups.open">({ kind: "backups.open", place: whole.study, backup });
    expect(back).toMatchObject({ runs: 25, readOnly: null, name: "Whole" });
    expect(back.file).toMatch(/Whole backup of .*\.boilstudy$/);
    expect(await exported("readings.csv", back.study)).toMatch(/^run,variant/);
    // Another study is none the worse for it.
    expect(await show(study)).toMatchObject({ name: "Cut", file });
  });

  it("a study with a broken page shows what can be read of it, can be exported, and is never written to", async () => {
    await imported(good, { kind: "new", studyName: "Broken" });
    const { study, file } = await show();
    const whole = await exported("readings.csv", study);
    await door.close();
    const bytes = readFileSync(file);
    // One run's reading is another: found by its seal, whichever page it is on.
    const place = bytes.indexOf(Buffer.from("a gust put the skirt"));
    bytes.write("A", place);
    writeFileSync(file, bytes);
    door = ownDoor(folders).door;
    const opened = await ask<"study.open">({ kind: "study.open", place: study });
    expect(opened.readOnly).toMatch(/damaged.*backup/);
    expect(opened.fileNotes.join(" ")).toMatch(/run could not be read/);
    const names = (csv: string) => [
      ...new Set(
        csv
          .trim()
          .split("\r\n")
          .slice(1)
          .map((line) => line.split(",")[0]),
      ),
    ];
    expect(names(await exported("readings.csv", study))).toEqual(names(whole).filter((name) => name !== "R18"));
    expect(await refusal({ kind: "edit.make", study, who, edit: { kind: "renameStudy", name: "x" } })).toMatch(
      /damaged/,
    );
    await door.close();
    expect(readFileSync(file).equals(bytes)).toBe(true);
    door = ownDoor(folders).door;
  });

  it("a study that is gone is said to be gone", async () => {
    const { study, file } = await ask<"study.create">({ kind: "study.create", name: "Gone", method: "wbt", who });
    await door.close();
    writeFileSync(`${file}.moved`, readFileSync(file));
    const { rmSync } = await import("node:fs");
    rmSync(file);
    door = ownDoor(folders).door;
    expect(await refusal({ kind: "study.open", place: study })).toMatch(/no longer there|cannot be read/);
    expect((await ask<"shelf.show">({ kind: "shelf.show" })).studies).toContainEqual(
      expect.objectContaining({ place: study, isGone: true }),
    );
  });
});
