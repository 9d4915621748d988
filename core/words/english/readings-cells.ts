import { quoted } from "./readings-quoted.ts";

interface Cell {
  readonly cell: string;
}

interface Range extends Cell {
  readonly minimum: string;
  readonly maximum: string;
}

const list = (names: readonly string[]) => names.join(", ");

/** Errors of single cells: what stands there, what was expected, what to do. */
export const cellProblems = {
  tooLong: ({ limit }: { limit: string }) =>
    `The cell has more than ${limit} characters. Shorten the text; a quotation mark that is never closed can be the cause.`,
  missing: ({ column }: { column: string }) =>
    `${column} is missing, and an empty cell is never taken as zero. Fill it in from the sheet, or leave the row out.`,
  missingName: ({ column }: { column: string }) =>
    `${column} is empty. Fill it in from the sheet, or leave the row out.`,
  missingOneOf: ({ columns }: { columns: readonly string[] }) =>
    `One of ${list(columns)} is needed, and all are empty. Fill one in from the sheet, or leave the row out.`,
  oneOfTwo: ({ columns }: { columns: readonly string[] }) =>
    `${columns.join(" and ")} are given side by side, but they tell the same thing in two ways. Keep the one that was measured and empty the other.`,
  notANumber: ({ cell }: Cell) =>
    `${quoted(cell)} is not a number. Expected were digits, with a point before decimals. Correct it; leave the cell empty if it was not measured.`,
  notFinite: ({ cell }: Cell) =>
    `${quoted(cell)} is not a number that can be computed with. Write the reading, or leave the cell empty if it was not measured.`,
  spreadsheetError: ({ cell }: Cell) =>
    `${quoted(cell)} is the error of a spreadsheet's formula. Mend the formula and save again, or write the reading itself.`,
  twoNumbers: ({ cell }: Cell) =>
    `${quoted(cell)} holds more than one number; a cell takes one. Write the one that counts; a second weighing of fuel goes to fuel2.`,
  unitInCell: ({ cell }: Cell) =>
    `${quoted(cell)} holds a number with something behind it. Write the number alone; its unit belongs in the heading.`,
  decimalComma: ({ cell, asDecimal, asThousands }: Cell & { asDecimal: string; asThousands: string | null }) =>
    asThousands === null
      ? `${quoted(cell)} has a comma, and this file's decimal mark is the point. Write ${asDecimal}.`
      : `${quoted(cell)} could be ${asDecimal} (decimal comma) or ${asThousands} (comma between thousands). Write it with a point before decimals and nothing between thousands.`,
  decimalPoint: ({ cell, asDecimal, asThousands }: Cell & { asDecimal: string; asThousands: string | null }) =>
    asThousands === null
      ? `${quoted(cell)} has a point, and this file's decimal mark is the comma. Write ${asDecimal}.`
      : `${quoted(cell)} could be ${asDecimal} (decimal point) or ${asThousands} (point between thousands). Write all numbers of the file with one decimal mark and nothing between thousands.`,
  thousandsSeparator: ({ cell }: Cell) =>
    `${quoted(cell)} has marks between its digits. Write the number without anything between thousands.`,
  negativeMass: ({ cell }: Cell) =>
    `${quoted(cell)} is a negative mass. A mass is 0 or more: correct it, or leave the cell empty if it was not weighed.`,
  massTooLarge: ({ cell }: Cell) =>
    `${quoted(cell)} comes to more than a tonne, and nothing in a boil test weighs so much. Correct it, or name the unit that it is in (g, kg) in the heading.`,
  notPositive: ({ cell }: Cell) =>
    `${quoted(cell)} cannot be: the value has to be above zero. Correct it; a reading that was not taken is left empty, not zero.`,
  moistureWet: ({ cell, aboveRange }: Cell & { aboveRange: boolean }) =>
    aboveRange
      ? `${quoted(cell)} cannot be a moisture on the wet basis, which lies from 0 to under 100 %. So much can only be on the dry basis: move it to the column for moisture_dry_percent, or correct it.`
      : `${quoted(cell)} cannot be a moisture on the wet basis, which lies from 0 to under 100 %. Correct it.`,
  moistureDry: ({ cell, minimum, maximum }: Range) =>
    `${quoted(cell)} cannot be a moisture on the dry basis: expected were ${minimum} to ${maximum} %. Correct it.`,
  calorificRange: ({ cell, minimum, maximum }: Range) =>
    `${quoted(cell)} is no calorific value of a dry fuel: expected were ${minimum} to ${maximum} kJ/kg (wood has about 18 400, which is 18.4 MJ/kg). Correct it, or name the unit that it is in (kJ/kg, MJ/kg) in the heading.`,
  temperatureRange: ({ cell, minimum, maximum }: Range) =>
    `${quoted(cell)} is a temperature that no laboratory has here: expected were ${minimum} to ${maximum} °C. Correct it, or name another unit in the heading.`,
  pressureRange: ({ cell, minimum, maximum }: Range) =>
    `${quoted(cell)} is no air pressure: expected were ${minimum} to ${maximum} kPa. Correct it, or name another unit in the heading.`,
  altitudeRange: ({ cell, minimum, maximum }: Range) =>
    `${quoted(cell)} is no altitude at which people cook: expected were ${minimum} to ${maximum} m. Correct it, or name another unit in the heading.`,
  hydrogenRange: ({ cell, minimum, maximum }: Range) =>
    `${quoted(cell)} is no hydrogen content of a dry fuel: expected were ${minimum} to ${maximum} % (wood has about 6). Correct it, or leave the cell empty.`,
  durationTooLong: ({ cell }: Cell) =>
    `${quoted(cell)} is a phase of more than 12 hours. Correct it, or name another unit in the heading.`,
  notATime: ({ cell }: Cell) =>
    `${quoted(cell)} is not a time. Expected was hh:mm or hh:mm:ss on the 24-hour clock, or a date and time as 2026-03-14T08:30. Correct it.`,
  notADuration: ({ cell, form }: Cell & { form: string }) =>
    `${quoted(cell)} is not a duration written as ${form}, as the heading has it. Correct the cell or the heading.`,
  notADate: ({ cell }: Cell) =>
    `${quoted(cell)} is not a date of the calendar. Expected was year-month-day, as 2026-03-14. Correct it.`,
  ofTimes: ({ start, cell, column, message }: Cell & { start: string; column: string; message: string }) =>
    `Start ${quoted(start)}, ${column} ${quoted(cell)}: ${message}`,
  timesMixed: ({ start, cell }: Cell & { start: string }) =>
    `${quoted(start)} and ${quoted(cell)} are not written alike: both need a date or none, and both an offset from UTC or none. Write them the same way.`,
  dateDiffers: ({ cell, date }: Cell & { date: string }) =>
    `${quoted(cell)} is not on the run's date, ${quoted(date)}, or the days after it. Correct one of the two.`,
  boiledWithoutClock: () =>
    "boiled_at is given, but the phase has no start and end that it could be held against. Fill in start and end, or empty boiled_at.",
  durationDisagrees: ({ cell, minutes }: Cell & { minutes: string }) =>
    `${quoted(cell)} disagrees with start and end, which are ${minutes} min apart. Correct one of them, or empty this cell.`,
  notAReason: ({ cell }: Cell) =>
    `${quoted(cell)} is no reason for leaving the run out, and only an empty cell keeps it in. Empty the cell if the run counts; otherwise write why it does not.`,
  unknownPhase: ({ cell, known }: Cell & { known: readonly string[] }) =>
    `${quoted(cell)} is not a phase. Expected was one of ${list(known)}. Correct it.`,
  charWithoutContainer: () =>
    "The char was weighed in its container, but the empty container's mass is missing, so the char is not known. Fill in char_container_g.",
  massThousandth: ({ cell, heading }: Cell & { heading: string }) =>
    `${quoted(cell)} under ${quoted(heading)} is about a thousandth of what is usual. Are these kilograms? Then write (kg) in the heading in place of the gram.`,
  massThousandfold: ({ cell, heading }: Cell & { heading: string }) =>
    `${quoted(cell)} under ${quoted(heading)} is far more than anything in a boil test weighs. Are these grams? Then name the gram in the heading.`,
};

