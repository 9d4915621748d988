import type { PhaseName } from "../../readings/phase.ts";
import type { PhaseNumbers, PotNumbers, WoodNumbers } from "../run-numbers.ts";
import type { NumberedRun } from "./numbered-run.ts";

/** What a reading's column holds in a phase; NaN where there is nothing. */
export function readingOf(phase: PhaseNumbers, column: string): number {
  const wood = woodColumn(column);
  if (wood !== null) return phase.woods[wood.index]?.[wood.field] ?? Number.NaN;
  const pot = potColumn(column);
  if (pot !== null) return phase.pots.find((one) => one.pot === pot.number)?.[pot.field] ?? Number.NaN;
  const field = ownFields[column];
  return field === undefined ? Number.NaN : phase[field];
}

/** The run as it would be with another number in a column of a phase. */
export function withReading(run: NumberedRun, name: PhaseName, column: string, value: number): NumberedRun {
  return { ...run, phases: run.phases.map((phase) => (phase.phase === name ? changed(phase, column, value) : phase)) };
}

const ownFields: Readonly<
  Record<string, "start" | "end" | "minutes" | "withContainer" | "container" | "char" | "air" | "boiling">
> = {
  start: "start",
  end: "end",
  duration_min: "minutes",
  char_with_container_g: "withContainer",
  char_container_g: "container",
  char_g: "char",
  air_C: "air",
  boiling_C: "boiling",
};

const woodFields: Readonly<Record<string, "before" | "after" | "percent">> = {
  start_g: "before",
  end_g: "after",
  moisture_wet_percent: "percent",
  moisture_dry_percent: "percent",
};

const potFields: Readonly<Record<string, Exclude<keyof PotNumbers, "pot" | "isNet">>> = {
  empty_g: "empty",
  start_g: "start",
  end_g: "end",
  water_start_g: "start",
  water_end_g: "end",
  start_C: "from",
  end_C: "to",
};

function woodColumn(column: string): { readonly index: number; readonly field: "before" | "after" | "percent" } | null {
  const [, number, rest = ""] = /^(?:fuel(\d?)_)?(.*)$/.exec(column) ?? [];
  const field = woodFields[rest];
  return field === undefined ? null : { index: Number(number || 1) - 1, field };
}

function potColumn(
  column: string,
): { readonly number: number; readonly field: Exclude<keyof PotNumbers, "pot" | "isNet"> } | null {
  const [, number, rest = ""] = /^pot(\d)_(.*)$/.exec(column) ?? [];
  const field = potFields[rest];
  return field === undefined ? null : { number: Number(number), field };
}

function changed(phase: PhaseNumbers, column: string, value: number): PhaseNumbers {
  const wood = woodColumn(column);
  if (wood !== null) {
    const woods = phase.woods.map(
      (one, index): WoodNumbers => (index === wood.index ? { ...one, [wood.field]: value } : one),
    );
    return { ...phase, woods };
  }
  const pot = potColumn(column);
  if (pot !== null) {
    const pots = phase.pots.map((one) => (one.pot === pot.number ? { ...one, [pot.field]: value } : one));
    return { ...phase, pots };
  }
  const field = ownFields[column];
  if (field === undefined) return phase;
  const next = { ...phase, [field]: value };
  if (field === "start" || field === "end") return { ...next, minutes: next.end - next.start };
  if (field === "boiling") return { ...next, boilingHere: value };
  if (field === "withContainer" || field === "container") return { ...next, char: next.withContainer - next.container };
  return next;
}
