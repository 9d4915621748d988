import { cellProblems } from "./readings-cells.ts";
import { quoted } from "./readings-quoted.ts";
import { readingName } from "./screens/reading-name.ts";

interface Cell {
  readonly cell: string;
}

interface Range extends Cell {
  readonly minimum: string;
  readonly maximum: string;
}

const name = (column: string) => quoted(readingName(column));
const names = (columns: readonly string[]) => columns.map(name).join(", ");

/** Where a cell is filled in by itself there is no file whose row or heading could be mended. */
const ofCells = {
  ...cellProblems,
  tooLong: ({ limit }: { limit: string }) => `The text has more than ${limit} characters. Shorten it.`,
  missing: ({ column }: { column: string }) =>
    `${name(column)} is missing, and an empty cell is never taken as zero. Fill it in from the sheet, or leave the run out.`,
  missingName: ({ column }: { column: string }) => `${name(column)} cannot be empty. Fill it in.`,
  missingOneOf: ({ columns }: { columns: readonly string[] }) =>
    `One of ${names(columns)} is needed, and all are empty. Fill one in from the sheet, or leave the run out.`,
  oneOfTwo: ({ columns }: { columns: readonly string[] }) =>
    `${columns.map(name).join(" and ")} are given side by side, but they tell the same thing in two ways. Keep the one that was measured and empty the other.`,
  notANumber: ({ cell }: Cell) =>
    `${quoted(cell)} is not a number. Expected were digits, with a point or a comma before decimals. Correct it; leave the cell empty if it was not measured.`,
  spreadsheetError: ({ cell }: Cell) =>
    `${quoted(cell)} is the error of a spreadsheet's formula. Write the reading itself.`,
  twoNumbers: ({ cell }: Cell) =>
    `${quoted(cell)} holds more than one number; a cell takes one. Write the one that counts; a second weighing of fuel is a further fuel.`,
  unitInCell: ({ cell }: Cell) =>
    `${quoted(cell)} holds a number with something behind it. Write the number alone, in the unit that the cell is for.`,
  thousandsSeparator: ({ cell }: Cell) =>
    `${quoted(cell)} has marks between its digits. Write the number without anything between thousands, and a point or a comma before decimals.`,
  massTooLarge: ({ cell }: Cell) =>
    `${quoted(cell)} comes to more than a tonne, and nothing in a boil test weighs so much. Correct it; the cell takes the unit that stands with its name.`,
  moistureWet: ({ cell, aboveRange }: Cell & { aboveRange: boolean }) =>
    aboveRange
      ? `${quoted(cell)} cannot be a moisture on the wet basis, which lies from 0 to under 100 %. So much can only be on the dry basis: move it to ${name("moisture_dry_percent")}, or correct it.`
      : `${quoted(cell)} cannot be a moisture on the wet basis, which lies from 0 to under 100 %. Correct it.`,
  calorificRange: ({ cell, minimum, maximum }: Range) =>
    `${quoted(cell)} is no calorific value of a dry fuel: expected were ${minimum} to ${maximum} kJ/kg (wood has about 18 400, which is 18.4 MJ/kg). Correct it.`,
  temperatureRange: ({ cell, minimum, maximum }: Range) =>
    `${quoted(cell)} is a temperature that no laboratory has here: expected were ${minimum} to ${maximum} °C. Correct it.`,
  pressureRange: ({ cell, minimum, maximum }: Range) =>
    `${quoted(cell)} is no air pressure: expected were ${minimum} to ${maximum} kPa. Correct it.`,
  altitudeRange: ({ cell, minimum, maximum }: Range) =>
    `${quoted(cell)} is no altitude at which people cook: expected were ${minimum} to ${maximum} m. Correct it.`,
  durationTooLong: ({ cell }: Cell) =>
    `${quoted(cell)} is a phase of more than 12 hours. Correct it; the cell takes minutes.`,
  ofTimes: ({ start, cell, column, message }: Cell & { start: string; column: string; message: string }) =>
    `Start ${quoted(start)}, ${readingName(column)} ${quoted(cell)}: ${message}`,
  boiledWithoutClock: () =>
    `${name("boiled_at")} is given, but the phase has no start and end that it could be held against. Fill in start and end, or empty ${name("boiled_at")}.`,
  charWithoutContainer: () =>
    `The char was weighed in its container, but the empty container's mass is missing, so the char is not known. Fill in ${name("char_container_g")}.`,
  massThousandth: ({ cell, heading }: Cell & { heading: string }) =>
    `${quoted(cell)} as ${name(heading)} is about a thousandth of what is usual. Are these kilograms? The cell takes grams.`,
} satisfies typeof cellProblems;

/** Cells that are filled in on a screen: the import's sentences, without talk of files and rows, and what only happens there. */
export const entryProblems = {
  cell: ofCells,
  unreadableText: () =>
    "The text holds a character that no file can hold: a zero character, or half of one that takes two. Take it away.",
  timesHaveDates: () =>
    "The times of this run were written with their dates, so it needs one. Write another date, or first write start and end as hh:mm.",
};
