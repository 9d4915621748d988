import type { Edit, SetUpFieldView, SetUpItemView } from "../../../app/contract/index.ts";

/** A field whose column was added and that no row fills in yet. */
export function addedField(factor: string, what: string): SetUpFieldView {
  return { field: `factor:${factor}`, name: factor, unit: null, kind: "text", needed: false, what, choices: null };
}

/** What a row is called where it is spoken of. */
export function rowName({ title, called, texts, detail }: SetUpItemView, fields: readonly SetUpFieldView[]): string {
  if (called !== undefined) return called;
  if (title !== null) return title;
  const [first] = fields;
  const text = texts[0] ?? "";
  const label = first?.choices?.find(({ value }) => value === text)?.label ?? text;
  return label === "" ? detail : label;
}

export type SetUpEdit = Extract<Edit, { kind: "setUp" }>;
