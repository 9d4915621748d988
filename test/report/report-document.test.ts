import { describe, expect, it } from "vitest";
import { analyseStudy, type StudyResults } from "../../core/analysis/study-results.ts";
import { buildReport, firstChoice } from "../../core/report/build-report.ts";
import type { ReportBlock, ReportDocument, ReportTable } from "../../core/report/report-document.ts";
import type { ReportChoice, StudyProvenance } from "../../core/report/report-request.ts";
import { wordsFor } from "../../core/words/index.ts";
import { buildStudy, plainRun } from "../build/readings.ts";
import {
  analysed,
  baselineA,
  duration,
  longerB,
  longerF,
  openC,
  openE,
  provenance,
  runsOf,
  shorterD,
} from "./duration-study.ts";

const words = wordsFor("en").report;

/** Spaces that hold numbers together, as ordinary ones. */
const plain = (text: string) => text.replaceAll(/[\u00a0\u202f]/g, " ");

function textsOf(block: ReportBlock): string[] {
  switch (block.kind) {
    case "heading":
    case "paragraph":
      return [block.text];
    case "list":
      return [...block.items];
    case "aside":
      return [block.title, ...block.texts];
    case "chart":
      return [block.caption];
    case "table":
      return [
        block.table.caption,
        ...block.table.columns.map(({ label }) => label),
        ...block.table.rows.flat(),
        block.table.note ?? "",
      ];
  }
}

/** All that stands under one heading, up to the next. */
function section(document: ReportDocument, heading: string): string {
  const start = document.blocks.findIndex((block) => block.kind === "heading" && block.text === heading);
  if (start === -1) throw new Error(`no heading ${heading}`);
  const rest = document.blocks.slice(start + 1);
  const end = rest.findIndex((block) => block.kind === "heading" && block.level === 2);
  return plain((end === -1 ? rest : rest.slice(0, end)).flatMap(textsOf).join("\n"));
}

function table(document: ReportDocument, caption: RegExp): ReportTable {
  const found = document.blocks.flatMap((block) => (block.kind === "table" ? [block.table] : []));
  const one = found.find((each) => caption.test(each.caption));
  if (one === undefined) throw new Error(`no table ${caption}`);
  return one;
}

const rowOf = (one: ReportTable, first: string) => one.rows.find(([name]) => name === first)?.map(plain);
const lead = (document: ReportDocument) => plain(document.lead.join(" "));

/** What is said before relying on the finding; "" where nothing is. */
function toKnow(document: ReportDocument): string {
  const aside = document.blocks.find((block) => block.kind === "aside" && block.tone === "attention");
  return aside?.kind === "aside" ? plain(aside.texts.join("\n")) : "";
}

const against = (baseline: string, variant: string | null = null): ReportChoice => ({
  key: duration,
  variant,
  baseline,
});
const reportOf = (
  results: StudyResults,
  choice: ReportChoice = against("A"),
  more: Partial<StudyProvenance> = {},
): ReportDocument => buildReport(results, { ...provenance, ...more }, choice);

