/** What is weighed, and the least that it weighs, g. */
const lightest = {
  /** A pot, empty or with water in it, or the water itself. */
  pot: 20,
  /** The main fuel of a phase, before and what is left of it; nothing left is zero. */
  fuel: 5,
  /** The container of the char, with char or without. */
  charContainer: 5,
  /** Char by itself. */
  char: 0.5,
} as const;

/** Nothing that is weighed in a boil test is as heavy as this, g. */
const heaviest = 200_000;

/**
 * Whether a mass looks as if it stood under the heading of another unit: kilograms under grams make it a thousandth of the
 * usual, grams under kilograms a thousand times. Value in grams, above zero.
 */
export function massUnitDoubt(what: keyof typeof lightest, grams: number): "thousandth" | "thousandfold" | null {
  if (grams > 0 && grams < lightest[what]) return "thousandth";
  return grams > heaviest ? "thousandfold" : null;
}
