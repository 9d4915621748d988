/** The page of the PDF, in points (1/72 inch), from the upper left corner. A4 is 210 mm by 297 mm (ISO 216, from memory). */
export const page = {
  width: 595.28,
  height: 841.89,
  left: 49.5,
  right: 595.28 - 49.5,
  headBaseline: 50,
  top: 70,
  bottom: 770,
  footRule: 785,
  footBaseline: 800,
} as const;

export const contentWidth = page.right - page.left;
export const contentHeight = page.bottom - page.top;

/** Sizes of text in points, after the sketch of the report at 0.75 points a pixel. */
export const size = {
  small: 9.75,
  /** The annex: to look things up in. */
  reference: 9.5,
  body: 11,
  /** What is set apart, cautions and what weakens the finding. */
  aside: 10,
  lead: 12.2,
  question: 11.25,
  finding: 25.8,
  heading2: 13.4,
  heading3: 11.6,
  table: 10.5,
} as const;

/** Space below a heading, before what it heads. */
export const belowHeading = { 2: 3, 3: 1 } as const;

/** Height of a line over the size of its text: text to read, smaller text, cells to look things up in, headings. */
export const leading = { text: 1.42, small: 1.34, reference: 1.26, voice: 1.2 } as const;
