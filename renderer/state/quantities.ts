import { formatFixed, type Locale, type QuantityEntry, type QuantityName, quantityTable } from "../../core/index.ts";

const tables = new Map<Locale, ReadonlyMap<QuantityName, QuantityEntry>>();

/** All quantities by name, in a language. */
export function quantitiesOf(locale: Locale): ReadonlyMap<QuantityName, QuantityEntry> {
  const known = tables.get(locale);
  if (known !== undefined) return known;
  const table = new Map(quantityTable(locale).map((quantity) => [quantity.name, quantity]));
  tables.set(locale, table);
  return table;
}

/** A value in the unit and with the decimals in which the quantity is shown. */
export function shownValue(quantity: QuantityEntry, value: number, locale: Locale): string {
  return formatFixed(value * quantity.shownFactor, quantity.decimals, locale);
}

/** "thermal efficiency, %". */
export function quantityHeading(quantity: QuantityEntry): string {
  return quantity.shownUnit === "" ? quantity.label : `${quantity.label}, ${quantity.shownUnit}`;
}
