import * as v from "valibot";
import { type Locale, wordsFor } from "../../core/index.ts";
import { parseExactDecimal, toNumber } from "./exact-decimal.ts";
import { longestCell } from "./limits.ts";
import { readNumber } from "./read-number.ts";
import { faultText } from "./settings-reader.ts";
import {
  altitudeSchema,
  calorificSchema,
  confidenceSchema,
  dateSchema,
  emptyMassSchema,
  fractionSchema,
  hydrogenSchema,
  positiveSchema,
  pressureSchema,
  type SettingsFault,
  seedSchema,
  trialsSchema,
  volumeSchema,
} from "./settings-schema.ts";

const schemas = {
  calorificValue: calorificSchema,
  hydrogen: hydrogenSchema,
  notPositive: positiveSchema,
  confidence: confidenceSchema,
  fraction: fractionSchema,
  emptyMass: emptyMassSchema,
  volume: volumeSchema,
  altitude: altitudeSchema,
  pressure: pressureSchema,
  date: dateSchema,
  trials: trialsSchema,
  seed: seedSchema,
} satisfies Readonly<Record<string, v.GenericSchema<unknown, unknown>>>;

/** What a value of the settings must be, by what is said where it is not. */
export type EnteredKind = keyof typeof schemas;

export type Entered<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly message: string };

/** A value against the rule that a settings file holds it to; a sentence where it breaks it. */
function checked<T>(value: T, kind: EnteredKind, locale: Locale): Entered<T> {
  // Typed in per cent: what a settings file says of fractions would mislead.
  if (kind === "fraction" || kind === "confidence") {
    const { percentRange, confidenceRange } = wordsFor(locale).setUpWork;
    if (v.is(schemas[kind] as v.GenericSchema<unknown, unknown>, value)) return { ok: true, value };
    return { ok: false, message: kind === "fraction" ? percentRange : confidenceRange };
  }
  const result = v.safeParse(schemas[kind] as v.GenericSchema<unknown, unknown>, value, { abortEarly: true });
  if (result.success) return { ok: true, value };
  return {
    ok: false,
    message: faultText(result.issues[0].message as SettingsFault, wordsFor(locale).problems.settings),
  };
}

/**
 * A number of the settings that a person typed: comma or point before decimals, no thousands mark. `isPercent`: it is typed in per
 * cent and kept as a fraction, exactly a hundredth of what was typed.
 */
export function enteredNumber(text: string, kind: EnteredKind, locale: Locale, isPercent = false): Entered<number> {
  const { cell: words } = wordsFor(locale).problems.entry;
  const cell = text.trim();
  if (cell.length > longestCell) return { ok: false, message: words.notANumber({ cell }) };
  const read = readNumber(cell, "either");
  if (read.ok) {
    const { digits, exponent } = read.value;
    const value = toNumber(isPercent ? { digits, exponent: exponent - 2 } : read.value);
    return checked(value, kind, locale);
  }
  switch (read.because) {
    case "thousands-separator":
    case "other-mark":
      return { ok: false, message: words.thousandsSeparator({ cell }) };
    case "two-numbers":
      return { ok: false, message: words.twoNumbers({ cell }) };
    case "unit-in-cell":
      return { ok: false, message: words.unitInCell({ cell }) };
    case "spreadsheet-error":
      return { ok: false, message: words.spreadsheetError({ cell }) };
    default:
      return { ok: false, message: words.notANumber({ cell }) };
  }
}

/** A day that a person typed: `2026-03-14`. */
export function enteredDate(text: string, locale: Locale): Entered<string> {
  return checked(text.trim(), "date", locale);
}

/** A number as it is typed in: the shortest text that reads back to it. `isPercent`: a fraction, in per cent. */
export function numberEntry(value: number, isPercent = false): string {
  const text = String(value);
  const exact = parseExactDecimal(text);
  if (!isPercent || exact === null) return text;
  return String(toNumber({ digits: exact.digits, exponent: exact.exponent + 2 }));
}
