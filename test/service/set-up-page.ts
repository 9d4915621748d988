import { expect } from "vitest";
import type { Edit, SetUpItemView, SetUpSectionView, SetUpSubject } from "../../app/contract/index.ts";
import { ask, make, refusal, show, who } from "./own-program.ts";

/** What a person does on the set-up part of the Study page, through the door. */

export async function section(subject: SetUpSubject, study: string | null = null): Promise<SetUpSectionView> {
  const { sections } = await ask<"setup.show">({ kind: "setup.show", study });
  const found = sections.find((one) => one.subject === subject);
  if (found === undefined) throw new Error(`no section ${subject}`);
  return found;
}

/** A row by what stands in its first field, or by its title or item. */
export async function row(subject: SetUpSubject, name: string | null, study: string | null = null) {
  const { fields, items } = await section(subject, study);
  const item = items.find((one) => name === null || one.texts[0] === name || one.item === name);
  if (item === undefined) throw new Error(`no ${subject} ${name}: ${JSON.stringify(items)}`);
  const texts = Object.fromEntries(fields.map(({ field }, index) => [field, item.texts[index] ?? ""]));
  return { ...item, byField: texts as Readonly<Record<string, string>> };
}

export const names = async (subject: SetUpSubject) =>
  (await section(subject)).items.map(({ texts: [first] }: SetUpItemView) => first);

export function adding(subject: SetUpSubject, texts: Readonly<Record<string, string>>): Edit {
  const fields = Object.entries(texts).map(([field, text]) => ({ field, text, was: "" }));
  return { kind: "setUp", subject, item: null, fields };
}

/** A change of fields of a row, from what stands there now. */
export async function changing(
  subject: SetUpSubject,
  name: string | null,
  texts: Readonly<Record<string, string>>,
): Promise<Edit> {
  const { item, byField } = await row(subject, name);
  const fields = Object.entries(texts).map(([field, text]) => ({ field, text, was: byField[field] ?? "" }));
  return { kind: "setUp", subject, item, fields };
}

export async function removing(subject: SetUpSubject, name: string): Promise<Edit> {
  const { item } = await row(subject, name);
  return { kind: "removeSetUp", subject, item: item ?? "" };
}

export const add = (subject: SetUpSubject, texts: Readonly<Record<string, string>>) => make(adding(subject, texts));
export const change = async (subject: SetUpSubject, name: string | null, texts: Readonly<Record<string, string>>) =>
  make(await changing(subject, name, texts));
export const remove = async (subject: SetUpSubject, name: string) => make(await removing(subject, name));

/** The sentence with which an edit is refused. */
export const refused = (edit: Edit) => refusal({ kind: "edit.make", study: null, who, edit });

export async function begunStudy(name = "Skirts", method: "wbt" | "iso" = "wbt") {
  const view = await ask<"study.create">({ kind: "study.create", name, method, who });
  expect(view.runs).toBe(0);
  return view;
}

/** Waits until all of the study was looked at: on a busy machine the example is shown before. */
export const looked = () => expect.poll(async () => (await show()).looking, { timeout: 20_000 }).toBeNull();
