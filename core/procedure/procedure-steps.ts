import type { Method, PhaseName } from "../readings/phase.ts";
import { isoProcedure } from "./iso-procedure.ts";
import { field } from "./phase-fields.ts";
import type { ProcedureField } from "./procedure-field.ts";
import type { ProcedureOptions, ProcedureStep } from "./procedure-step.ts";
import { wbtProcedure } from "./wbt-procedure.ts";

/**
 * The steps of one run in the order in which they are done: the one source of the Bench and of blank sheets. Each column
 * that the import needs of a phase is a field of exactly one step. Further wood is not in it (`furtherFuelFields`), nor
 * leaving the run out.
 */
export function procedureSteps(method: Method, options: ProcedureOptions): readonly ProcedureStep[] {
  return method === "wbt" ? wbtProcedure(options) : isoProcedure(options);
}

/**
 * Fields of a further fuel entry of a phase, on demand: wood added while it burns, kindling, a second fuel. Entry 1 is the
 * wood of the steps.
 */
export function furtherFuelFields(phase: PhaseName, entry: 2 | 3 | 4): readonly ProcedureField[] {
  return [
    field(phase, `fuel${entry}`, "choice"),
    field(phase, `fuel${entry}_moisture_wet_percent`, "number", {
      unit: "%",
      needed: true,
      otherBasis: `fuel${entry}_moisture_dry_percent`,
    }),
    field(phase, `fuel${entry}_start_g`, "mass", { needed: true }),
    field(phase, `fuel${entry}_end_g`, "mass", { needed: true }),
  ];
}
