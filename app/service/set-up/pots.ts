import { type Locale, type PotSettings, wordsFor } from "../../../core/index.ts";
import type { SetUpFieldView } from "../../contract/index.ts";
import { numberEntry } from "../../import/index.ts";
import { refuse } from "../refused.ts";
import { settingsParts } from "../study/stored-settings.ts";
import { field, type PartContext, type PartEdit, type SetUpPart } from "./part.ts";
import { type EnteredField, Sheet, textsByField } from "./sheet.ts";

function fieldsOf(locale: Locale): SetUpFieldView[] {
  const { fields } = wordsFor(locale).setUpWork;
  const { units } = wordsFor(locale).settings;
  return [
    field("name", "text", fields.potName, { needed: true }),
    field("emptyMass_g", "number", fields.potEmpty, { unit: units.potBalance, needed: true }),
    field("volume_L", "number", fields.potVolume, { unit: wordsFor(locale).setUpWork.litre }),
  ];
}

function textsOf({ name, emptyMass, volume }: PotSettings): string[] {
  return [name, numberEntry(emptyMass), volume === null ? "" : numberEntry(volume)];
}

function section({ content, locale }: PartContext) {
  const words = wordsFor(locale).setUpWork;
  const pots = new Map((content.settings.pots ?? []).map((pot) => [pot.name, pot]));
  return {
    subject: "pot" as const,
    ...words.sections.pot,
    addField: null,
    fieldSuggestions: [],
    fields: fieldsOf(locale),
    items: [...content.head.pots].flatMap(([item, { name }]) => {
      const pot = pots.get(name);
      if (pot === undefined) return [];
      return [{ item: String(item), title: null, texts: textsOf(pot), detail: words.offered, isRemovable: true }];
    }),
    catalogue: null,
  };
}

function edit(
  item: string | null,
  entered: readonly EnteredField[],
  { content, database, locale }: Parameters<SetUpPart["edit"]>[2],
): PartEdit {
  const words = wordsFor(locale).setUpWork;
  const { head, settings } = content;
  const fields = fieldsOf(locale);
  const number = item === null ? database.nextItem("pot") : Number(item);
  const stored = item === null ? null : (head.pots.get(number) ?? refuse(words.gone));
  const before = settings.pots?.find(({ name }) => name === stored?.name);
  const there = before === undefined ? new Map<string, string>() : textsByField(fields, textsOf(before));
  const sheet = new Sheet(fields, there, entered, locale);
  const name = sheet.text("name");
  if ([...head.pots].some(([one, other]) => one !== number && other.name === name)) {
    sheet.refuseAt("name", words.nameTaken(words.subjects.pot, name));
  }
  const pot: PotSettings = {
    name,
    emptyMass: sheet.number("emptyMass_g", "emptyMass") ?? 0,
    volume: sheet.number("volume_L", "volume"),
  };
  const [after] = settingsParts({ ...settings, pots: [pot] }).pots ?? [];
  if (after === undefined) throw new Error("a pot was lost on its way");
  const isSame = stored !== null && JSON.stringify(stored) === JSON.stringify(after);
  return { what: words.subjects.pot, name, changes: isSame ? [] : [{ subject: "pot", item: number, after }] };
}

/** The pots, with their empty masses. No run names its pot, so none is used in the sense that it could not be removed. */
export const potsPart: SetUpPart = {
  section,
  edit,
  remove(item, { content, locale }) {
    const words = wordsFor(locale).setUpWork;
    const { name } = content.head.pots.get(Number(item)) ?? refuse(words.gone);
    return { what: words.subjects.pot, name, changes: [{ subject: "pot", item: Number(item), after: null }] };
  },
};