/** Errors and questions between rows. */
export const runProblems = {
  similarNames: ({
    column,
    cell,
    row,
    otherCell,
    otherRow,
  }: {
    column: string;
    cell: string;
    row: number;
    otherCell: string;
    otherRow: number;
  }) =>
    `${column} is ${quoted(cell)} in row ${row} and ${quoted(otherCell)} in row ${otherRow}: they differ only in capitals, blanks or marks that look alike, and count as two. Are they one? Then write them the same.`,
  conflict: ({
    column,
    row,
    otherRow,
    cell,
    otherCell,
  }: {
    column: string;
    row: number;
    otherRow: number;
    cell: string;
    otherCell: string;
  }) =>
    `${column} belongs to the whole run, but row ${row} says ${quoted(cell)} and row ${otherRow} says ${quoted(otherCell)}. Make them the same, or give the runs two names.`,
  samePhaseTwice: ({ run, phase, row, otherRow }: { run: string; phase: string; row: number; otherRow: number }) =>
    `Run ${quoted(run)} has its phase ${phase} twice, in rows ${row} and ${otherRow}. Rename the run in one of them, or leave one row out.`,
  bothMethods: ({ run, row, otherRow }: { run: string; row: number; otherRow: number }) =>
    `Run ${quoted(run)} mixes phases of two methods, in rows ${row} and ${otherRow}: cold-start, hot-start and simmer belong to one, high-, medium- and low-power to the other. Give them two names.`,
};
