import type { ReportBlock, ReportDocument } from "../../core/index.ts";
import { plainText } from "../chart/index.ts";

/** The same report with every text cleaned of what cannot be seen (`plainText`); charts clean their own. */
export function plainDocument(report: ReportDocument): ReportDocument {
  return {
    ...report,
    kind: plainText(report.kind),
    title: plainText(report.title),
    banner: report.banner === null ? null : plainText(report.banner),
    question: plainText(report.question),
    finding: plainText(report.finding),
    lead: report.lead.map(plainText),
    foot: plainText(report.foot),
    blocks: report.blocks.map(plainBlock),
    properties: { program: plainText(report.properties.program), subject: plainText(report.properties.subject) },
  };
}

function plainBlock(block: ReportBlock): ReportBlock {
  switch (block.kind) {
    case "heading":
    case "paragraph":
      return { ...block, text: plainText(block.text) };
    case "aside":
      return { ...block, title: plainText(block.title), texts: block.texts.map(plainText) };
    case "chart":
      return { ...block, caption: plainText(block.caption) };
    case "list":
      return { ...block, items: block.items.map(plainText) };
    case "table":
      return {
        ...block,
        table: {
          caption: plainText(block.table.caption),
          columns: block.table.columns.map((column) => ({ ...column, label: plainText(column.label) })),
          rows: block.table.rows.map((row) => row.map(plainText)),
          note: block.table.note === null ? null : plainText(block.table.note),
        },
      };
  }
}
