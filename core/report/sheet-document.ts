import type { ProcedureStepId } from "../procedure/procedure-step.ts";
import type { Locale } from "../words/locale.ts";

/** Blank sheets as data: texts ready for a person, in the order in which they are read and filled; no layout. */
export interface SheetDocument {
  readonly locale: Locale;
  /** For the file's own properties. */
  readonly title: string;
  readonly properties: { readonly program: string; readonly subject: string };
  /** One a run. */
  readonly sheets: readonly Sheet[];
  /** Foot of each side, at its end: "Sheet 3 of 24, side 1 of 2". */
  readonly sideOf: (number: string, side: number, sides: number) => string;
}

/** The form of one run. */
export interface Sheet {
  /** "Sheet 3 of 24". */
  readonly number: string;
  /** "Run R07", or what stands there while it has no name. */
  readonly title: string;
  readonly study: string;
  readonly cautions: { readonly title: string; readonly texts: readonly string[] };
  /** What tells this run from others. */
  readonly head: readonly SheetField[];
  /** What is asked again at the head of a further side, so that it is known whose it is. */
  readonly furtherHead: readonly SheetField[];
  readonly bands: readonly SheetBand[];
  /** Foot of each side, at its start: study, method, program. */
  readonly foot: string;
}

/** Steps whose fields stand in one row of the form: a whole step, or short ones on the clock that follow each other. */
export interface SheetBand {
  /** `runIn`: the title as it stands before its sentence in one line, where a step follows another. */
  readonly steps: readonly {
    readonly id: ProcedureStepId;
    readonly title: string;
    readonly runIn: string;
    readonly sentence: string;
  }[];
  readonly fields: readonly SheetField[];
  /** Bands of one part belong together on one side of the sheet: those of a phase. */
  readonly part: string;
}

/** One place to write, or what is known printed in it. */
export interface SheetField {
  readonly label: string;
  /** Beside the box. */
  readonly unit: string | null;
  /** How it is written, above the box: "h:min". */
  readonly hint: string | null;
  /** Known already; null: to be filled in. */
  readonly value: string | null;
  /** A box in front of the label, to be ticked as it happens. */
  readonly isTicked: boolean;
  /** Boxes to tick one of. */
  readonly choices: readonly string[];
  /** A box to write in; false where a tick says everything. */
  readonly isWritten: boolean;
  /** Share of a row, in fields of usual width; "rest": all the room that is left, for sentences. */
  readonly width: 1 | 2 | 3 | "rest";
  /** For those who do not see the box: "to be filled in". */
  readonly blank: string;
}
