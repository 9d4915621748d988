/** How a number may have come to be another: the most telling first. */
export const slipKinds = ["kilograms", "decimal", "exchanged", "missingDigit", "extraDigit", "neighbourDigit"] as const;
export type SlipKind = (typeof slipKinds)[number];

export interface Resemblance {
  readonly kind: SlipKind;
  /** What may have been meant. */
  readonly value: number;
}

/** Digits beside each other on the row of digits or on the keypad. */
const neighbours: Readonly<Record<string, string>> = {
  0: "912",
  1: "2047",
  2: "1350",
  3: "246",
  4: "35179",
  5: "4628",
  6: "5739",
  7: "684",
  8: "7950",
  9: "806",
};

function* spellings(text: string): Generator<readonly [SlipKind, string]> {
  const digits = [...text].flatMap((sign, index) => (/\d/.test(sign) ? [index] : []));
  const withDigits = (at: readonly [number, string][]) => {
    const signs = [...text];
    for (const [index, sign] of at) signs[index] = sign;
    return signs.join("");
  };
  for (const [place, index] of digits.entries()) {
    const following = digits[place + 1];
    const digit = text[index] ?? "";
    if (following !== undefined && text[following] !== digit) {
      yield [
        "exchanged",
        withDigits([
          [index, text[following] ?? ""],
          [following, digit],
        ]),
      ];
    }
    for (const other of neighbours[digit] ?? "") yield ["neighbourDigit", withDigits([[index, other]])];
    if (digits.length > 1) yield ["extraDigit", text.slice(0, index) + text.slice(index + 1)];
  }
  for (let at = 0; at <= text.length; at += 1) {
    for (const digit of "0123456789") yield ["missingDigit", text.slice(0, at) + digit + text.slice(at)];
  }
}

/**
 * The usual value that a number most resembles: as kilograms, with its decimal point moved, with two neighbouring digits
 * exchanged, with a digit more or less, or with one digit that lies beside it on the keyboard.
 *
 * @param distance how far a value is from what is usual; null where it is not usual at all
 */
export function resemblance(value: number, distance: (meant: number) => number | null): Resemblance | null {
  const text = String(value);
  if (!/^\d+(\.\d+)?$/.test(text)) return null;
  const best = new Map<SlipKind, { readonly value: number; readonly distance: number }>();
  const consider = (kind: SlipKind, meant: number) => {
    const away = meant === value ? null : distance(meant);
    if (away !== null && away < (best.get(kind)?.distance ?? Number.POSITIVE_INFINITY)) {
      best.set(kind, { value: meant, distance: away });
    }
  };
  if (value < 100) consider("kilograms", Math.round(value * 1e6) / 1e3);
  for (const factor of [10, 100, 0.1, 0.01, 0.001]) consider("decimal", Math.round(value * factor * 1e6) / 1e6);
  for (const [kind, spelling] of spellings(text)) consider(kind, Number(spelling));
  for (const kind of slipKinds) {
    const found = best.get(kind);
    if (found !== undefined) return { kind, value: found.value };
  }
  return null;
}
