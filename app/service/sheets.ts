import { type Locale, nothingKnown, sheetDocument } from "../../core/index.ts";
import type { ExportedFile, Request } from "../contract/index.ts";
import { renderSheetPdf } from "../report/index.ts";
import { program } from "./program.ts";
import type { StudyContent } from "./study/study-content.ts";

/** Blank sheets for runs of a study, with what is known of it printed in. */
export async function blankSheets(
  { head }: StudyContent,
  asked: Extract<Request, { kind: "sheets.print" }>,
  locale: Locale,
): Promise<ExportedFile> {
  const { sheets, pots, charAtHotStart, emissions } = asked;
  const document = sheetDocument({
    study: head.name,
    method: head.method,
    options: { pots, charAtHotStart, emissions },
    runs: { blank: sheets },
    known: { ...nothingKnown, fuels: [...head.fuels.values()].map(({ name }) => name) },
    version: program.version,
    locale,
  });
  const content = await renderSheetPdf(document);
  return {
    fileName: "sheets.pdf",
    mediaType: "application/pdf",
    contentBase64: Buffer.from(content).toString("base64"),
  };
}
