import { isBoilingPhase, isoPhases } from "../readings/phase.ts";
import type { FieldPlace } from "./procedure-field.ts";

/** Fields that are called and explained alike, whatever the pot or the fuel entry. */
export type FieldKind =
  | "run"
  | "variant"
  | "order"
  | "block"
  | "date"
  | "operator"
  | "air"
  | "boiling"
  | "altitude"
  | "humidity"
  | "fuel"
  | "moisture"
  | "fuelSize"
  | "wind"
  | "lid"
  | "potEmpty"
  | "potBefore"
  | "potAfter"
  | "waterBefore"
  | "waterAfter"
  | "waterAtBoil"
  | "fuelBefore"
  | "fuelAfter"
  | "charContainer"
  | "charWithContainer"
  | "charAtStart"
  | "lit"
  | "begun"
  | "boiled"
  | "over"
  | "carbonMonoxide"
  | "particulateMatter"
  | "deviation"
  | "note";

const byColumn: Readonly<Record<string, FieldKind>> = {
  run: "run",
  variant: "variant",
  order: "order",
  block: "block",
  date: "date",
  operator: "operator",
  air_C: "air",
  boiling_C: "boiling",
  altitude_m: "altitude",
  humidity_percent: "humidity",
  fuel: "fuel",
  fuel_size_mm: "fuelSize",
  moisture_wet_percent: "moisture",
  moisture_dry_percent: "moisture",
  wind: "wind",
  lid: "lid",
  fuel_start_g: "fuelBefore",
  fuel_end_g: "fuelAfter",
  char_container_g: "charContainer",
  char_with_container_g: "charWithContainer",
  char_at_start_g: "charAtStart",
  boiled_at: "boiled",
  co_g: "carbonMonoxide",
  pm25_mg: "particulateMatter",
  deviation: "deviation",
  note: "note",
  pot_empty_g: "potEmpty",
  pot_start_g: "potBefore",
  pot_end_g: "potAfter",
  pot_start_C: "waterBefore",
  pot_end_C: "waterAfter",
};

/** A field's kind, and the pot or the further fuel entry that it is of. Throws for a column that no step has. */
export function fieldKind({ phase, column }: FieldPlace): {
  readonly kind: FieldKind;
  readonly pot: number | null;
  readonly entry: number | null;
} {
  const pot = /^pot([1-4])_/.exec(column);
  const entry = /^fuel([2-4])(?=_|$)/.exec(column);
  const further = entry === null ? null : { pot: null, entry: Number(entry[1]) };
  const numbers = further ?? { pot: pot === null ? null : Number(pot[1]), entry: null };
  const boils = phase !== null && isBoilingPhase(phase);
  const plain = column
    .replace(/^pot[1-4]_/, "pot_")
    .replace(/^fuel[2-4]/, "fuel")
    .replace(/^fuel_moisture/, "moisture");
  if (plain === "start") {
    const isLit = boils || phase === isoPhases[0];
    return { kind: isLit ? "lit" : "begun", ...numbers };
  }
  if (plain === "end") return { kind: boils ? "boiled" : "over", ...numbers };
  if (plain === "pot_end_C" && boils) return { kind: "waterAtBoil", ...numbers };
  const kind = byColumn[plain];
  if (kind === undefined) throw new RangeError(`no step of a run has a field ${column}`);
  return { kind, ...numbers };
}
