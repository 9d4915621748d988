import { type Locale, type RunFacts, wordsFor } from "../../../core/index.ts";
import type { SetUpFieldView } from "../../contract/index.ts";
import { factorOf } from "../../import/index.ts";
import type { Change, StoredHead, StoredVariant } from "../../store/index.ts";
import { refuse } from "../refused.ts";
import { field, type PartContext, type PartEdit, type SetUpPart } from "./part.ts";
import { type EnteredField, Sheet, textsByField } from "./sheet.ts";
import { whereText } from "./where-text.ts";

const factorField = (factor: string) => `factor:${factor}`;

function fieldsOf(factors: Iterable<string>, locale: Locale): SetUpFieldView[] {
  const { fields } = wordsFor(locale).setUpWork;
  return [
    field("name", "text", fields.variantName, { needed: true }),
    field("order", "number", fields.variantOrder),
    ...[...factors].map((factor) => field(factorField(factor), "text", fields.factor(factor))),
  ];
}

/** All design factors, in order of appearance. */
function factorsOf(head: StoredHead, facts: readonly RunFacts[] | null = null): Set<string> {
  return new Set([
    ...[...head.variants.values()].flatMap(({ levels }) => [...levels.keys()]),
    ...(facts ?? []).flatMap(({ factors }) => [...factors.keys()]),
  ]);
}

function textsOf(variant: StoredVariant, place: number, fields: readonly SetUpFieldView[]): string[] {
  return fields.map((one) => {
    if (one.field === "name") return variant.name;
    if (one.field === "order") return String(place);
    return variant.levels.get(factorOf(one.field) ?? "") ?? "";
  });
}

/** How many runs of a variant have another level of a factor than it. */
function ownLevels(variant: StoredVariant, runs: readonly RunFacts[], factor: string): number {
  const level = variant.levels.get(factor);
  return runs.filter(({ factors }) => factors.get(factor) !== level).length;
}

function section({ content, facts, locale }: PartContext) {
  const words = wordsFor(locale).setUpWork;
  const { head } = content;
  const factors = factorsOf(head, facts);
  const fields = fieldsOf(factors, locale);
  const runs = new Map<number, number>();
  for (const { variant } of content.lines()) runs.set(variant, (runs.get(variant) ?? 0) + 1);
  const ofVariant = facts === null ? null : Map.groupBy(facts, ({ variant }) => variant);
  return {
    subject: "variant" as const,
    ...words.sections.variant,
    fields,
    items: [...head.variants].map(([item, variant], index) => {
      const count = runs.get(item) ?? 0;
      const own = [...factors].flatMap((factor) => {
        const differing = ownLevels(variant, ofVariant?.get(variant.name) ?? [], factor);
        return differing === 0 ? [] : [words.levelDiffers(factor, differing)];
      });
      return {
        item: String(item),
        title: null,
        texts: textsOf(variant, index + 1, fields),
        detail: [words.runsOf(count), ...own].join("; "),
        isRemovable: count === 0,
      };
    }),
    fieldSuggestions: words.factorSuggestions.filter((factor) => !factors.has(factor)),
    catalogue: null,
  };
}

/** Positions such that the variants stand in this order; only those that change. */
function positionChanges(order: readonly (readonly [number, StoredVariant])[], head: StoredHead): Change[] {
  return order.flatMap(([item, after], position): Change[] => {
    const before = head.variants.get(item);
    const isSame = before !== undefined && isEqual(before, after) && before.position === position;
    return isSame ? [] : [{ subject: "variant", item, after: { ...after, position } }];
  });
}

function isEqual(one: StoredVariant, other: StoredVariant): boolean {
  return (
    one.name === other.name &&
    one.levels.size === other.levels.size &&
    [...one.levels].every(([factor, level]) => other.levels.get(factor) === level)
  );
}

function edit(
  item: string | null,
  entered: readonly EnteredField[],
  { content, database, locale }: Parameters<SetUpPart["edit"]>[2],
): PartEdit {
  const words = wordsFor(locale).setUpWork;
  const { head } = content;
  const added = entered.flatMap(({ field: name }) => {
    const factor = factorOf(name)?.trim() ?? "";
    return factor === "" || name !== factorField(factor) ? [] : [factor];
  });
  const fields = fieldsOf(new Set([...factorsOf(head), ...added]), locale);
  const number = item === null ? database.nextItem("variant") : Number(item);
  const others = [...head.variants].filter(([one]) => one !== number);
  const before = item === null ? null : (head.variants.get(number) ?? refuse(words.gone));
  const placeBefore = before === null ? others.length : [...head.variants.keys()].indexOf(number);
  const there =
    before === null ? new Map<string, string>() : textsByField(fields, textsOf(before, placeBefore + 1, fields));
  const sheet = new Sheet(fields, there, entered, locale);
  const name = sheet.text("name");
  if (others.some(([, other]) => other.name === name))
    sheet.refuseAt("name", words.nameTaken(words.subjects.variant, name));
  const levels = new Map(before?.levels);
  for (const one of sheet.fields) {
    const factor = factorOf(one);
    if (factor === null || !sheet.isChanged(one)) continue;
    if (sheet.text(one) === "") levels.delete(factor);
    else levels.set(factor, sheet.text(one));
  }
  const place = sheet.isChanged("order") && sheet.text("order") !== "" ? sheet.number("order", "notPositive") : null;
  if (place !== null && !(Number.isInteger(place) && place <= others.length + 1)) {
    sheet.refuseAt("order", words.orderRange(String(others.length + 1)));
  }
  const order = others.toSpliced((place ?? placeBefore + 1) - 1, 0, [number, { name, position: 0, levels }] as const);
  return { what: words.subjects.variant, name, changes: positionChanges(order, head) };
}

/** The variants: what is compared, with the levels of the design factors that set them apart. */
export const variantsPart: SetUpPart = {
  section,
  edit,
  remove(item, { content, locale }) {
    const words = wordsFor(locale).setUpWork;
    const variant = content.head.variants.get(Number(item)) ?? refuse(words.gone);
    const runs = content.lines().filter((line) => line.variant === Number(item));
    if (runs.length > 0) {
      refuse(
        words.variantUsed(
          variant.name,
          runs.length,
          whereText(
            runs.map(({ name }) => name),
            locale,
          ),
        ),
      );
    }
    return {
      what: words.subjects.variant,
      name: variant.name,
      changes: [{ subject: "variant", item: Number(item), after: null }],
    };
  },
};
