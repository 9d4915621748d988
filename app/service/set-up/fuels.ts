import {
  combinedUncertainty,
  componentTexts,
  type FuelSettings,
  formatFixed,
  formatSignificant,
  type Locale,
  type ValueWithUncertainty,
  wordsFor,
} from "../../../core/index.ts";
import type { SetUpCatalogueView, SetUpFieldView } from "../../contract/index.ts";
import { fuelColumnNames, numberEntry } from "../../import/index.ts";
import type { Change, StoredRun } from "../../store/index.ts";
import { refuse } from "../refused.ts";
import type { EditContext } from "../study/prepared.ts";
import { settingsParts } from "../study/stored-settings.ts";
import type { StudyContent } from "../study/study-content.ts";
import { fuelCatalogueTexts } from "./fuel-catalogue-texts.ts";
import { field, type PartContext, type PartEdit, type SetUpPart } from "./part.ts";
import { type EnteredField, Sheet, textsByField } from "./sheet.ts";
import { errorEntry, furtherErrors, withError } from "./simple-errors.ts";
import { whereText } from "./where-text.ts";

function fieldsOf(locale: Locale): SetUpFieldView[] {
  const words = wordsFor(locale);
  const { fields, bases } = words.setUpWork;
  const unit = words.settings.calorificUnit;
  return [
    field("name", "text", fields.fuelName, { needed: true }),
    field("calorific_kJ_per_kg", "number", fields.fuelCalorific, { unit, needed: true }),
    field("basis", "choice", fields.fuelBasis, {
      needed: true,
      choices: (["net", "gross"] as const).map((value) => ({ value, label: bases[value] })),
    }),
    field("standardUncertainty_kJ_per_kg", "number", fields.fuelUncertainty, { unit }),
    field("hydrogen_percent", "number", fields.fuelHydrogen, { unit: words.setUpWork.percentUnit }),
    field("source", "text", fields.fuelSource),
  ];
}

const emptyFuel: FuelSettings = { netCalorific: null, grossCalorific: null, hydrogenPercent: null };
const calorificOf = ({ netCalorific, grossCalorific }: FuelSettings) => netCalorific ?? grossCalorific;

function textsOf(name: string, fuel: FuelSettings, fields: readonly SetUpFieldView[]): string[] {
  const value = calorificOf(fuel);
  const texts: Readonly<Record<string, string>> = {
    name,
    basis: fuel.grossCalorific === null ? "net" : "gross",
    calorific_kJ_per_kg: value === null ? "" : numberEntry(value.value),
    standardUncertainty_kJ_per_kg: value === null ? "" : errorEntry("standard", value.components),
    hydrogen_percent: fuel.hydrogenPercent === null ? "" : numberEntry(fuel.hydrogenPercent.value),
    source: fuel.source ?? "",
  };
  return fields.map((one) => texts[one.field] ?? "");
}

/** The uncertainty of a calorific value in words: what it comes to, and what a file says beyond the field. */
export function valueDetail({ value, components }: ValueWithUncertainty, locale: Locale): string {
  const words = wordsFor(locale);
  const { calorificUnit } = words.settings;
  if (components.length === 0) return words.setUpWork.noUncertainty;
  const { absolute, relative } = combinedUncertainty(components);
  const standard = Math.hypot(absolute, relative * value);
  const further = furtherErrors(["standard"], components);
  return [
    words.setUpWork.standard(formatSignificant(standard, 2, locale), calorificUnit),
    words.setUpWork.share(formatFixed((standard / value) * 100, 1, locale)),
    ...(further.length === 0
      ? []
      : [words.setUpWork.further(componentTexts(further, calorificUnit, locale).join("; "))]),
  ].join("; ");
}

function section({ content, facts, locale }: PartContext) {
  const words = wordsFor(locale).setUpWork;
  const fields = fieldsOf(locale);
  const uses = new Map<string, number>();
  for (const { fuels } of facts ?? []) {
    for (const { fuel } of fuels) if (fuel !== null) uses.set(fuel, (uses.get(fuel) ?? 0) + 1);
  }
  return {
    subject: "fuel" as const,
    ...words.sections.fuel,
    addField: null,
    fieldSuggestions: [],
    fields,
    items: [...content.head.fuels].map(([item, { name }]) => {
      const fuel = content.settings.fuels.get(name) ?? emptyFuel;
      const value = calorificOf(fuel);
      const used = uses.get(name) ?? 0;
      const use = facts === null ? words.notCounted : words.usedIn(used);
      return {
        item: String(item),
        title: null,
        texts: textsOf(name, fuel, fields),
        detail: [use, ...(value === null ? [] : [valueDetail(value, locale)])].join("; "),
        isRemovable: used === 0,
      };
    }),
    catalogue: fuelTable(locale),
  };
}

