import { describe, expect, it } from "vitest";
import type { Edit } from "../../app/contract/index.ts";
import {
  ask,
  cellEdit,
  door,
  exported,
  first,
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
