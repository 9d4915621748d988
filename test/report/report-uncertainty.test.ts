import { describe, expect, it } from "vitest";
import type { InstrumentRole } from "../../core/readings/reading.ts";
import type { UncertaintyComponent } from "../../core/readings/settings.ts";
import { buildReport } from "../../core/report/build-report.ts";
import type { ReportBlock, ReportDocument, ReportTable } from "../../core/report/report-document.ts";
import { wordsFor } from "../../core/words/index.ts";
import { buildSettings } from "../build/readings.ts";
import { expectNumber } from "../numbers.ts";
import { analysed, baselineA, duration, longerB, openC, provenance, runsOf } from "./duration-study.ts";

// The report of a study whose instruments' errors are stated: the clock runs fast or slow by 1 %, one error for all runs, so that
// everything of it can be worked by hand (numbers with R 4.2.2: see results-uncertainty.test.ts).

const words = wordsFor("en").report;
const plain = (text: string) => text.replaceAll(/[\u00a0\u202f]/g, " ");
const rate: UncertaintyComponent = {
  name: "rate",
  distribution: "normal",
  size: { relativeStandardUncertainty: 0.01 },
  kind: "shared",
  degreesOfFreedom: null,
};
const coarse: UncertaintyComponent = {
  ...rate,
  name: "rate of a coarse clock",
  size: { relativeStandardUncertainty: 0.2 },
};
const settingsOf = (component: UncertaintyComponent) =>
  buildSettings({}, { instruments: new Map<InstrumentRole, never>([["clock", { components: [component] } as never]]) });

function reportOf(sheets: Parameters<typeof analysed>[0], component = rate, variant: string | null = null) {
  return buildReport(analysed(sheets, settingsOf(component)), provenance, { key: duration, variant, baseline: "A" });
}

/** Blocks under a heading, up to the next of its level. */
function under(document: ReportDocument, heading: string): ReportBlock[] {
  const start = document.blocks.findIndex((block) => block.kind === "heading" && block.text === heading);
  expect(start, heading).toBeGreaterThan(-1);
  const rest = document.blocks.slice(start + 1);
  const end = rest.findIndex((block) => block.kind === "heading" && block.level === 2);
  return end === -1 ? rest : rest.slice(0, end);
}
const tables = (blocks: readonly ReportBlock[]): ReportTable[] =>
  blocks.flatMap((block) => (block.kind === "table" ? [block.table] : []));
const paragraphs = (blocks: readonly ReportBlock[]) =>
  plain(
    blocks
      .flatMap((block) => (block.kind === "paragraph" ? [block.text] : block.kind === "list" ? [...block.items] : []))
      .join("\n"),
  );

describe("how sure, and why", () => {
  const document = reportOf([...baselineA, ...longerB]);
  const blocks = under(document, words.sure.heading);

  it("of two variants: the difference with its expanded uncertainty", () => {
    // u = 0.8226, nu = 4.12: t = 2.745, so 10.0 +- 2.3.
    expect(paragraphs(blocks)).toMatch(/“B” minus “A”, is 10.0 ± 2.3 min \(at 95 %, coverage factor 2.74\)/);
  });

  it("draws the parts: scatter apart from the clock, by their shares of the variance", () => {
    const chart = blocks.find((block) => block.kind === "chart");
    if (chart?.kind !== "chart" || chart.chart.kind !== "budget") throw new Error("no budget");
    const [scatter, clock, ...others] = chart.chart.rows;
    expect(others).toEqual([]);
    // 2/3 of 2/3 + 0.01.
    expectNumber(scatter?.share, (100 * (2 / 3)) / (2 / 3 + 0.01), { relative: 1e-9 });
    expectNumber(clock?.share, 1 / (2 / 3 + 0.01), { relative: 1e-9 });
    expect([scatter?.isScatter, clock?.isScatter]).toEqual([true, false]);
    expect(chart.chart.textAlternative).toMatch(/run-to-run scatter 99.%; clock 1.%/);
  });

  it("tells what each part makes alone, and what halving it would give", () => {
    const [parts] = tables(blocks);
    const rows = parts?.rows.map((row) => row.map(plain));
    // t u: scatter 2.745 x 0.8165 = 2.24, clock 2.745 x 0.1 = 0.27; with half the scatter 2.745 sqrt(1/6 + 0.01) = 1.15.
    expect(rows?.[0]).toEqual([
      "run-to-run scatter",
      expect.any(String),
      "99 %",
      "± 2.2 min",
      "± 2.3 would become ± 1.2 min",
    ]);
    expect(rows?.[1]).toEqual(["clock", expect.stringMatching(/rate/), "1 %", "± 0.3 min", expect.any(String)]);
  });

  it("says what would help: more runs here, a better clock where it is coarse", () => {
    expect(paragraphs(blocks)).toMatch(/99 % .* more runs would help/);
    const shaky = paragraphs(under(reportOf([...baselineA, ...longerB], coarse), words.sure.heading));
    // 2 min of 10 are shared: 4 of 4.67.
    expect(shaky).toMatch(/86 % of this uncertainty is shared by all runs.*clock/);
  });

  it("says what of A's own mean is shared, which cancels in the difference", () => {
    const shaky = paragraphs(under(reportOf([...baselineA, ...longerB], coarse), words.sure.heading));
    expect(shaky).toMatch(/“A” by itself, 21.0 ± 8.3 min: 98 %/);
    expect(shaky).toMatch(/cancel in part or whole: taken as separate .* together/);
  });

  it("names what is not included", () => {
    expect(paragraphs(blocks)).toMatch(/Not included: .*thermometer/);
  });

  it("of several variants: each difference, and the parts of the least sure", () => {
    const several = under(reportOf([...baselineA, ...longerB, ...openC]), words.sure.heading);
    const [overview] = tables(several);
    expect(overview?.rows.map(([variant]) => variant)).toEqual(["B", "C"]);
    expect(overview?.rows[0]?.map(plain)).toEqual(["B", "10.0 ± 2.3", "± 2.2", "± 0.3", "99 %"]);
    // C scatters most (19, 22, 24).
    expect(paragraphs(several)).toMatch(/least sure of these differences, “C” minus “A”/);
  });

  it("of several variants, one of a single run: that is not called the least sure, nor all scatter", () => {
    const [only] = openC;
    if (only === undefined) throw new Error("no run");
    const several = under(reportOf([...baselineA, ...longerB, only]), words.sure.heading);
    const [overview] = tables(several);
    expect(overview?.rows.map((row) => row.at(-1))).toEqual([expect.stringMatching(/^\d+.%$/), "–"]);
    expect(overview?.note).toMatch(/“C”: with a single run/);
    expect(paragraphs(several)).toMatch(/The difference, “B” minus “A”, is/);
    expect(paragraphs(several)).not.toMatch(/least sure/);
  });

  it("of two single runs: that scatter is not in it, and not that it is", () => {
    const [first, second] = [baselineA[0], longerB[0]];
    if (first === undefined || second === undefined) throw new Error("no runs");
    const single = paragraphs(under(reportOf([first, second]), words.sure.heading));
    expect(single).toMatch(/“B” minus “A”, is [^\n]*scatter is not in it/);
    expect(single).not.toMatch(/scatter and the stated errors/);
  });

  it("of one variant: its mean; of one run: from the instruments alone", () => {
    const mean = paragraphs(under(reportOf(baselineA), words.sure.heading));
    expect(mean).toMatch(/The mean of “A”, is 21.0 ± 2.2 min/);
    const single = paragraphs(under(reportOf(baselineA.slice(0, 1)), words.sure.heading));
    expect(single).toMatch(/The one run of “A”, is 20.00 ± 0.39 min/);
    expect(single).toMatch(/No replicates/);
  });
});

