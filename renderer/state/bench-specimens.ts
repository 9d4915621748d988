import type { Edit } from "../../app/contract/index.ts";

type SpecimensEdit = Extract<Edit, { kind: "specimens" }>;
export type MoistureBasis = SpecimensEdit["basis"];

/** One specimen as it is typed: a meter's reading, or masses before and after the oven, with the dish that was weighed with it. */
export interface TypedSpecimen {
  readonly reading: string;
  readonly before: string;
  readonly after: string;
  readonly dish: string;
}

export interface TypedSpecimens {
  readonly tool: "meter" | "oven";
  readonly basis: MoistureBasis | null;
  readonly specimens: readonly TypedSpecimen[];
}

export const noSpecimen: TypedSpecimen = { reading: "", before: "", after: "", dish: "" };

export const isNoSpecimen = (one: TypedSpecimen): boolean => Object.values(one).every((text) => text.trim() === "");

/** What was typed and is not taken yet: it outlives a reload, not the window. */
const draftPlace = (place: string) => `boilbench.bench.specimens.${place}`;
/** The basis and tool that were used last in a study. */
const habitPlace = (study: string) => `boilbench.bench.moisture.${study}`;

interface Habit {
  readonly tool: TypedSpecimens["tool"];
  readonly basis: MoistureBasis;
}

function read<T>(storage: () => Storage, place: string): T | null {
  try {
    return JSON.parse(storage().getItem(place) ?? "null") as T | null;
  } catch {
    return null;
  }
}

function write(storage: () => Storage, place: string, value: unknown): void {
  try {
    if (value === null) storage().removeItem(place);
    else storage().setItem(place, JSON.stringify(value));
  } catch {
    // Where nothing can be kept it is there until the page is loaded again.
  }
}

/** What was typed for this field before; else an empty line, with the basis only where one was used in this study. */
export function recallSpecimens(study: string, place: string): TypedSpecimens {
  const typed = read<TypedSpecimens>(() => sessionStorage, draftPlace(place));
  if (typed !== null) return typed;
  const habit = read<Habit>(() => localStorage, habitPlace(study));
  return { tool: habit?.tool ?? "meter", basis: habit?.basis ?? null, specimens: [noSpecimen] };
}

export function rememberSpecimens(place: string, typed: TypedSpecimens | null): void {
  const isEmpty = typed === null || typed.specimens.every(isNoSpecimen);
  write(() => sessionStorage, draftPlace(place), isEmpty ? null : typed);
}

export const rememberHabit = (study: string, { tool, basis }: Habit): void =>
  write(() => localStorage, habitPlace(study), { tool, basis });

/** The specimens as an edit names them. */
export function specimensOf({ tool, specimens }: TypedSpecimens): SpecimensEdit["specimens"] {
  return specimens
    .filter((one) => !isNoSpecimen(one))
    .map((one) =>
      tool === "meter"
        ? { reading: one.reading.trim() }
        : { before: one.before.trim(), after: one.after.trim(), dish: one.dish.trim() === "" ? null : one.dish.trim() },
    );
}
