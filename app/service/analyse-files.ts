import type { Locale } from "../../core/index.ts";
import type { FilesAnalysed, Request } from "../contract/index.ts";
import { openFiles } from "./open-study.ts";
import { exportedFile, firstReportChoice, outputFile } from "./output-files.ts";
import { program } from "./program.ts";
import { sourceFile } from "./uploaded-file.ts";

/** Files in, files out: no study file is made, and nothing is kept. */
export async function analyseFiles(
  asked: Extract<Request, { kind: "files.analyse" }>,
  locale: Locale,
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
  const files = await Promise.all(asked.what.map(async (kind) => exportedFile(await outputFile(open, kind, choice))));
  return { outcome: "done", files };
}