describe("the rest of the report", () => {
  const document = reportOf([...baselineA, ...longerB], rate, "B");

  it("means stand with the interval that holds both, and the note says so", () => {
    // Scatter alone: t(0.975, 2) / sqrt(3) = 2.48; with the clock 2.16, on more degrees of freedom. The wider one stands.
    const [variants] = tables(document.blocks);
    expect(variants?.rows.map((row) => row[2])).toEqual(["21.0 ± 2.5", "31.0 ± 2.5"]);
    expect(variants?.note).toMatch(/errors that all runs share/);
    const coarser = tables(reportOf([...baselineA, ...longerB], coarse, "B").blocks);
    // u = sqrt(1/3 + 4.2^2) = 4.239, nu in the thousands: 8.3.
    expect(coarser[0]?.rows[0]?.[2]).toBe("21.0 ± 8.3");
  });

  it("the lead says that instruments' errors are in it", () => {
    expect(document.lead.join(" ")).toMatch(/instruments’ errors included, from 3 runs against 3/);
  });

  it("every run has its own expanded uncertainty", () => {
    const runs = tables(under(document, words.runByRun))[0];
    const column = runs?.columns.findIndex(({ label }) => label.startsWith("duration")) ?? -1;
    // 1.96 x 1 % of 20, 21, 22, 30.
    expect(runs?.rows.slice(0, 4).map((row) => row[column])).toEqual([
      "20.00 ± 0.39",
      "21.00 ± 0.41",
      "22.00 ± 0.43",
      "30.00 ± 0.59",
    ]);
    expect(runs?.note).toMatch(/expanded uncertainty.*95 %/);
  });

  it("the method says how uncertainties came about, after which clauses, and that nothing validated them", () => {
    const method = paragraphs(under(document, words.method));
    for (const part of [/JCGM 100:2008, 5\.1\.2/, /G\.4\.1/, /Fieller/, /No Monte Carlo was run/])
      expect(method).toMatch(part);
    expect(method).not.toMatch(/come from run-to-run scatter alone/);
  });

  it("trials that agree, and such that do not, are counted; the interval of those stands in brackets", () => {
    const results = analysed(runsOf("A", [20, 21, 22]), settingsOf(rate));
    const output = (lower: number, upper: number, mean: number) => ({
      trials: 50_000,
      mean,
      standardUncertainty: 0.2,
      symmetricInterval: { lower, upper },
      shortestInterval: { lower, upper },
      outside: { below: 0, above: 0 },
      notFinite: { infinite: 0, notNumbers: 0 },
    });
    // First order of 20 min: 19.61 to 20.39. The second run's trials are told otherwise: 20.3 to 22.3.
    const outputs = [output(19.61, 20.39, 20), output(20.3, 22.3, 21.3), output(21.57, 22.43, 22)];
    const runs = results.runs.map(({ run }, index) => {
      const one = {
        trials: 50_000,
        seed: 3,
        outputs: new Map([["cold-start.duration", outputs[index] as never]]),
        stable: null,
      };
      return [run.id, one] as const;
    });
    const simulation = { wanted: 50_000, trials: 50_000, seed: 3, isAdaptive: false, runs: new Map(runs) };
    const drawn = buildReport(results, provenance, { key: duration, variant: null, baseline: "A" }, simulation);
    const method = paragraphs(under(drawn, words.method));
    expect(method).toMatch(/50 000 trials of each run, seed 3/);
    expect(method).toMatch(/2 results of runs agree, 1 do not, 0 are left open/);
    const cells = tables(under(drawn, words.runByRun))[0]?.rows.flat();
    expect(cells).toContain("21.0 (20.3 to 22.3)");
    expect(cells).toContain("22.00 ± 0.43");
  });
});
