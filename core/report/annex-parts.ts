import type { ReportBlock, ReportTable } from "./report-document.ts";

/** How much of what may be long is printed; results.json holds all of it. */
export const most = {
  variantsAcross: 4,
  runs: 30,
  questions: 10,
  missing: 6,
  missingRuns: 12,
  missingLabels: 4,
  missingLength: 600,
  name: 60,
} as const;

export const heading = (text: string): ReportBlock => ({ kind: "heading", level: 2, text });
export const paragraph = (text: string, tone: "plain" | "soft" = "plain"): ReportBlock => ({
  kind: "paragraph",
  text,
  tone,
  isReference: true,
});
export const list = (items: readonly string[]): ReportBlock => ({ kind: "list", items, isReference: true });
export const table = (one: ReportTable): ReportBlock => ({ kind: "table", table: { ...one, isReference: true } });
