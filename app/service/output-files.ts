import {
  buildReport,
  csvText,
  firstChoice,
  type ReportChoice,
  type ReportDocument,
  resultsFile,
  runsTable,
  type Simulation,
} from "../../core/index.ts";
import type { ExportedFile, OutputKind } from "../contract/index.ts";
import { writeReadings, writeSettings } from "../import/index.ts";
import { renderHtml, renderPdf } from "../report/index.ts";
import type { OpenStudy } from "./open-study.ts";

/** A file that is ready to be written. */
export interface OutputFile {
  readonly fileName: OutputKind;
  readonly mediaType: string;
  readonly content: string | Uint8Array;
}

const mediaTypes: Record<OutputKind, string> = {
  "report.pdf": "application/pdf",
  "report.html": "text/html",
  "readings.csv": "text/csv",
  "settings.json": "application/json",
  "results.json": "application/json",
  "runs.csv": "text/csv",
};

/** The choice that a report makes by itself: the study's headline quantity, all variants against a baseline. */
export function firstReportChoice(open: OpenStudy, baseline: string | null): ReportChoice {
  const first = firstChoice(open.results);
  return baseline === null ? first : { ...first, baseline };
}

/** The report of an open study as data. `simulation`: Monte Carlo of its runs, where there was any. */
export function reportOf(open: OpenStudy, choice: ReportChoice, simulation: Simulation | null = null): ReportDocument {
  return buildReport(open.results, open.provenance, choice, simulation);
}

/** Makes one of the files that a study can be handed over as. */
export async function outputFile(
  open: OpenStudy,
  kind: OutputKind,
  choice: ReportChoice,
  simulation: Simulation | null,
): Promise<OutputFile> {
  return { fileName: kind, mediaType: mediaTypes[kind], content: await contentOf(open, kind, choice, simulation) };
}

async function contentOf(
  open: OpenStudy,
  kind: OutputKind,
  choice: ReportChoice,
  simulation: Simulation | null,
): Promise<string | Uint8Array> {
  const { results, provenance } = open;
  switch (kind) {
    case "report.pdf":
      return renderPdf(reportOf(open, choice, simulation));
    case "report.html":
      return renderHtml(reportOf(open, choice, simulation)).html;
    case "readings.csv":
      return writeReadings(results.study);
    case "settings.json":
      return writeSettings(results.study.settings);
    case "results.json":
      return `${JSON.stringify(resultsFile(results, provenance, choice.baseline, simulation), null, 2)}\n`;
    case "runs.csv":
      return csvText(runsTable(results));
  }
}

/** A file as a reply carries it. */
export function exportedFile({ fileName, mediaType, content }: OutputFile): ExportedFile {
  return { fileName, mediaType, contentBase64: Buffer.from(content).toString("base64") };
}
