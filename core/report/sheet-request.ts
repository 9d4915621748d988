import type { ProcedureOptions } from "../procedure/procedure-step.ts";
import type { Method, PotNumber } from "../readings/phase.ts";
import type { Locale } from "../words/locale.ts";

/** What is known of a run before it is made. */
export interface SheetRun {
  readonly run: string | null;
  readonly variant: string | null;
  /** Position in which it is to be made. */
  readonly order: number | null;
  readonly block: string | null;
}

/** What is printed into every sheet of a study; null: to be filled in by hand. */
export interface SheetKnown {
  /** ISO 8601. */
  readonly date: string | null;
  readonly operator: string | null;
  /** Names of the study's fuels: one is printed, two or three are ticked, more are written by hand. */
  readonly fuels: readonly string[];
  /** Empty masses, g. */
  readonly pots: readonly { readonly pot: PotNumber; readonly emptyGrams: number }[];
  readonly charContainerGrams: number | null;
  readonly altitudeMetres: number | null;
}

export const nothingKnown: SheetKnown = {
  date: null,
  operator: null,
  fuels: [],
  pots: [],
  charContainerGrams: null,
  altitudeMetres: null,
};

export interface SheetRequest {
  readonly study: string;
  readonly method: Method;
  readonly options: ProcedureOptions;
  /** Runs of the plan, one sheet each; or so many sheets for runs of which nothing is known. */
  readonly runs: readonly SheetRun[] | { readonly blank: number };
  readonly known: SheetKnown;
  /** Version of the program. */
  readonly version: string;
  readonly locale: Locale;
}
