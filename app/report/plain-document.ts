import { keepTogether, type ReportBlock, type ReportDocument } from "../../core/index.ts";
import { plainText } from "../chart/index.ts";

/** A text as it is printed: what cannot be seen is gone, and a number stays with what belongs to it. */
function shown(text: string): string {
  return keepTogether(plainText(text));
}

/** The same report with every text cleaned of what cannot be seen (`plainText`); charts clean their own. */
export function plainDocument(report: ReportDocument): ReportDocument {
  return {
    ...report,
    kind: shown(report.kind),
    title: shown(report.title),
    banner: report.banner === null ? null : shown(report.banner),
    question: shown(report.question),
    finding: shown(report.finding),
    lead: report.lead.map(shown),
    foot: shown(report.foot),
    blocks: report.blocks.map(plainBlock),
    properties: { program: shown(report.properties.program), subject: shown(report.properties.subject) },
  };
}

function plainBlock(block: ReportBlock): ReportBlock {
  switch (block.kind) {
    case "heading":
    case "paragraph":
      return { ...block, text: shown(block.text) };
    case "aside":
      return { ...block, title: shown(block.title), texts: block.texts.map(shown) };
    case "chart":
      return { ...block, caption: shown(block.caption) };
    case "list":
      return { ...block, items: block.items.map(shown) };
    case "table":
      return {
        ...block,
        table: {
          ...block.table,
          caption: shown(block.table.caption),
          columns: block.table.columns.map((column) => ({ ...column, label: shown(column.label) })),
          rows: block.table.rows.map((row) => row.map(shown)),
          note: block.table.note === null ? null : shown(block.table.note),
        },
      };
  }
}
