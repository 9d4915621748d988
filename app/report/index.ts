/** The report's data written as files: PDF and HTML alike from one document, and tables as CSV. */
export { type HtmlReport, renderHtml } from "./html/render-html.ts";
export { renderPdf } from "./pdf/render-pdf.ts";
export { renderSheetPdf } from "./sheet/render-sheet-pdf.ts";
