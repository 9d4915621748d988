import { type Locale, type Run, type Settings, soFar } from "../../../core/index.ts";
import type { BenchRunView } from "../../contract/index.ts";
import type { FieldSource } from "./bench-fields.ts";
import type { BenchRecord } from "./bench-record.ts";
import { begunPhases, isRecorded } from "./lacks.ts";

/** Results by phase, as far as they go. */
export function soFarOf(
  run: Run,
  record: BenchRecord,
  settings: Settings,
  cells: FieldSource["cells"],
  locale: Locale,
): BenchRunView["soFar"] {
  const phases = soFar(
    run,
    settings,
    record,
    begunPhases(run, record),
    (field) => field.phase !== null && isRecorded(cells(field.phase), field),
    locale,
  );
  return phases.map(({ title, results }) => ({
    title,
    results: results.map(({ label, text, because }) => ({ label, text, because })),
  }));
}
