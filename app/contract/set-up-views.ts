import type { SetUpSubject } from "./requests.ts";

/** A field of what is set up. All texts are ready to be shown. */
export interface SetUpFieldView {
  /** As edits name it: "name", "netCalorific_kJ_per_kg", "factor:gap mm". */
  readonly field: string;
  readonly name: string;
  readonly unit: string | null;
  readonly kind: "text" | "number" | "date" | "choice";
  readonly needed: boolean;
  /** What it is, how to find it, and what it is used for. */
  readonly what: string;
  readonly choices: readonly { readonly value: string; readonly label: string }[] | null;
}

export interface SetUpItemView {
  /** Null: the one of which there is always one (place, study). */
  readonly item: string | null;
  /** What it is called, where no field says so: "thermometer". */
  readonly title: string | null;
  /** What it is called where it is spoken of, if neither title nor first field tells it from the others. */
  readonly called?: string;
  /** By field of the section. */
  readonly texts: readonly string[];
  /** What it comes to: "water boils at 94.6 °C", "used in 12 runs". */
  readonly detail: string;
  readonly isRemovable: boolean;
}

/** One table: variants, fuels, pots, instruments, errors, calibrations; or one form: place, study, Monte Carlo. */
export interface SetUpSectionView {
  readonly subject: SetUpSubject;
  readonly title: string;
  readonly sentence: string;
  readonly fields: readonly SetUpFieldView[];
  readonly items: readonly SetUpItemView[];
  /** What the key that adds one says; null where none can be added. */
  readonly add: string | null;
  /** Further fields can be added: design factors. */
  readonly addField: string | null;
  /** Names that such a field often has: "gap mm". */
  readonly fieldSuggestions: readonly string[];
  /** What can be taken over; null where nothing is. */
  readonly catalogue: SetUpCatalogueView | null;
}

/** A table of which one row can be taken over with one key, as one edit. */
export interface SetUpCatalogueView {
  readonly columns: readonly {
    readonly name: string;
    readonly unit: string | null;
    readonly kind: "number" | "text" | "sentence";
  }[];
  readonly entries: readonly {
    /** What the key takes over, where it is spoken of. */
    readonly label: string;
    /** By column. */
    readonly cells: readonly string[];
    readonly source: string;
    /** Which one it is taken over into; null: a new one, or the one of which there is always one. */
    readonly item: string | null;
    /** What the edit says; nothing is there before. */
    readonly fields: readonly { readonly field: string; readonly text: string }[];
  }[];
}

export interface SetUpView {
  readonly sections: readonly SetUpSectionView[];
}