/** The table of fuels; its source has a column of its own, behind the others. */
function fuelTable(locale: Locale): SetUpCatalogueView {
  const fields = fieldsOf(locale);
  const shown = fields.filter((one) => one.field !== "source");
  return {
    columns: shown.map(({ name, unit, kind }) => ({ name, unit, kind: kind === "number" ? "number" : "text" })),
    entries: fuelCatalogueTexts(locale).map(({ label, fuel, source }) => {
      const texts = textsByField(fields, textsOf(label, fuel, fields));
      return {
        label,
        cells: shown.map(({ field: name, choices }) => {
          const text = texts.get(name) ?? "";
          return choices?.find(({ value }) => value === text)?.label ?? text;
        }),
        source,
        item: null,
        fields: [...texts].flatMap(([name, text]) => (text === "" ? [] : [{ field: name, text }])),
      };
    }),
  };
}

/** Where a run names a fuel. */
function namings({ phases }: StoredRun, name: string) {
  return phases.flatMap(({ phase, texts }) =>
    fuelColumnNames.flatMap(({ fuel: column }) => (texts.get(column) === name ? [{ phase, column }] : [])),
  );
}

/** The runs that name a fuel, read from the file: also those that nobody has looked at yet. */
function runsNaming(name: string, content: StudyContent) {
  return content.lines().flatMap((line) => {
    const stored = content.run(line.run)?.stored;
    const found = stored === undefined ? [] : namings(stored, name);
    return found.length === 0 ? [] : [{ run: line.run, name: line.name, namings: found }];
  });
}

/** A fuel that is renamed is renamed in the runs: they would lose their calorific value otherwise. */
function renamed(before: string, after: string, sheet: Sheet, { content, locale }: EditContext): Change[] {
  const using = runsNaming(before, content);
  if (using.length === 0) return [];
  const others = runsNaming(after, content);
  if (others.length > 0) {
    const { fuelNamedInRuns } = wordsFor(locale).setUpWork;
    const where = whereText(
      others.map(({ name }) => name),
      locale,
    );
    sheet.refuseAt("name", fuelNamedInRuns(after, others.length, where));
  }
  return using.flatMap(({ run, namings: found }) =>
    found.map(({ phase, column }): Change => ({ subject: "text", item: run, phase, field: column, after })),
  );
}

function fuelOf(sheet: Sheet, before: FuelSettings): FuelSettings {
  const thereValue = calorificOf(before);
  const value = sheet.number("calorific_kJ_per_kg", "calorificValue") ?? 0;
  const uncertainty = sheet.number("standardUncertainty_kJ_per_kg", "notPositive");
  const components = thereValue?.components ?? [];
  const calorific: ValueWithUncertainty = {
    value,
    components: sheet.isChanged("standardUncertainty_kJ_per_kg")
      ? withError("standard", uncertainty, components)
      : components,
  };
  const hydrogen = sheet.number("hydrogen_percent", "hydrogen");
  const isGross = sheet.text("basis") === "gross";
  const source = sheet.text("source");
  return {
    netCalorific: isGross ? null : calorific,
    grossCalorific: isGross ? calorific : null,
    hydrogenPercent:
      hydrogen === null ? null : { value: hydrogen, components: before.hydrogenPercent?.components ?? [] },
    ...(source === "" ? {} : { source }),
  };
}

function edit(item: string | null, entered: readonly EnteredField[], context: EditContext): PartEdit {
  const { content, database, locale } = context;
  const words = wordsFor(locale).setUpWork;
  const { head, settings } = content;
  const fields = fieldsOf(locale);
  const number = item === null ? database.nextItem("fuel") : Number(item);
  const stored = item === null ? null : (head.fuels.get(number) ?? refuse(words.gone));
  const before = stored === null ? emptyFuel : (settings.fuels.get(stored.name) ?? emptyFuel);
  const there =
    stored === null ? new Map<string, string>() : textsByField(fields, textsOf(stored.name, before, fields));
  const sheet = new Sheet(fields, there, entered, locale);
  const name = sheet.text("name");
  if ([...head.fuels].some(([one, other]) => one !== number && other.name === name)) {
    sheet.refuseAt("name", words.nameTaken(words.subjects.fuel, name));
  }
  const [after] = settingsParts({ ...settings, fuels: new Map([[name, fuelOf(sheet, before)]]) }).fuels;
  if (after === undefined) throw new Error("a fuel was lost on its way");
  const isSame = stored !== null && JSON.stringify(stored) === JSON.stringify(after);
  return {
    what: words.subjects.fuel,
    name,
    changes: isSame
      ? []
      : [
          { subject: "fuel", item: number, after },
          ...(stored === null || stored.name === name ? [] : renamed(stored.name, name, sheet, context)),
        ],
  };
}

/** The fuels, with their calorific values. */
export const fuelsPart: SetUpPart = {
  section,
  edit,
  remove(item, { content, locale }) {
    const words = wordsFor(locale).setUpWork;
    const { name } = content.head.fuels.get(Number(item)) ?? refuse(words.gone);
    const using = runsNaming(name, content).map((run) => run.name);
    if (using.length > 0) refuse(words.fuelUsed(name, using.length, whereText(using, locale)));
    return { what: words.subjects.fuel, name, changes: [{ subject: "fuel", item: Number(item), after: null }] };
  },
};
