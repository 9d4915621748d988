import { type Locale, type Method, type Settings, wordsFor } from "../../../core/index.ts";
import type { SetUpFieldView } from "../../contract/index.ts";
import { numberEntry } from "../../import/index.ts";
import type { Change } from "../../store/index.ts";
import { refuse } from "../refused.ts";
import { settingsParts } from "../study/stored-settings.ts";
import { valueDetail } from "./fuels.ts";
import { field, type PartContext, type SetUpPart } from "./part.ts";
import { Sheet, textsByField } from "./sheet.ts";
import { errorEntry, withError } from "./simple-errors.ts";
import { charCatalogue, charStartedFrom } from "./starting-value-texts.ts";

const methods = ["wbt", "iso"] as const satisfies readonly Method[];

function fieldsOf(locale: Locale): SetUpFieldView[] {
  const words = wordsFor(locale);
  const { fields, percentUnit } = words.setUpWork;
  const unit = words.settings.calorificUnit;
  return [
    field("method", "choice", fields.method, {
      needed: true,
      choices: methods.map((value) => ({ value, label: words.screens.study.method[value] })),
    }),
    field("confidence_percent", "number", fields.confidence, { unit: percentUnit, needed: true }),
    field("charCalorific_kJ_per_kg", "number", fields.charCalorific, { unit, needed: true }),
    field("charStandardUncertainty_kJ_per_kg", "number", fields.charUncertainty, { unit }),
    field("charSource", "text", fields.charSource),
  ];
}

function textsOf({ method, confidence, charNetCalorific, charSource }: Settings): string[] {
  const { value, components } = charNetCalorific;
  const uncertainty = errorEntry("standard", components);
  return [method, numberEntry(confidence, true), numberEntry(value), uncertainty, charSource ?? ""];
}

function detailOf({ content, locale }: PartContext): string {
  const words = wordsFor(locale);
  const { settings } = content;
  const others = content.lines().filter(({ method, leftOut }) => method !== settings.method && leftOut === null);
  const other = methods.find((method) => method !== settings.method) ?? "iso";
  return [
    ...(others.length === 0 ? [] : [words.setUpWork.otherMethod(others.length, words.screens.study.method[other])]),
    words.setUpWork.ofChar(valueDetail(settings.charNetCalorific, locale)),
  ].join("; ");
}

/** What the results are worked out by: method, confidence, and the char's calorific value. */
export const methodPart: SetUpPart = {
  section(context) {
    const { content, locale } = context;
    return {
      subject: "study",
      ...wordsFor(locale).setUpWork.sections.study,
      add: null,
      addField: null,
      fieldSuggestions: [],
      fields: fieldsOf(locale),
      items: [
        { item: null, title: null, texts: textsOf(content.settings), detail: detailOf(context), isRemovable: false },
      ],
      catalogue: charCatalogue(locale),
    };
  },
  edit(_item, entered, { content, locale }) {
    const { settings } = content;
    const started = charStartedFrom(entered, settings, locale);
    if (started !== null) {
      const words = wordsFor(locale).setUpWork;
      return {
        what: words.fields.charCalorific.name,
        name: words.assumedChar.label,
        changes: charChange(started, settings),
      };
    }
    const fields = fieldsOf(locale);
    const sheet = new Sheet(fields, textsByField(fields, textsOf(settings)), entered, locale);
    const method = methods.find((one) => one === sheet.text("method")) ?? settings.method;
    const confidence = sheet.number("confidence_percent", "confidence", true) ?? settings.confidence;
    const uncertainty = sheet.number("charStandardUncertainty_kJ_per_kg", "notPositive");
    const charNetCalorific = {
      value: sheet.number("charCalorific_kJ_per_kg", "calorificValue") ?? settings.charNetCalorific.value,
      components: sheet.isChanged("charStandardUncertainty_kJ_per_kg")
        ? withError("standard", uncertainty, settings.charNetCalorific.components)
        : settings.charNetCalorific.components,
    };
    const { charSource: _before, ...rest } = settings;
    const source = sheet.text("charSource");
    const after: Settings = { ...rest, charNetCalorific, ...(source === "" ? {} : { charSource: source }) };
    const changes: Change[] = [
      ...(method === settings.method ? [] : [{ subject: "study", field: "method", after: method } as const]),
      ...(confidence === settings.confidence
        ? []
        : [{ subject: "study", field: "confidence", after: confidence } as const]),
      ...charChange(after, settings),
    ];
    const [changed] = fields.filter((one) => sheet.isChanged(one.field));
    return { what: changed?.name ?? "", name: shownText(changed, sheet, locale), changes };
  },
  remove(_item, { locale }) {
    refuse(wordsFor(locale).setUpWork.noSuchField);
  },
};

/** What changes in the file where the char's value, its errors or its source do. */
function charChange(after: Settings, before: Settings): Change[] {
  const char = settingsParts(after).settings.get("char");
  const isSame = JSON.stringify(char) === JSON.stringify(settingsParts(before).settings.get("char"));
  return isSame ? [] : [{ subject: "setting", field: "char", after: char }];
}

/** What a field was set to, as the record tells it. */
export function shownText(changed: SetUpFieldView | undefined, sheet: Sheet, locale: Locale): string {
  if (changed === undefined) return "";
  const text = sheet.text(changed.field);
  const label = changed.choices?.find(({ value }) => value === text)?.label ?? text;
  return changed.unit === null ? label : wordsFor(locale).settings.withUnit(label, changed.unit);
}
