/** A pot with water in it, or the water itself, weighs more than this, g. */
const lightestPot = 20;
/** The main fuel of a phase weighs more than this, g. */
const lightestFuel = 5;
/** Nothing that is weighed in a boil test is as heavy as this, g. */
const heaviest = 200_000;

/**
 * Whether a mass looks as if it stood under the heading of another unit: kilograms under grams make it a thousandth of the
 * usual, grams under kilograms a thousand times. Value in grams, above zero.
 */
export function massUnitDoubt(what: "pot" | "fuel", grams: number): "thousandth" | "thousandfold" | null {
  if (grams > 0 && grams < (what === "pot" ? lightestPot : lightestFuel)) return "thousandth";
  return grams > heaviest ? "thousandfold" : null;
}
