import type { ReportDocument } from "../../core/index.ts";
import { inventedChart, inventedReport, inventedRow } from "./sample-report.ts";

/** Texts that try to be something else. */
export const hostileTexts = [
  '<script>alert("x")</script>',
  "\"><img src=https://example.invalid/x onerror='alert(1)'>",
  '</title></style></svg><b style="color:red">',
  "a\u0000b\u202egnp.exe\u202c",
  "&lt;already&gt; &amp; ]]> <!-- -->",
  "__proto__",
];

export const hostileText = hostileTexts.join(" ");

/** The invented report with every text that comes from data replaced. */
export function reportWith(text: string): ReportDocument {
  return {
    ...inventedReport,
    kind: text,
    title: text,
    banner: text,
    question: text,
    finding: text,
    lead: [text],
    foot: text,
    properties: { program: text, subject: text },
    blocks: [
      { kind: "heading", level: 2, text },
      { kind: "paragraph", text, tone: "plain" },
      { kind: "aside", title: text, texts: [text], tone: "attention" },
      { kind: "list", items: [text, text] },
      {
        kind: "table",
        table: {
          caption: text,
          columns: [
            { label: text, align: "text" },
            { label: text, align: "number" },
            { label: "short", align: "number" },
          ],
          rows: [
            [text, text, "1"],
            ["b", text, "2"],
          ],
          note: text,
        },
      },
      {
        kind: "chart",
        chart: {
          ...inventedChart,
          ...(inventedChart.kind === "runs-and-change"
            ? { valueTitle: text, changeTitle: text, textAlternative: text }
            : {}),
          rows: [
            { ...inventedRow(0, text, 750, 16, null), runs: [{ name: text, value: 750, leftOut: false }] },
            inventedRow(1, text, 700, 20, { value: -7, lower: null, upper: -4, text: "7 % less" }),
          ],
        } as typeof inventedChart,
        caption: text,
      },
    ],
  };
}
