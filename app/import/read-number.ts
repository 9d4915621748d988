import { type ExactDecimal, parseExactDecimal } from "./exact-decimal.ts";

export type DecimalMark = "." | ",";

/** What a number may have before its decimals: the one mark of a file, or, where a person enters a single number, either. */
export type DecimalRule = DecimalMark | "either";

export type NumberFault =
  | "not-a-number"
  | "not-finite"
  | "spreadsheet-error"
  | "two-numbers"
  | "unit-in-cell"
  | "thousands-separator"
  | "other-mark";

export type NumberRead =
  | { readonly ok: true; readonly value: ExactDecimal }
  | {
      readonly ok: false;
      readonly because: Exclude<NumberFault, "other-mark">;
    }
  | {
      /** The comma where the point is the decimal mark, or the other way about. */
      readonly ok: false;
      readonly because: "other-mark";
      readonly asDecimal: string;
      /** What it would be if the mark parted thousands; null where it cannot. */
      readonly asThousands: string | null;
    };

/** Which decimal mark a number cell uses; null where it uses none, or is no number. */
export function decimalMarkOf(cell: string): DecimalMark | null {
  const text = cell.trim();
  if (/^[+\-\u2212]?\d*,\d+([eE][+-]?\d+)?$/.test(text)) return ",";
  return /^[+\-\u2212]?\d*\.\d+([eE][+-]?\d+)?$/.test(text) ? "." : null;
}

const one = String.raw`[+\-\u2212]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?`;
const severalNumbers = new RegExp(
  String.raw`^${one}(?:\s*(?:[/;|&+\u2013\u2014-]|\bto\b|\band\b|±|,\s)\s*|\s+)${one}`,
  "i",
);
const numberFirst = new RegExp(String.raw`^[~<>=\u2248]*\s*${one}\s*[^\d\s.,]`);

/** What is wrong with a text that is no number. */
function numberFault(text: string): Exclude<NumberFault, "other-mark"> {
  if (/^[+-]?(nan|inf(inity)?|∞)$/i.test(text)) return "not-finite";
  if (text.startsWith("#")) return "spreadsheet-error";
  if (/^[+-]?\d{1,3}([\s\u00a0\u202f'’.,]\d{3})+([.,]\d*)?$/.test(text)) return "thousands-separator";
  // Plain digits that are no number are too large or too small for one.
  if (/^[+\-\u2212]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(text)) return "not-finite";
  if (severalNumbers.test(text)) return "two-numbers";
  return numberFirst.test(text) ? "unit-in-cell" : "not-a-number";
}

/**
 * A number cell, strictly: one plain decimal or exponent form with the file's decimal mark. Never a guess. Where either mark
 * will do there is no thousands separator to take it for, so a lone comma or point is the decimal mark.
 */
export function readNumber(cell: string, rule: DecimalRule): NumberRead {
  const text = cell.trim();
  const used = decimalMarkOf(text);
  const mark = rule === "either" ? (used ?? (/^[^.,]*,$/.test(text) ? "," : ".")) : rule;
  if (used !== null && used !== mark) {
    const [whole = "", decimals = ""] = text.split(used);
    const couldBeThousands = /^[+\-\u2212]?[1-9]\d{0,2}$/.test(whole) && /^\d{3}$/.test(decimals);
    return {
      ok: false,
      because: "other-mark",
      asDecimal: `${whole === "" ? "0" : whole}${mark}${decimals}`,
      asThousands: couldBeThousands ? whole + decimals : null,
    };
  }
  const value = parseExactDecimal(mark === "," ? text.replace(",", ".") : text);
  if (value !== null && (mark === "." || !text.includes("."))) return { ok: true, value };
  // Long texts are not looked at more closely: no number is so long.
  return { ok: false, because: text.length > 200 ? "not-a-number" : numberFault(text) };
}
