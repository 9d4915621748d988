import { fieldsInRow } from "../../../core/index.ts";
import type { InkedStyle } from "../pdf/write-text.ts";

/** Points in a millimetre. */
export const millimetre = 72 / 25.4;

/** The sheet, in points from the upper left corner of A4: narrow margins, as far as printers reach. */
export const sheetPage = {
  width: 595.28,
  left: 31,
  right: 595.28 - 31,
  top: 30,
  bottom: 803,
  footRule: 809,
  footBaseline: 821,
} as const;

export const sheetWidth = sheetPage.right - sheetPage.left;

/** Steps stand in the margin, their fields to the right of it. */
export const marginWidth = 148;
const marginGap = 8;
export const fieldsLeft = sheetPage.left + marginWidth + marginGap;

/** Distance from a field to the next, and width of a field that takes `share` of them. */
export const fieldPitch = (sheetPage.right - fieldsLeft) / fieldsInRow;
/** The head stands across the whole sheet, seven fields in a row. */
export const headFields = 7;
export const headPitch = sheetWidth / headFields;

/** A box to write in: at least 25 mm by 8 mm. */
export const box = { number: 25.2 * millimetre, height: 8.4 * millimetre } as const;
export const labelHeight = 11.5;
/** From a row of boxes to the label below. */
export const rowGap = 4;
/** Boxes to tick, and lines: thick enough to come through a photocopier. */
export const tick = 9;
export const line = { box: 0.8, rule: 0.6 } as const;

/** Everything is black: grey is lost in a photocopy. */
const ink = "#000000";
export const style = {
  title: { face: "voice", size: 17, colour: ink },
  longTitle: { face: "voice", size: 11.5, colour: ink },
  study: { face: "text", size: 10.5, colour: ink },
  step: { face: "text-bold", size: 10.5, colour: ink },
  sentence: { face: "text", size: 9, colour: ink },
  label: { face: "text", size: 9, colour: ink },
  value: { face: "text-bold", size: 11, colour: ink },
  smallValue: { face: "text-bold", size: 9, colour: ink },
  runIn: { face: "text-bold", size: 9, colour: ink },
  foot: { face: "text", size: 9, colour: ink },
} as const satisfies Record<string, InkedStyle>;

export const leadingOf = {
  step: 12.5,
  sentence: 10.8,
  value: 13,
  smallValue: 11,
  longTitle: 13,
  choice: 11.8,
} as const;
export { ink };
