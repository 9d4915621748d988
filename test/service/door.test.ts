import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { Door, Reply } from "../../app/contract/index.ts";
import { program } from "../../app/service/index.ts";
import { ownDoor } from "../build/own-door.ts";

const project = join(import.meta.dirname, "..", "..");
const first = { quantity: null, variant: null, baseline: null };
const file = (name: string, content: string | Buffer) => ({
  name,
  contentBase64: Buffer.from(content).toString("base64"),
});
const good = readFileSync(join(project, "sample-data", "good", "tall-kettle-stove.csv"));
const goodSettings = readFileSync(join(project, "sample-data", "good", "tall-kettle-stove.settings.json"));

const who = "Ama";
let service: ReturnType<typeof ownDoor>;
let door: Door;
beforeEach(() => {
  service = ownDoor();
  door = service.door;
});
afterEach(() => service.close());

/** A checked file as a new study. */
const asNew = (importId: unknown, studyName: string) => ({
  kind: "import.accept",
  importId,
  into: { kind: "new", studyName },
  who,
});

async function value(message: unknown): Promise<Record<string, unknown>> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(reply.message);
  return reply.value as unknown as Record<string, unknown>;
}

describe("the door", () => {
  const hostile: [string, unknown][] = [
    ["nothing", undefined],
    ["null", null],
    ["a text", "study.show"],
    ["a number", Number.NaN],
    ["a list", [{ kind: "study.show", study: null }]],
    ["no kind", {}],
    ["a kind that is none", { kind: "study.erase" }],
    ["a kind from the prototype", { kind: "constructor" }],
    ["a key too many", { kind: "study.show", study: null, path: "../../etc/passwd" }],
    ["an own key named __proto__", JSON.parse('{"kind":"study.show","__proto__":{"kind":"runs.show"}}')],
    ["a choice that is no object", { kind: "compare.show", study: null, choice: "taskFuel5L" }],
    [
      "a quantity that is too long",
      { kind: "compare.show", study: null, choice: { ...first, quantity: "x".repeat(501) } },
    ],
    ["a budget of a run that is a path", { kind: "budget.ofResult", study: null, run: "../1", quantity: "taskFuel5L" }],
    ["a budget without a quantity", { kind: "budget.ofResult", study: null, run: "1" }],
    [
      "a budget of a quantity that is too long",
      { kind: "budget.ofResult", study: null, run: "1", quantity: "x".repeat(501) },
    ],
    ["a budget of no choice", { kind: "budget.ofComparison", study: null, choice: null }],
    [
      "trials that the page sets",
      { kind: "monteCarlo.start", study: null, run: "1", quantity: "taskFuel5L", trials: 1e9 },
    ],
    ["trials of a run that is a number", { kind: "monteCarlo.start", study: null, run: 1, quantity: "taskFuel5L" }],
    [
      "trials of a quantity with a NUL",
      { kind: "monteCarlo.show", study: null, run: "1", quantity: "task\u0000Fuel5L" },
    ],
    [
      "trials of a study that is a path",
      { kind: "monteCarlo.cancel", study: "../x", run: "1", quantity: "taskFuel5L" },
    ],
    [
      "content that is not base64",
      { kind: "import.check", readings: { name: "a", contentBase64: "%%%" }, settings: null },
    ],
    ["a row below 1", { kind: "import.mend", importId: "x", cells: [], leaveOutRows: [0] }],
    ["a row that is no whole number", { kind: "import.mend", importId: "x", cells: [], leaveOutRows: [1.5] }],
    ["an export that is none", { kind: "export", study: null, what: "../report.pdf", choice: first }],
  ];
  for (const [what, message] of hostile) {
    it(`refuses ${what}, with a sentence, and goes on`, async () => {
      const reply = await door.ask(message);
      expect(reply).toMatchObject({ ok: false, reason: "refused" });
      if (!reply.ok) expect(reply.message).toMatch(/\.$/);
      expect((await door.ask({ kind: "study.show", study: null })).ok).toBe(true);
    });
  }

  it("refuses names that the study does not know", async () => {
    const asked: Reply[] = [
      await door.ask({ kind: "compare.show", study: null, choice: { ...first, quantity: "taskFuel6L" } }),
      await door.ask({ kind: "compare.show", study: null, choice: { ...first, variant: "__proto__" } }),
      await door.ask({ kind: "export", study: null, what: "runs.csv", choice: { ...first, baseline: "no such" } }),
      await door.ask(asNew("gone", "x")),
    ];
    for (const reply of asked) expect(reply).toMatchObject({ ok: false, reason: "refused" });
  });

  it("opens on the example, which says that it is invented", async () => {
    expect(await value({ kind: "study.show", study: null })).toMatchObject({
      isExample: true,
      runs: 25,
      leftOut: 1,
      method: "wbt",
    });
  });

  it("shows the preview of a prepared report, and none that was not prepared", async () => {
    const { previewPath } = (await value({ kind: "report.prepare", study: null, choice: first })) as {
      previewPath: string;
    };
    const id = previewPath.replace("preview/", "");
    expect(door.preview(id)?.html).toContain("<h1");
    expect(door.preview(id)?.contentSecurityPolicy).toContain("default-src 'none'");
    expect(door.preview("../study")).toBeNull();
  });
});

