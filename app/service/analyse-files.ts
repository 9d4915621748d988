import type { Locale } from "../../core/index.ts";
import type { FilesAnalysed, Request } from "../contract/index.ts";
import { openFiles } from "./open-study.ts";
import { exportedFile, firstReportChoice, outputFile } from "./output-files.ts";
import { program } from "./program.ts";
import { mostTrialsOfCommand, type SimulationRequest, simulateRuns } from "./simulation/simulate-runs.ts";
import { sourceFile } from "./uploaded-file.ts";

/** How long work is followed, and stopped. */
export type WorkOptions = Pick<SimulationRequest, "signal" | "onProgress">;

/** What flags say of Monte Carlo; null: what the settings say. */
export function flagsOf({
  trials = null,
  seed = null,
}: {
  trials?: number | null | undefined;
  seed?: number | null | undefined;
}) {
  return { trials, seed };
}

/** Whether any of the files tells of Monte Carlo. */
export function isSimulated(kinds: readonly string[]): boolean {
  return kinds.some((kind) => kind === "results.json" || kind.startsWith("report."));
}

/** Files in, files out: no study file is made, and nothing is kept. */
export async function analyseFiles(
  asked: Extract<Request, { kind: "files.analyse" }>,
  locale: Locale,
  work: WorkOptions = {},
): Promise<FilesAnalysed> {
  const { method, baseline, leaveOutBadRows } = asked;
  const read = openFiles(
    {
      readings: sourceFile(asked.readings, locale),
      settings: asked.settings === null ? null : sourceFile(asked.settings, locale),
      method,
      leaveOutBadRows,
      locale,
    },
    program,
  );
  if (!read.ok) return { outcome: "refused", problems: read.problems };
  const { open } = read;
  const variants = open.results.variants.map(({ variant }) => variant);
  if (baseline !== null && !variants.includes(baseline)) return { outcome: "unknownBaseline", variants };
  const choice = firstReportChoice(open, baseline);
  const simulation = isSimulated(asked.what)
    ? await simulateRuns(open.results, { ...flagsOf(asked), mostInAll: mostTrialsOfCommand, ...work })
    : null;
  const files = await Promise.all(
    asked.what.map(async (kind) => exportedFile(await outputFile(open, kind, choice, simulation))),
  );
  return { outcome: "done", files };
}
