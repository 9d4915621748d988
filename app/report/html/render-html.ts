import { createHash } from "node:crypto";
import type { ReportDocument } from "../../../core/index.ts";
import { escapeMarkup } from "../../chart/index.ts";
import { plainDocument } from "../plain-document.ts";
import { embeddedFonts } from "./embedded-fonts.ts";
import { htmlBlock } from "./html-blocks.ts";
import { reportStyle } from "./report-style.ts";

export interface HtmlReport {
  /** The whole file: style, fonts and charts inside it, no script, nothing fetched. */
  readonly html: string;
  /** Of the file's one style, as a policy names it: "sha256-…". */
  readonly styleHash: string;
  /** The policy to serve it with. The file carries as much of it as a file can say itself. */
  readonly contentSecurityPolicy: string;
}

const longFinding = 160;

/** The report as one HTML file, for a window, for paper and for a reader that speaks. */
export function renderHtml(report: ReportDocument): HtmlReport {
  const plain = plainDocument(report);
  const blocks = plain.blocks.map((block, index) => htmlBlock(block, index, plain.locale)).join("\n");
  const opening = openingOf(plain);
  const style = reportStyle(embeddedFonts(opening + blocks + plain.kind + plain.foot + (plain.banner ?? "")));
  const styleHash = `sha256-${createHash("sha256").update(style, "utf8").digest("base64")}`;
  // Content Security Policy Level 3, 3.1 and 6.3: frame-ancestors and sandbox are heeded in a header only.
  const policy = `default-src 'none'; style-src '${styleHash}'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'`;
  const banner = plain.banner === null ? "" : `<span>${escapeMarkup(plain.banner)}</span>`;
  const html = `<!doctype html>
<html lang="${plain.locale}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="generator" content="${escapeMarkup(plain.properties.program)}">
<title>${escapeMarkup(plain.title)}</title>
<style>${style}</style>
</head>
<body>
<div class="page">
<header><p class="ends"><span>${escapeMarkup(plain.kind)}</span>${banner}</p></header>
<main>
${opening}
${blocks}
</main>
<footer><p class="ends">${escapeMarkup(plain.foot)}</p></footer>
</div>
</body>
</html>
`;
  return { html, styleHash, contentSecurityPolicy: `${policy}; frame-ancestors 'self'; sandbox` };
}

function openingOf(report: ReportDocument): string {
  const question = report.question === "" ? "" : `<p class="question">${escapeMarkup(report.question)}</p>\n`;
  const long = report.finding.length > longFinding ? ' class="long"' : "";
  const lead = report.lead.map((text) => `\n<p class="lead">${escapeMarkup(text)}</p>`).join("");
  return `${question}<h1${long}>${escapeMarkup(report.finding)}</h1>${lead}`;
}