describe("blank sheets", () => {
  it("are as many as were asked for, and name the study and its wood", async () => {
    const asked = {
      kind: "sheets.print",
      study: null,
      sheets: 3,
      pots: 1,
      charAtHotStart: false,
      emissions: false,
      variants: { kind: "none" },
    };
    const { mediaType, contentBase64 } = await value(asked);
    expect(mediaType).toBe("application/pdf");
    const text = execFileSync("pdftotext", ["-layout", "-", "-"], {
      input: Buffer.from(String(contentBase64), "base64"),
    });
    expect(text.toString().match(/Sheet \d of 3/g)).toEqual(["Sheet 1 of 3", "Sheet 2 of 3", "Sheet 3 of 3"]);
    expect(text.toString()).toMatch(/eucalyptus, split, air-dried/);
    expect(await door.ask({ ...asked, sheets: 0 })).toMatchObject({ ok: false, reason: "refused" });
    expect(await door.ask({ ...asked, variants: { kind: "one", variant: "none of that name" } })).toMatchObject({
      ok: false,
      message: expect.stringContaining("no such variant"),
    });
  });

  it("go on with the study's runs, each variant in turn, where they are filled in", async () => {
    const form = { pots: 1, charAtHotStart: false, emissions: false };
    const asked = { kind: "sheets.print", study: null, sheets: 5, variants: { kind: "inTurn" }, ...form };
    const { contentBase64 } = await value(asked);
    const input = Buffer.from(String(contentBase64), "base64");
    const text = execFileSync("pdftotext", ["-layout", "-", "-"], { input }).toString();
    // The example has 25 runs, the last called R25, of four variants.
    expect(text.match(/Run R\d\d\b/g)).toEqual(["Run R26", "Run R27", "Run R28", "Run R29", "Run R30"]);
    // In the order in which the example's file first names them.
    const inOrder = ["no skirt, wide gap", "skirt, narrow gap", "no skirt, narrow gap", "skirt, wide gap"];
    expect(text.match(/(no skirt|skirt), (wide|narrow) gap/g)).toEqual([...inOrder, inOrder[0]]);
  });
});

