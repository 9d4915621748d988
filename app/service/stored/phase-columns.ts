import { fuelColumnNames, layoutColumns, potColumnNames } from "../../import/index.ts";

/** Columns of the layout whose texts are part of a phase as such; every other text is a cell that is kept as written. */
export const phaseTextColumns: ReadonlySet<string> = new Set(
  layoutColumns
    .filter(({ name, content, ofRun }) => content === "text" && !ofRun && name !== "phase")
    .map(({ name }) => name),
);

/** Columns that say when a phase was; they are read together. */
export const timeColumns = ["start", "end", "duration_min", "boiled_at"] as const;

/** Columns of one fuel entry. */
export type FuelColumns = (typeof fuelColumnNames)[number];

/** Columns of one pot. */
export type PotColumns = (typeof potColumnNames)[number];

const numbersOf = ({ fuel: _, ...numbers }: FuelColumns): readonly string[] => Object.values(numbers);

/** Columns of the fuel entries that come after the main one, each with the columns of its readings. */
export const furtherFuels = fuelColumnNames.slice(1).map((names) => ({ names, numbers: numbersOf(names) }));

const ofPot = ({ pot: _, ...names }: PotColumns): readonly string[] => Object.values(names);

/** Columns of the four pots, each with those of its readings. */
export const potColumns = potColumnNames.map((names) => ({ names, numbers: ofPot(names) }));

/** Columns of the main fuel. */
export const mainFuel = fuelColumnNames[0] as FuelColumns;
