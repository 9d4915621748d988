import PDFDocument from "pdfkit";
import type { ReportDocument } from "../../../core/index.ts";
import { escapeMarkup } from "../../chart/index.ts";
import { page } from "./page-measures.ts";

/** The same report gives the same bytes, so the file has no day of its own. */
const fixedDate = new Date(Date.UTC(2000, 0, 1));

/**
 * An empty tagged document after PDF/UA-1 (ISO 14289-1:2014, from memory): a title that is shown, a language, marked content,
 * every font embedded.
 */
export function createPdf(report: ReportDocument): PDFKit.PDFDocument {
  const { program, subject } = report.properties;
  const info = {
    Title: report.title,
    Subject: subject,
    Creator: program,
    Producer: program,
    CreationDate: fixedDate,
    ModDate: fixedDate,
  };
  const options = {
    size: [page.width, page.height] as [number, number],
    margin: 0,
    bufferPages: true,
    autoFirstPage: false,
    pdfVersion: "1.7" as const,
    tagged: true,
    subset: "PDF/UA" as const,
    displayTitle: true,
    lang: report.locale,
    // None of the fonts that a reader is expected to have: they are not embedded.
    font: null as unknown as string,
    info,
  };
  const document = new PDFDocument(options as unknown as PDFKit.PDFDocumentOptions);
  escapeMetadata(document);
  return document;
}

/** The writer puts the properties into XML as they are; so they are escaped once the plain ones have been written. */
function escapeMetadata(document: PDFKit.PDFDocument): void {
  const inner = document as unknown as { endMetadata: () => void; info: Record<string, unknown> };
  const endMetadata = inner.endMetadata;
  inner.endMetadata = () => {
    for (const [name, value] of Object.entries(inner.info)) {
      if (typeof value === "string") inner.info[name] = escapeMarkup(value);
    }
    endMetadata.call(document);
  };
}

/** All bytes of a finished document. */
export function collectBytes(document: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    document.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    document.on("end", () => resolve(new Uint8Array(Buffer.concat(chunks))));
    document.on("error", reject);
  });
}
