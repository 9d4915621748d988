import type { PhaseName } from "../readings/phase.ts";

/** What is written into a field: a number on a balance, a thermometer or another instrument; a time or day; words; one of a few known names. */
export type FieldGroup = "mass" | "temperature" | "number" | "time" | "date" | "text" | "choice";

/** Unit that stands beside a field, as the readings layout has it. */
export type FieldUnit = "g" | "mg" | "°C" | "%" | "m" | "mm";

/** One cell of a run: a column of the readings layout in the row of a phase. */
export interface FieldPlace {
  /** Null: the run's own, the same in each of its rows. */
  readonly phase: PhaseName | null;
  /** Name in the readings layout: `pot1_start_g`. */
  readonly column: string;
}

/** The value that a field has until somebody changes it; it is empty where what it begins with is. */
export interface FieldBeginning extends FieldPlace {
  /** A column of the same phase whose value is taken off: container with char, less the container, is net char. */
  readonly less: string | null;
  /**
   * Usually one reading all through the run (empty pot, container, moisture): a sheet asks for it once, and the Bench passes
   * over it. False: a new reading that often equals the earlier one, and is looked at.
   */
  readonly stays: boolean;
}

/** One reading, in the place where a technician takes it. */
export interface ProcedureField extends FieldPlace {
  /** The import refuses the row without it. */
  readonly needed: boolean;
  readonly unit: FieldUnit | null;
  readonly group: FieldGroup;
  /** The column to which the value goes instead where it was taken on the other basis: moisture of the dry wood. */
  readonly otherBasis: string | null;
  readonly begins: FieldBeginning | null;
}

/** What tells a field from all others of a run: "cold-start pot1_start_g". */
export function fieldKey({ phase, column }: FieldPlace): string {
  return phase === null ? column : `${phase} ${column}`;
}