describe("the report of two variants", () => {
  const document = reportOf(analysed([...baselineA, ...longerB]));

  it("asks its question and answers it: direction, size, both names, interval, runs", () => {
    expect(document.question).toMatch(/“B”.*“A”.*duration, cold start\?$/);
    expect(plain(document.finding)).toMatch(/^“B” took 48 % more time.*“A”\.$/);
    // 1.34125 to 1.63046, R (see duration-study.ts)
    expect(lead(document)).toMatch(/95 % interval is 34 to 63 % more, from 3 runs against 3/);
  });

  it("shows each variant's mean with its interval, and its runs", () => {
    // t(0.975, 2) = 4.3027 (tables of Student's t), so 4.3027 * 1 / sqrt(3) = 2.48
    const variants = table(document, new RegExp(`^${words.variantsTable}$`));
    expect(rowOf(variants, "A")?.slice(0, 3)).toEqual(["A", "3", "21.0 ± 2.5"]);
    expect(rowOf(variants, "B")?.slice(0, 3)).toEqual(["B", "3", "31.0 ± 2.5"]);
    expect(rowOf(variants, "B")?.[3]).toMatch(/^48 % more \(34 to 63 % more\)$/);
  });

  it("gives Welch's and Fieller's numbers in the annex", () => {
    // R 4.2.2: t.test(B, A): 10, 7.7330 to 12.2670, t = 12.247, df = 4, p = 0.00025522; ratio as above.
    const row = rowOf(table(document, /Differences/), "B");
    expect(row).toEqual(["B", "10.0 (7.7 to 12.3)", "1.476 (1.341 to 1.630)", "12.25", "4.0", "0.00026"]);
  });

  it("draws every run in the unit that the axis names", () => {
    const chart = document.blocks.find((block) => block.kind === "chart");
    if (chart?.kind !== "chart" || chart.chart.kind !== "runs-and-change") throw new Error("no chart");
    expect(chart.chart.valueTitle).toContain("min");
    const rows = chart.chart.rows.map((row) => [row.variant, row.isBaseline, row.runs.map(({ value }) => value)]);
    expect(rows).toEqual([
      ["A", true, [20, 21, 22]],
      ["B", false, [30, 31, 32]],
    ]);
  });

  it("turns round with the baseline", () => {
    // 1 / 1.47619 = 0.677: 32 % less
    const turned = reportOf(analysed([...baselineA, ...longerB]), against("B"));
    expect(plain(turned.finding)).toMatch(/^“A” took 32 % less time.*“B”\.$/);
  });
});

describe("the report of several variants", () => {
  const of = (...groups: (typeof baselineA)[]) => reportOf(analysed([...baselineA, ...groups.flat()]));

  it("where all differ the same way, says so of all", () => {
    const document = of(longerB, longerF);
    expect(document.finding).toMatch(/^(Both|All 2)\b.*more time.*“A”\.$/);
    expect(document.finding).not.toMatch(/cannot|less/);
    expect(lead(document)).toContain("34 to 63 % more");
    expect(lead(document)).toContain("77 to 116 % more");
  });

  it("where none can be told from the baseline, says so, and gives the size of what cannot be seen", () => {
    const document = of(openC, openE);
    expect(document.finding).toMatch(/cannot tell/);
    expect(document.finding).not.toMatch(/more time|less time/);
    expect(lead(document)).toContain("between 22 % less and 30 % more");
    expect(lead(document)).toContain("between 11 % less and 19 % more");
  });

  it("where they differ, counts each kind", () => {
    const document = of(longerB, openC, shorterD, longerF);
    const finding = plain(document.finding);
    expect(finding).toMatch(/^Of 4\b/);
    expect(finding).toMatch(/1 took less time/);
    expect(finding).toMatch(/2 took more time/);
    expect(finding).toMatch(/1 cannot be told/);
    expect(finding).toContain("“A”");
    expect(lead(document)).toMatch(/“D”[^;]*37 to 57 % less/);
    expect(lead(document)).toMatch(/“C”[^;]*between 22 % less and 30 % more/);
  });

  it("warns that the intervals are not widened for several comparisons", () => {
    expect(toKnow(of(longerB, openC, shorterD))).toMatch(/3 variants .*“A”.*not widened/);
    expect(toKnow(reportOf(analysed([...baselineA, ...longerB])))).not.toMatch(/not widened/);
  });

  it("leads with the one pair that was asked for", () => {
    const results = analysed([...baselineA, ...longerB, ...shorterD]);
    const document = reportOf(results, against("A", "D"));
    expect(plain(document.finding)).toMatch(/^“D” took 48 % less time.*“A”\.$/);
    // Every variant is in the table and the annex all the same.
    expect(table(document, /Differences/).rows.map(([name]) => name)).toEqual(["B", "D"]);
  });
});

