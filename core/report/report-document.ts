import type { Locale } from "../words/locale.ts";
import type { ChartSpecification } from "./chart-specification.ts";

/** A report as data: texts ready for a person, in reading order; no layout. PDF and HTML are made from it alike. */
export interface ReportDocument {
  readonly locale: Locale;
  /** "Boil-test report". */
  readonly kind: string;
  /** Name of the study; title of the document. */
  readonly title: string;
  /** Printed at the head of every page, at its end: "Invented example: not real tests"; null for none. */
  readonly banner: string | null;
  /** Smaller line above the finding: the question that was asked. */
  readonly question: string;
  /** The finding, one sentence. */
  readonly finding: string;
  /** One or two short paragraphs below it: interval, runs, how sure. */
  readonly lead: readonly string[];
  readonly blocks: readonly ReportBlock[];
  /** Foot of every page, at its start: method, program and version, short digest. */
  readonly foot: string;
  /** "1 of 3", from page and pages. */
  readonly pageOf: (page: number, pages: number) => string;
  /** For the file's own properties. */
  readonly properties: { readonly program: string; readonly subject: string };
}

/** `isReference`: to look things up in, rather than to read; set smaller and closer on paper. */
export type ReportBlock =
  | { readonly kind: "heading"; readonly level: 2 | 3; readonly text: string; readonly startsPage?: boolean }
  | {
      readonly kind: "paragraph";
      readonly text: string;
      readonly tone: "plain" | "soft";
      readonly isReference?: boolean;
    }
  /** Cautions and what weakens the finding: set apart. `attention` for questions, `plain` for safety. */
  | {
      readonly kind: "aside";
      readonly title: string;
      readonly texts: readonly string[];
      readonly tone: "attention" | "plain";
    }
  | { readonly kind: "chart"; readonly chart: ChartSpecification; readonly caption: string }
  | { readonly kind: "list"; readonly items: readonly string[]; readonly isReference?: boolean }
  | { readonly kind: "table"; readonly table: ReportTable };

export interface ReportTable {
  readonly caption: string;
  /** The caption is there for those who hear the table; those who see it have it from what stands around. */
  readonly isCaptionHidden?: boolean;
  /** The first column holds the row headings. `weight`: relative width, 1 unless said. */
  readonly columns: readonly { readonly label: string; readonly align: "text" | "number"; readonly weight?: number }[];
  readonly rows: readonly (readonly string[])[];
  /** To look things up in, rather than to read: set closer. */
  readonly isReference?: boolean;
  /** Smaller line under the table. */
  readonly note: string | null;
}
