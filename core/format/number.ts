import type { Locale } from "../words/locale.ts";

const narrowSpace = "\u202f";
const minus = "\u2212";

/** How a language writes numbers: mark of the decimals, and what stands between thousands. */
const marks: Record<Locale, { decimal: string; group: string }> = { en: { decimal: ".", group: narrowSpace } };

/**
 * A number with a fixed count of decimals, rounded half away from zero on its exact decimal expansion, with a true minus
 * sign and a narrow space between thousands. A result of zero has no sign.
 */
export function formatFixed(value: number, decimals: number, locale: Locale): string {
  const { decimal, group } = marks[locale];
  const text = fixedText(Math.abs(value), Math.min(20, Math.max(0, decimals)));
  const [whole = "0", fraction] = text.split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+(?!\d))/g, group);
  const isZero = !/[1-9]/.test(text);
  return `${value < 0 && !isZero ? minus : ""}${grouped}${fraction === undefined ? "" : decimal + fraction}`;
}

/** From 1e21 on `toFixed` would write an exponent; such a number is whole. */
function fixedText(size: number, decimals: number): string {
  if (size < 1e21 || !Number.isFinite(size)) return size.toFixed(decimals);
  return BigInt(size).toString() + (decimals > 0 ? `.${"0".repeat(decimals)}` : "");
}

/**
 * Decimals that show `digits` significant digits of `magnitude`; negative powers are cut at 0 decimals.
 * JCGM 100:2008, 7.2.6: an uncertainty is given with at most two significant digits.
 */
export function decimalsFor(magnitude: number, digits = 2): number {
  const size = Math.abs(magnitude);
  if (!(size > 0) || !Number.isFinite(size)) return 0;
  const exponent = Number(size.toExponential(digits - 1).split("e")[1]);
  return Math.min(12, Math.max(0, digits - 1 - exponent));
}

/** A number with so many significant digits, never in exponent form where it lies between 1e-6 and 1e15. */
export function formatSignificant(value: number, digits: number, locale: Locale): string {
  return formatFixed(value, value === 0 ? 0 : decimalsFor(value, digits), locale);
}
