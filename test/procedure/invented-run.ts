import { emptySettingsFile, type ReadingsRead, readReadings, readTable } from "../../app/import/index.ts";
import {
  type FieldPlace,
  fieldKey,
  type Method,
  methodOfPhase,
  type ProcedureField,
  type ProcedureOptions,
  type ProcedureStep,
  phaseNames,
  procedureSteps,
} from "../../core/index.ts";

/** Every setting of the procedure that makes a difference to its steps. */
export const allProcedures: { method: Method; options: ProcedureOptions; steps: readonly ProcedureStep[] }[] = (
  ["wbt", "iso"] as const
).flatMap((method) =>
  ([1, 2, 3, 4] as const).flatMap((pots) =>
    [false, true].flatMap((charAtHotStart) =>
      [false, true].map((emissions) => {
        const options = { pots, charAtHotStart, emissions };
        return { method, options, steps: procedureSteps(method, options) };
      }),
    ),
  ),
);

/** Invented: what is typed into a run, by phase and column without the number of the pot. */
const typed: Readonly<Record<string, string>> = {
  run: "R01",
  variant: "clay insert",
  date: "2026-03-10",
  order: "1",
  block: "day 1",
  operator: "A. N.",
  air_C: "24.5",
  boiling_C: "98.2",
  altitude_m: "510",
  humidity_percent: "60",
  fuel: "eucalyptus",
  moisture_wet_percent: "11.9",
  fuel_size_mm: "20 to 30",
  wind: "calm",
  lid: "off",
  char_container_g: "248",
  pot_empty_g: "815",
  pot_start_g: "5818",
  pot_start_C: "22.4",
  pot_end_C: "98.1",
  pot_end_g: "5667",
  fuel_start_g: "912",
  fuel_end_g: "378",
  char_with_container_g: "309",
  co_g: "12",
  pm25_mg: "800",
  deviation: "stick fell out",
  note: "bark left on",
  "cold-start start": "08:10",
  "cold-start end": "08:37",
  "hot-start start": "08:45",
  "hot-start end": "09:10",
  "simmer start": "09:12",
  "simmer end": "09:57",
  "simmer pot_end_g": "4953",
  "simmer pot_end_C": "96.4",
  "simmer fuel_start_g": "462",
  "simmer fuel_end_g": "67",
  "simmer char_with_container_g": "322",
  "high-power start": "08:00",
  "high-power boiled_at": "08:20",
  "high-power end": "08:30",
  "medium-power start": "08:40",
  "medium-power boiled_at": "09:05",
  "medium-power end": "09:10",
  "low-power start": "09:20",
  "low-power boiled_at": "09:49",
  "low-power end": "09:50",
  "medium-power char_at_start_g": "20",
  "low-power char_at_start_g": "0",
};

export type Sheet = Map<string, { readonly field: ProcedureField; text: string }>;

function typedText({ phase, column }: FieldPlace): string {
  const plain = column.replace(/^pot[1-4]_/, "pot_");
  return typed[`${phase} ${plain}`] ?? typed[plain] ?? "";
}

/**
 * Goes through the steps as a technician does: a field that begins with another's value keeps it where that is usual or
 * nothing else is typed; `change` types something else.
 */
export function fillIn(steps: readonly ProcedureStep[], change: (field: ProcedureField) => string | null): Sheet {
  const sheet: Sheet = new Map();
  const textOf = (place: FieldPlace) => {
    const found = sheet.get(fieldKey(place));
    if (found === undefined) throw new Error(`begins with ${fieldKey(place)}, which is not filled yet`);
    return found.text;
  };
  for (const field of steps.flatMap(({ fields }) => fields)) {
    const { begins } = field;
    let text = typedText(field);
    const mayKeep = begins !== null && typed[`${field.phase} ${field.column}`] === undefined;
    if (begins !== null && mayKeep) {
      text = textOf(begins);
      if (begins.less !== null && text !== "") {
        text = String(Number(text) - Number(textOf({ phase: begins.phase, column: begins.less })));
      }
    }
    sheet.set(fieldKey(field), { field, text: change(field) ?? text });
  }
  return sheet;
}

/** The rows of a readings file, one a phase. */
export function readingsOf(sheet: Sheet): string {
  const cells = [...sheet.values()];
  const columns = [...new Set(cells.map(({ field }) => field.column))];
  const phases = phaseNames.filter((phase) => cells.some(({ field }) => field.phase === phase));
  const lines = phases.map((phase) => {
    const row = columns.map((column) => (sheet.get(fieldKey({ phase, column })) ?? sheet.get(column))?.text ?? "");
    // One value that needs no quotation marks would pass unseen as two cells.
    if (row.some((text) => /[",\n]/.test(text))) throw new Error("write it without commas");
    return [...row, phase, "18400"].join(",");
  });
  return `${[[...columns, "phase", "net_calorific_kJ_per_kg"].join(","), ...lines].join("\n")}\n`;
}

export function importText(text: string): ReadingsRead {
  return readReadings({ table: readTable(new TextEncoder().encode(text), "sheet.csv"), settings: emptySettingsFile() });
}

export const phasesOf = (method: Method) => phaseNames.filter((phase) => methodOfPhase(phase) === method);
