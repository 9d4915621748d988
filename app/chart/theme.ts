/** Colours and fonts of a chart. A colour is anything the surface drawn on understands; PDF needs #rrggbb. */
export interface ChartTheme {
  readonly ink: string;
  readonly inkSoft: string;
  /** Hairlines: grid, borders of rows. Decoration only, nothing is told by them. */
  readonly rule: string;
  readonly ruleStrong: string;
  /** What the chart lies on; fills the shapes that stand over an interval. */
  readonly sheet: string;
  readonly sure: string;
  readonly attention: string;
  readonly attentionSoft: string;
  readonly variants: readonly [string, string, string, string, string, string];
  /** Font families as CSS lists: figures and labels, and the voice of findings. */
  readonly textFamily: string;
  readonly voiceFamily: string;
}

const textFamily = '"Source Sans 3 Variable", "Source Sans 3", "Segoe UI", system-ui, sans-serif';
const voiceFamily = '"Source Serif 4 Variable", "Source Serif 4", Georgia, serif';

/** Variants: hues after Okabe and Ito (2008), darkened until they stand 4.5:1 on the sheet. */
export const lightTheme: ChartTheme = {
  ink: "#22252a",
  inkSoft: "#5b5f66",
  rule: "#d8d1c0",
  ruleStrong: "#b3aa95",
  sheet: "#fffdf7",
  sure: "#2b6349",
  attention: "#a33b16",
  attentionSoft: "#f7e4d9",
  variants: ["#0a6aa8", "#b84c00", "#00755a", "#93407a", "#7a6400", "#44474d"],
  textFamily,
  voiceFamily,
};

/** The same hues, lightened for a dark sheet. */
export const darkTheme: ChartTheme = {
  ink: "#ebe7dc",
  inkSoft: "#aba79c",
  rule: "#363a40",
  ruleStrong: "#5b5f66",
  sheet: "#1c1f23",
  sure: "#7cc3a1",
  attention: "#f29263",
  attentionSoft: "#3a241a",
  variants: ["#6db5e8", "#f09a55", "#4fc3a1", "#d690bf", "#d3bd56", "#b9bcc2"],
  textFamily,
  voiceFamily,
};

/** Light, on white paper. */
export const printTheme: ChartTheme = { ...lightTheme, sheet: "#ffffff" };

/** Colour of the variant at this position of the study, from 0; repeats after six. */
export function variantColour(theme: ChartTheme, index: number): string {
  return theme.variants[index % theme.variants.length] ?? theme.ink;
}