describe("the report where little can be said", () => {
  it("of one variant gives its mean and interval, and compares nothing", () => {
    const document = reportOf(analysed(baselineA));
    // R 4.2.2: t.test(c(20, 21, 22)): 18.516 to 23.484
    expect(plain(document.finding)).toMatch(/“A”.*21\.0 min\.$/);
    expect(lead(document)).toMatch(/18\.5 to 23\.5 min, from 3 runs/);
    expect(lead(document)).toMatch(/nothing to compare/);
    expect(document.finding).not.toMatch(/more|less/);
  });

  it("of one run gives the value and says that there is no interval", () => {
    const document = reportOf(analysed(baselineA.slice(0, 1)));
    expect(plain(document.finding)).toMatch(/20\.0 min\.$/);
    expect(lead(document)).toMatch(/1 run; no interval/);
    expect(plain(document.finding + lead(document))).not.toContain("±");
  });

  it("of one run against three gives the size, not how sure, and warns", () => {
    const document = reportOf(analysed([...baselineA, ...longerB.slice(0, 1)]));
    // 30 / 21 = 1.4286
    expect(plain(document.finding)).toMatch(/43 % more time.*how sure that is cannot be said/);
    expect(toKnow(document)).toMatch(/“B” has one run/);
    expect(rowOf(table(document, /Differences/), "B")?.slice(3)).toEqual(["–", "–", "–"]);
  });

  it("where nothing was computed says so, and why, without an empty chart or table", () => {
    const results = analysed([{ run: "R1", variant: "A", phases: [] }]);
    const choice = firstChoice(results);
    expect(choice.key).toBeNull();
    const document = reportOf(results, choice);
    expect(document.finding).toMatch(/no result/);
    expect(document.lead.join(" ")).toMatch(/annex/);
    expect(document.blocks.some(({ kind }) => kind === "chart")).toBe(false);
    expect(() => table(document, /Differences/)).toThrow();
    expect(section(document, words.missing)).toMatch(/R1: .*no cold start phase/);
  });

  it("where every run was left out says that, with the reasons", () => {
    const results = analysed(runsOf("A", [20, 21], { leftOut: "the lid was on" }));
    const document = reportOf(results, firstChoice(results));
    expect(plain(`${document.finding} ${lead(document)}`)).toMatch(/left out/);
    expect(section(document, words.leftOut)).toMatch(/A1.*the lid was on[\s\S]*A2.*the lid was on/);
  });
});

describe("the report names what weakens or bounds it", () => {
  it("what was left out, with each reason: runs and rows", () => {
    const results = analysed([
      ...baselineA,
      ...longerB,
      ...runsOf("X", [90], { variant: "B", leftOut: "pot tipped over" }),
    ]);
    const leftOutRows = [
      { file: "readings.csv", row: 17, run: "B9", phase: "cold-start", reasons: ["end before start"] },
    ];
    const document = reportOf(results, against("A"), { leftOutRows });
    const said = section(document, words.leftOut);
    expect(said).toMatch(/X1.*“B”.*pot tipped over/);
    expect(said).toMatch(/readings\.csv.*17.*end before start/);
    // It counts nowhere: B's mean is still 31 from 3 runs.
    expect(rowOf(table(document, new RegExp(`^${words.variantsTable}$`)), "B")?.slice(0, 3)).toEqual([
      "B",
      "3",
      "31.0 ± 2.5",
    ]);
    expect(plain(document.finding)).toContain("48 % more");
    expect(section(document, words.runByRun)).toMatch(/X1\nB\n(.*\n)?left out/);
  });

  it("what is not finished yet, apart from what was left out", () => {
    const making = runsOf("X", [90, 91], { variant: "B", leftOut: "being made" });
    const results = analysed([...baselineA, ...longerB, ...making, ...runsOf("Y", [80], { leftOut: "rain" })]);
    const ids = results.runs.filter(({ run }) => run.name.startsWith("X")).map(({ run }) => run.id);
    expect(ids).toHaveLength(2);
    const document = reportOf(results, against("A"), { runsOnBench: ids });
    const said = section(document, words.leftOut);
    expect(said).toMatch(/Y1.*rain/);
    expect(said).toMatch(/Not finished, still on the Bench: X1, X2\./);
    expect(said).not.toMatch(/being made/);
    expect(section(document, words.runByRun)).toMatch(/X1\nB\n(.*\n)?not finished/);
    // One was left out, not three.
    expect(JSON.stringify(document.blocks)).toContain("1 run was left out");
    expect(section(document, words.missing)).not.toMatch(/X1/);
  });

  it("that nothing was left out, where that is so", () => {
    expect(section(reportOf(analysed(baselineA)), words.leftOut)).toMatch(/^No run and no row was left out\.$/);
  });

  it("results that are missing, with the reason", () => {
    expect(section(reportOf(analysed(baselineA)), words.missing)).toMatch(/A1.*turn-down ratio.*no hot start phase/);
  });

  it("blocks that the comparison ignores", () => {
    const inBlocks = [...baselineA, ...longerB].map((sheet, index) => ({ ...sheet, block: `day ${index % 3}` }));
    expect(toKnow(reportOf(analysed(inBlocks)))).toMatch(/block|day/);
    expect(toKnow(reportOf(analysed([...baselineA, ...longerB])))).not.toMatch(/block|day/);
  });

  it("questions, counted on page one and told in the annex", () => {
    const question = {
      rule: "odd",
      run: "A2",
      variant: "A",
      phase: "cold-start" as const,
      column: null,
      message: "Was the air really 44 °C?",
    };
    const study = buildStudy([...baselineA, ...longerB]);
    const quiet = reportOf(analyseStudy(study, "en"));
    expect(toKnow(quiet)).toBe("");
    expect(section(quiet, words.questions)).toBe(words.noQuestions);
    const document = reportOf(analyseStudy(study, "en", [question]));
    expect(toKnow(document)).toMatch(/One\b.*annex/);
    expect(section(document, words.questions)).toMatch(/A2, cold start: Was the air really 44 °C\?/);
  });

  it("how to state errors of instruments, where none are stated", () => {
    const silent = section(reportOf(analysed(baselineA)), words.method);
    expect(silent).toContain(words.errorsNotStated);
    expect(silent).toMatch(/run-to-run scatter alone/);
    expect(() => section(reportOf(analysed(baselineA)), words.sure.heading)).toThrow(/no heading/);
  });

  it("that it is an invented example, on every page", () => {
    expect(reportOf(analysed(baselineA), against("A"), { isExample: true }).banner).toMatch(/invented/i);
    expect(reportOf(analysed(baselineA)).banner).toBeNull();
  });
});

