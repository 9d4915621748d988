/** A decimal number as written: digits times a power of ten, with nothing lost. */
export interface ExactDecimal {
  readonly digits: bigint;
  readonly exponent: number;
}

const decimalForm = /^([+\-\u2212]?)(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d+))?$/;

/** A plain decimal or exponent form as exact decimal; null where it is none, or too large or small for a number. */
export function parseExactDecimal(text: string): ExactDecimal | null {
  const parts = decimalForm.exec(text);
  if (parts === null) return null;
  const [, sign = "", whole = "", fraction = "", exponentText = "0"] = parts;
  if (whole === "" && fraction === "") return null;
  const digits = BigInt(whole + fraction);
  if (digits === 0n) return { digits, exponent: 0 };
  const exponent = Number(exponentText) - fraction.length;
  const value = { digits: sign === "" || sign === "+" ? digits : -digits, exponent };
  const number = toNumber(value);
  // Beyond what a number can hold the reading would silently become infinite or zero.
  return Number.isFinite(number) && number !== 0 ? value : null;
}

/** The nearest number. */
export function toNumber({ digits, exponent }: ExactDecimal): number {
  return Number(`${digits}e${exponent}`);
}

export function addExact(left: ExactDecimal, right: ExactDecimal): ExactDecimal {
  const exponent = Math.min(left.exponent, right.exponent);
  const aligned = (value: ExactDecimal) => value.digits * 10n ** BigInt(value.exponent - exponent);
  return { digits: aligned(left) + aligned(right), exponent };
}

export function multiplyExact(left: ExactDecimal, right: ExactDecimal): ExactDecimal {
  return { digits: left.digits * right.digits, exponent: left.exponent + right.exponent };
}
