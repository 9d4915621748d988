import { existsSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { StudyView } from "../../app/contract/index.ts";
import {
  ask,
  cellEdit,
  door,
  exported,
  first,
  folders,
  good,
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
    expect(await refusal({ kind: "backups.goBack", study: null, backup: "..", who })).toMatch(/backup/);
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
    await restart(() => truncateSync(whole.file, 30_000));
    const bytes = readFileSync(whole.file);
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
    let bytes = Buffer.alloc(0);
    await restart(() => {
      bytes = readFileSync(file);
      // One run's reading is another: found by its seal, whichever page it is on.
      bytes.write("A", bytes.indexOf(Buffer.from("a gust put the skirt")));
      writeFileSync(file, bytes);
    });
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
    await restart(() => expect(readFileSync(file).equals(bytes)).toBe(true));
  });

  it("a study that is gone is said to be gone", async () => {
    const { study, file } = await ask<"study.create">({ kind: "study.create", name: "Gone", method: "wbt", who });
    await restart(() => rmSync(file));
    expect(await refusal({ kind: "study.open", place: study })).toMatch(/no longer there|cannot be read/);
    expect((await ask<"shelf.show">({ kind: "shelf.show" })).studies).toContainEqual(
      expect.objectContaining({ place: study, isGone: true }),
    );
  });
});
