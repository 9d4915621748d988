import type { Locale, RunFacts } from "../../../core/index.ts";
import type { SetUpFieldView, SetUpSectionView } from "../../contract/index.ts";
import type { Change } from "../../store/index.ts";
import type { EditContext } from "../study/prepared.ts";
import type { StudyContent } from "../study/study-content.ts";
import type { EnteredField } from "./sheet.ts";

/** What a section is shown from. */
export interface PartContext {
  readonly content: StudyContent;
  /** Of all runs; null as long as not all of them were looked at. */
  readonly facts: readonly RunFacts[] | null;
  readonly locale: Locale;
}

/** What an edit does, and what the record calls it. */
export interface PartEdit {
  readonly what: string;
  readonly name: string;
  readonly changes: readonly Change[];
}

/** One thing that is set up for a study: variants, fuels, … */
export interface SetUpPart {
  section(context: PartContext): SetUpSectionView;
  edit(item: string | null, fields: readonly EnteredField[], context: EditContext): PartEdit;
  remove(item: string, context: EditContext): PartEdit;
}

/** A field that has the same rules in every row. */
export function field(
  name: string,
  kind: SetUpFieldView["kind"],
  words: { readonly name: string; readonly what: string },
  more: Partial<Pick<SetUpFieldView, "unit" | "needed" | "choices">> = {},
): SetUpFieldView {
  return { field: name, ...words, kind, unit: null, needed: false, choices: null, ...more };
}
