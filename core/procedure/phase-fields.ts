import type { PhaseName } from "../readings/phase.ts";
import type { FieldBeginning, FieldGroup, FieldUnit, ProcedureField } from "./procedure-field.ts";
import type { ProcedureOptions } from "./procedure-step.ts";

const unitOf: Partial<Record<FieldGroup, FieldUnit>> = { mass: "g", temperature: "°C" };

interface Further {
  readonly unit?: FieldUnit;
  readonly needed?: boolean;
  readonly otherBasis?: string;
  readonly begins?: FieldBeginning | null;
}

/** A field of a phase's row. */
export function field(
  phase: PhaseName | null,
  column: string,
  group: FieldGroup,
  { unit, needed = false, otherBasis, begins = null }: Further = {},
): ProcedureField {
  return {
    phase,
    column,
    needed,
    unit: unit ?? unitOf[group] ?? null,
    group,
    otherBasis: otherBasis ?? null,
    begins,
  };
}

/** A reading of an earlier phase that is likely to be read again. */
export function likely(phase: PhaseName, column: string, less: string | null = null): FieldBeginning {
  return { phase, column, less, stays: false };
}

export const potNumbers = ({ pots }: ProcedureOptions): readonly number[] => [1, 2, 3, 4].slice(0, pots);

/** Those of the run itself. */
export function runFields(): ProcedureField[] {
  return [
    field(null, "run", "text", { needed: true }),
    field(null, "variant", "choice", { needed: true }),
    field(null, "order", "number"),
    field(null, "block", "choice"),
    field(null, "date", "date"),
    field(null, "operator", "choice"),
  ];
}

/**
 * What is read before the fire and usually holds all day: air, boiling point, wood and its moisture, empty pots, container.
 * In the first phase they are fields to fill; in a later one (`first` given) each begins with the first's.
 */
export function lastingFields(phase: PhaseName, first: PhaseName | null, options: ProcedureOptions): ProcedureField[] {
  const lasting = (column: string, group: FieldGroup, further: Further = {}) =>
    field(phase, column, group, {
      ...further,
      begins: first === null ? null : { phase: first, column, less: null, stays: true },
    });
  return [
    lasting("air_C", "temperature"),
    lasting("boiling_C", "temperature"),
    lasting("altitude_m", "number", { unit: "m" }),
    lasting("humidity_percent", "number", { unit: "%" }),
    lasting("fuel", "choice"),
    lasting("moisture_wet_percent", "number", { unit: "%", needed: true, otherBasis: "moisture_dry_percent" }),
    lasting("fuel_size_mm", "text", { unit: "mm" }),
    lasting("wind", "text"),
    ...potNumbers(options).map((pot) => lasting(`pot${pot}_empty_g`, "mass", { needed: true })),
    lasting("char_container_g", "mass"),
  ];
}

/** With or without a lid: usually the same in all phases of a run. */
export function lidField(phase: PhaseName, first: PhaseName | null): ProcedureField {
  const begins = first === null ? null : { phase: first, column: "lid", less: null, stays: true };
  return field(phase, "lid", "choice", { begins });
}

/** Pots, water and wood as a phase begins. `pots` says with what the pots' fields begin. */
export function weighFields(
  phase: PhaseName,
  options: ProcedureOptions,
  begins: { readonly fuel: FieldBeginning | null; readonly potsOf: PhaseName | null } = { fuel: null, potsOf: null },
): ProcedureField[] {
  const ofPot = (pot: number, unit: "g" | "C") =>
    begins.potsOf === null ? null : likely(begins.potsOf, `pot${pot}_end_${unit}`);
  return [
    ...potNumbers(options).flatMap((pot) => [
      field(phase, `pot${pot}_start_g`, "mass", { needed: true, begins: ofPot(pot, "g") }),
      field(phase, `pot${pot}_start_C`, "temperature", { needed: true, begins: ofPot(pot, "C") }),
    ]),
    field(phase, "fuel_start_g", "mass", { needed: true, begins: begins.fuel }),
  ];
}

export function startField(phase: PhaseName, begins: FieldBeginning | null = null): ProcedureField {
  return field(phase, "start", "time", { needed: true, begins });
}

/** The moment at which a phase ends, and how hot the water is then. */
export function endFields(phase: PhaseName, options: ProcedureOptions): ProcedureField[] {
  return [
    field(phase, "end", "time", { needed: true }),
    ...potNumbers(options).map((pot) => field(phase, `pot${pot}_end_C`, "temperature", { needed: true })),
  ];
}

/** Pots first: they lose steam while they wait. Then wood, char where it is weighed, and what was caught of the smoke. */
export function weighAfterFields(phase: PhaseName, options: ProcedureOptions, char: boolean): ProcedureField[] {
  return [
    ...potNumbers(options).map((pot) => field(phase, `pot${pot}_end_g`, "mass", { needed: true })),
    field(phase, "fuel_end_g", "mass", { needed: true }),
    ...(char ? [field(phase, "char_with_container_g", "mass")] : []),
    ...(options.emissions ? [field(phase, "co_g", "mass"), field(phase, "pm25_mg", "mass", { unit: "mg" })] : []),
  ];
}

/** What departed from the procedure in each phase, and anything else; the note stands in the first phase's row. */
export function unusualFields(phases: readonly [PhaseName, ...PhaseName[]]): ProcedureField[] {
  return [...phases.map((phase) => field(phase, "deviation", "text")), field(phases[0], "note", "text")];
}
