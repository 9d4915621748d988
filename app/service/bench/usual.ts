import {
  type Locale,
  localBoilingPoint,
  type ProcedureField,
  type Run,
  type RunFacts,
  UsualReadings,
} from "../../../core/index.ts";
import type { FieldSource } from "./bench-fields.ts";

/** What is usual at each field of a run. */
export function usualIn(
  run: Run,
  facts: readonly RunFacts[],
  { cells, known }: Pick<FieldSource, "cells" | "known">,
  locale: Locale,
): (field: ProcedureField) => string | null {
  const usual = new UsualReadings(run, facts, locale);
  const read = run.phases.map(({ boilingPoint }) => localBoilingPoint(boilingPoint)).find((one) => one !== null);
  const offered = known.sameDay?.cells.get("boiling_C") ?? known.setUp.get("boiling_C");
  const boiling = read ?? (offered === undefined ? null : Number(offered));
  return (field) => usual.at(field, cells, boiling);
}