describe("bringing in a file", () => {
  it("leaves the open study alone until it is accepted, then takes its place", async () => {
    const readings = file("week.csv", good);
    const checked = await value({ kind: "import.check", readings, settings: file("week.json", goodSettings) });
    expect(checked).toMatchObject({ acceptable: true, summary: { runs: 25, phases: 75, variants: 4 } });
    expect(await value({ kind: "study.show", study: null })).toMatchObject({ isExample: true });
    await value(asNew(checked.importId, "Second week"));
    expect(await value({ kind: "study.show", study: null })).toMatchObject({
      isExample: false,
      name: "Second week",
      runs: 25,
    });
  });

  it("refuses to accept a file with errors; mending the cell lets it in", async () => {
    const lines = good.toString().split("\r\n");
    const heading = lines[0]?.split(",") ?? [];
    const broken = good.toString().replace(",25 mm,", ",25 mm,x");
    const checked = (await value({ kind: "import.check", readings: file("b.csv", broken), settings: null })) as {
      importId: string;
      acceptable: boolean;
      problems: { severity: string; row: number; column: string; cell: string }[];
    };
    expect(checked.acceptable).toBe(false);
    const [error] = checked.problems.filter(({ severity }) => severity === "error");
    expect(error).toMatchObject({ row: 2, column: "start" });
    const { importId } = checked;
    expect(await door.ask(asNew(importId, "x"))).toMatchObject({ ok: false });
    const cells = [{ row: 2, column: heading.indexOf("start"), text: (error?.cell ?? "").replace("x", "") }];
    const mended = await value({ kind: "import.mend", importId, cells, leaveOutRows: [] });
    expect(mended).toMatchObject({ acceptable: true });
    expect(await door.ask(asNew(importId, "x"))).toMatchObject({ ok: true });
  });

  it("leaves rows out when told to, and takes them back", async () => {
    const checked = await value({ kind: "import.check", readings: file("a.csv", good), settings: null });
    const { importId } = checked;
    const without = await value({ kind: "import.mend", importId, cells: [], leaveOutRows: [2, 3, 4] });
    expect(without).toMatchObject({ summary: { runs: 24 } });
    const again = await value({ kind: "import.mend", importId, cells: [], leaveOutRows: [] });
    expect(again).toMatchObject({ summary: { runs: 25 } });
  });

  it("keeps what was mended and why a row was left out: in the study, and so in the report", async () => {
    const heading = good.toString().split("\r\n")[0]?.split(",") ?? [];
    const column = heading.indexOf("start");
    const broken = good.toString().replace(",25 mm,07:34,", ",25 mm,07:34x,").replace(",25 mm,08:13,", ",25 mm,noon,");
    const checked = await value({ kind: "import.check", readings: file("b.csv", broken), settings: null });
    const { importId } = checked;
    await value({ kind: "import.mend", importId, cells: [{ row: 2, column, text: "07:34" }], leaveOutRows: [3] });
    const study = await value(asNew(importId, "mended"));
    expect(study.notes).toContainEqual(expect.stringMatching(/b\.csv, row 2, start: “07:34x” was mended to “07:34”/));
    expect(study.leftOutRows).toMatchObject([
      { row: 3, reasons: [/hand/, /“noon”/].map((text) => expect.stringMatching(text)) },
    ]);
    const { contentBase64 } = await value({ kind: "export", study: null, what: "report.html", choice: first });
    const html = Buffer.from(String(contentBase64), "base64").toString();
    expect(html).toContain("was mended to");
    expect(html).toContain("“noon”");
  });

  it("asks about a fuel whose calorific value nobody gave", async () => {
    const checked = (await value({ kind: "import.check", readings: file("a.csv", good), settings: null })) as {
      problems: { rule: string; severity: string }[];
    };
    expect(checked.problems).toMatchObject([{ rule: "noCalorific", severity: "question" }]);
  });

  it("exports readings and settings that come back as the same study", async () => {
    const exported = async (what: string) =>
      (await value({ kind: "export", study: null, what, choice: first })) as { contentBase64: string };
    const before = [await exported("readings.csv"), await exported("settings.json"), await exported("runs.csv")];
    const [readings, settings] = before.map(({ contentBase64 }) => ({ name: "back", contentBase64 }));
    const checked = await value({ kind: "import.check", readings, settings });
    await value(asNew(checked.importId, "back"));
    const after = [await exported("readings.csv"), await exported("settings.json"), await exported("runs.csv")];
    expect(after.map(({ contentBase64 }) => contentBase64)).toEqual(before.map(({ contentBase64 }) => contentBase64));
  });
});

it("the program's version is that of package.json", () => {
  const { name, version } = JSON.parse(readFileSync(join(project, "package.json"), "utf8")) as Record<string, string>;
  expect({ name, version }).toEqual(program);
});
