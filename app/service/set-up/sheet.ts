import { type Locale, wordsFor } from "../../../core/index.ts";
import type { Edit, SetUpFieldView } from "../../contract/index.ts";
import { type Entered, type EnteredKind, enteredDate, enteredNumber } from "../../import/index.ts";
import { refuse } from "../refused.ts";

export type EnteredField = Extract<Edit, { kind: "setUp" }>["fields"][number];

/** What was typed into fields, over what stands there. Refuses what does not fit, naming the field. */
export class Sheet {
  readonly #fields: ReadonlyMap<string, SetUpFieldView>;
  readonly #there: ReadonlyMap<string, string>;
  readonly #typed: ReadonlyMap<string, string>;
  readonly #locale: Locale;

  /** `there`: the texts as they are shown now; a field without one is empty. */
  constructor(
    fields: readonly SetUpFieldView[],
    there: ReadonlyMap<string, string>,
    entered: readonly EnteredField[],
    locale: Locale,
  ) {
    this.#fields = new Map(fields.map((field) => [field.field, field]));
    this.#there = there;
    this.#typed = new Map(entered.map(({ field, text }) => [field, text.trim()]));
    this.#locale = locale;
    for (const { field, text, was } of entered) this.#check(field, text.trim(), was);
    for (const { field, needed } of fields) {
      if (needed && this.text(field) === "") refuse(this.#words.empty(this.nameOf(field)));
    }
  }

  get #words() {
    return wordsFor(this.#locale).setUpWork;
  }

  #check(name: string, text: string, was: string): void {
    const field = this.#fields.get(name) ?? refuse(this.#words.noSuchField);
    const is = this.#there.get(name) ?? "";
    if (is !== was && is !== text) refuse(wordsFor(this.#locale).record.cellChanged(field.name, was, is));
    if (field.choices !== null && text !== "" && !field.choices.some(({ value }) => value === text)) {
      refuse(this.#words.notAChoice(field.name));
    }
  }

  nameOf(field: string): string {
    return this.#fields.get(field)?.name ?? field;
  }

  text(field: string): string {
    return this.#typed.get(field) ?? this.#there.get(field) ?? "";
  }

  /** The names of all fields of the sheet. */
  get fields(): readonly string[] {
    return [...this.#fields.keys()];
  }

  isChanged(field: string): boolean {
    return this.text(field) !== (this.#there.get(field) ?? "");
  }

  #taken<T>(field: string, entered: Entered<T>): T {
    return entered.ok ? entered.value : this.refuseAt(field, entered.message);
  }

  /** The number in a field; null where it is empty. `isPercent`: typed in per cent, kept as a fraction. */
  number(field: string, kind: EnteredKind, isPercent = false): number | null {
    const text = this.text(field);
    return text === "" ? null : this.#taken(field, enteredNumber(text, kind, this.#locale, isPercent));
  }

  date(field: string): string | null {
    const text = this.text(field);
    return text === "" ? null : this.#taken(field, enteredDate(text, this.#locale));
  }

  refuseAt(field: string, message: string): never {
    refuse(this.#words.at(this.nameOf(field), message));
  }
}

/** The texts of a row by field. */
export function textsByField(fields: readonly SetUpFieldView[], texts: readonly string[]): ReadonlyMap<string, string> {
  return new Map(fields.map(({ field }, index) => [field, texts[index] ?? ""]));
}