describe("every report", () => {
  const nothing = analysed([{ run: "R1", variant: "A", phases: [] }]);
  const whole = analysed(["A1", "A2", "A3"].map((run) => plainRun(run, "A")));
  const all: [string, ReportDocument][] = [
    ["a pair", reportOf(analysed([...baselineA, ...longerB]))],
    ["one variant", reportOf(analysed(baselineA))],
    ["whole runs", reportOf(whole, firstChoice(whole))],
    ["nothing", reportOf(nothing, firstChoice(nothing))],
  ];

  it.each(all)("of %s has the cautions, and says what a boil test does not show", (_, document) => {
    const said = plain(document.blocks.flatMap(textsOf).join("\n"));
    expect(said).toMatch(/carbon monoxide.*(outdoors|hood).*alarm/);
    expect(said).toMatch(/re-ignites/);
    expect(said).toMatch(/does not predict/);
    expect(said).toMatch(/not a certification/);
  });

  it.each(all)("of %s names its inputs by their digests, its method and its program", (_, document) => {
    const inputs = table(document, /^Inputs/);
    expect(inputs.rows).toEqual([["readings.csv", provenance.inputs[0]?.sha256]]);
    expect(document.foot).toMatch(/Water Boiling Test 4\.2\.3.*Boilbench 9\.8\.7.*3f9a7777…7777/);
    expect(document.properties.program).toBe("Boilbench 9.8.7");
  });

  it.each(all)("of %s has rows as wide as their headings, and no number that is none", (_, document) => {
    for (const block of document.blocks) {
      if (block.kind === "table") {
        for (const row of block.table.rows) expect(row).toHaveLength(block.table.columns.length);
      }
      for (const text of textsOf(block)) expect(text).not.toMatch(/NaN|Infinity|undefined|null|\[object/);
    }
  });

  it.each(all)("of %s gives the formula of each quantity it shows", (_, document) => {
    const rows = (caption: RegExp) =>
      document.blocks.flatMap((block) =>
        block.kind === "table" && caption.test(block.table.caption) ? block.table.rows : [],
      );
    const formulas = rows(/^Formulas/).map(([label]) => label ?? "");
    const shown = rows(/^Means of each variant/);
    for (const [label] of shown) expect(formulas.some((one) => label?.startsWith(one))).toBe(true);
    expect(formulas.length > 0).toBe(shown.length > 0);
  });
});
