import {
  type ComponentSize,
  type Locale,
  type Settings,
  type UncertaintyComponent,
  wordsFor,
} from "../../../core/index.ts";
import type { SetUpFieldView } from "../../contract/index.ts";
import { numberEntry } from "../../import/index.ts";
import type { StoredHead } from "../../store/index.ts";
import { refuse } from "../refused.ts";
import type { EditContext } from "../study/prepared.ts";
import {
  componentsOf,
  type ErrorOwner,
  errorChanges,
  errorOwners,
  ownerChoice,
  ownerKey,
  ownerName,
  ownerUnit,
  withComponents,
} from "./error-owner.ts";
import { field, type PartContext, type PartEdit, type SetUpPart } from "./part.ts";
import { type EnteredField, Sheet, textsByField } from "./sheet.ts";
import { componentText, isRelative } from "./uncertainty-text.ts";

type Given = "halfWidth" | "standardUncertainty" | "expandedUncertainty";
const givens = ["halfWidth", "standardUncertainty", "expandedUncertainty"] as const satisfies readonly Given[];
const distributions = ["rectangular", "triangular", "normal"] as const;
const kinds = ["independent", "shared"] as const;
const ins = ["absolute", "relative"] as const;

/** The coverage factor that is taken where an expanded uncertainty is chosen and none is given yet: that of most certificates. */
const usualCoverageFactor = 2;

function fieldsOf(owners: readonly ErrorOwner[], locale: Locale): SetUpFieldView[] {
  const words = wordsFor(locale).setUpWork;
  const { fields } = words;
  const choices = <T extends string>(values: readonly T[], labels: Readonly<Record<T, string>>) =>
    values.map((value) => ({ value, label: labels[value] }));
  return [
    field("of", "choice", fields.errorOf, {
      needed: true,
      choices: owners.map((owner) => ({ value: ownerKey(owner), label: ownerChoice(owner, locale) })),
    }),
    field("name", "text", fields.errorName, { needed: true }),
    field("size", "number", fields.errorSize, { needed: true }),
    field("in", "choice", fields.errorIn, { needed: true, choices: choices(ins, words.sizeIn) }),
    field("given", "choice", fields.errorGiven, { needed: true, choices: choices(givens, words.sizeGiven) }),
    field("coverageFactor", "number", fields.coverageFactor),
    field("distribution", "choice", fields.distribution, {
      needed: true,
      choices: choices(distributions, words.distributions),
    }),
    field("kind", "choice", fields.errorKind, { needed: true, choices: choices(kinds, words.kinds) }),
    field("degreesOfFreedom", "number", fields.degreesOfFreedom),
  ];
}

/** The number of a size, how it is given, and its coverage factor. */
function sizeTexts(component: UncertaintyComponent): { size: string; given: Given; coverageFactor: string } {
  const { size } = component;
  const isShare = isRelative(component);
  const write = (value: number) => numberEntry(value, isShare);
  if ("halfWidth" in size) return { size: write(size.halfWidth), given: "halfWidth", coverageFactor: "" };
  if ("relativeHalfWidth" in size)
    return { size: write(size.relativeHalfWidth), given: "halfWidth", coverageFactor: "" };
  if ("standardUncertainty" in size)
    return { size: write(size.standardUncertainty), given: "standardUncertainty", coverageFactor: "" };
  if ("relativeStandardUncertainty" in size)
    return { size: write(size.relativeStandardUncertainty), given: "standardUncertainty", coverageFactor: "" };
  const value = "expandedUncertainty" in size ? size.expandedUncertainty : size.relativeExpandedUncertainty;
  return { size: write(value), given: "expandedUncertainty", coverageFactor: numberEntry(size.coverageFactor) };
}

function textsOf({ owner, component }: Placed, fields: readonly SetUpFieldView[]): string[] {
  const { size, given, coverageFactor } = sizeTexts(component);
  const { name, distribution, kind, degreesOfFreedom } = component;
  const texts: Readonly<Record<string, string>> = {
    of: ownerKey(owner),
    name,
    size,
    in: isRelative(component) ? "relative" : "absolute",
    given,
    coverageFactor,
    distribution,
    kind,
    degreesOfFreedom: degreesOfFreedom === null ? "" : numberEntry(degreesOfFreedom),
  };
  return fields.map((one) => texts[one.field] ?? "");
}

interface Placed {
  readonly item: string;
  readonly owner: ErrorOwner;
  readonly index: number;
  readonly component: UncertaintyComponent;
}

function allOf(settings: Settings, head: StoredHead): Placed[] {
  return errorOwners(settings, head).flatMap((owner) =>
    componentsOf(owner, settings).map((component, index) => ({
      item: `${ownerKey(owner)}/${index + 1}`,
      owner,
      index,
      component,
    })),
  );
}

function section({ content, locale }: PartContext) {
  const words = wordsFor(locale).setUpWork;
  const { settings, head } = content;
  const fields = fieldsOf(errorOwners(settings, head), locale);
  return {
    subject: "error" as const,
    ...words.sections.error,
    addField: null,
    fieldSuggestions: [],
    fields,
    items: allOf(settings, head).map((placed) => {
      const { item, owner, component } = placed;
      return {
        item,
        title: null,
        called: calledOf(owner, component.name, locale),
        texts: textsOf(placed, fields),
        detail: componentText(component, ownerUnit(owner, locale), owner.kind !== "instrument", locale),
        isRemovable: true,
      };
    }),
    catalogue: null,
  };
}

const calledOf = (owner: ErrorOwner, name: string, locale: Locale) =>
  wordsFor(locale).setUpWork.errorCalled(name, ownerName(owner, locale));

/** The size as typed. A change of how it is given keeps its number; the coverage factor comes and goes with an expanded uncertainty. */
function sizeOf(sheet: Sheet, locale: Locale): ComponentSize {
  const words = wordsFor(locale).setUpWork;
  const isShare = sheet.text("in") === "relative";
  const value = sheet.number("size", isShare ? "fraction" : "notPositive", isShare) ?? 0;
  const given = sheet.text("given");
  const factor = sheet.number("coverageFactor", "notPositive");
  const isFactorTyped = sheet.isChanged("coverageFactor");
  if (given === "expandedUncertainty") {
    if (factor === null && isFactorTyped) sheet.refuseAt("coverageFactor", words.factorNeeded);
    const coverageFactor = factor ?? usualCoverageFactor;
    return isShare
      ? { relativeExpandedUncertainty: value, coverageFactor }
      : { expandedUncertainty: value, coverageFactor };
  }
  if (factor !== null && isFactorTyped) sheet.refuseAt("coverageFactor", words.factorWithoutExpanded);
  if (given === "halfWidth") return isShare ? { relativeHalfWidth: value } : { halfWidth: value };
  return isShare ? { relativeStandardUncertainty: value } : { standardUncertainty: value };
}

function componentOf(sheet: Sheet, locale: Locale): UncertaintyComponent {
  const distribution = distributions.find((one) => one === sheet.text("distribution")) ?? "normal";
  if (distribution === "normal" && sheet.text("given") === "halfWidth") {
    const at = sheet.isChanged("given") && !sheet.isChanged("distribution") ? "given" : "distribution";
    sheet.refuseAt(at, wordsFor(locale).setUpWork.normalHalfWidth);
  }
  return {
    name: sheet.text("name"),
    distribution,
    size: sizeOf(sheet, locale),
    kind: kinds.find((one) => one === sheet.text("kind")) ?? "shared",
    degreesOfFreedom: sheet.number("degreesOfFreedom", "notPositive"),
  };
}

function edit(item: string | null, entered: readonly EnteredField[], context: EditContext): PartEdit {
  const { content, locale } = context;
  const { settings, head } = content;
  const words = wordsFor(locale).setUpWork;
  const owners = errorOwners(settings, head);
  const fields = fieldsOf(owners, locale);
  const placed = item === null ? null : placedOf(item, context);
  const there = placed === null ? new Map<string, string>() : textsByField(fields, textsOf(placed, fields));
  const sheet = new Sheet(fields, there, entered, locale);
  const owner = owners.find((one) => ownerKey(one) === sheet.text("of")) ?? refuse(words.gone);
  const component = componentOf(sheet, locale);
  const stays = placed !== null && ownerKey(placed.owner) === ownerKey(owner);
  const without = placed === null || stays ? settings : withoutError(placed, settings);
  const components = componentsOf(owner, without);
  const isTaken = components.some(({ name }, index) => name === component.name && !(stays && index === placed.index));
  if (isTaken && (!stays || sheet.isChanged("name"))) {
    sheet.refuseAt("name", words.errorNameTaken(ownerName(owner, locale), component.name));
  }
  const after = stays ? components.with(placed.index, component) : [...components, component];
  return {
    what: words.subjects.error,
    name: calledOf(owner, component.name, locale),
    changes: errorChanges(withComponents(owner, after, without), context),
  };
}

function placedOf(item: string, { content, locale }: EditContext): Placed {
  return (
    allOf(content.settings, content.head).find((one) => one.item === item) ?? refuse(wordsFor(locale).setUpWork.gone)
  );
}

function withoutError({ owner, index }: Placed, settings: Settings): Settings {
  const left = componentsOf(owner, settings).filter((_, place) => place !== index);
  return withComponents(owner, left, settings);
}

/** All errors, one by one: of instruments, of fuels' values and of the char's, each in the order in which it was entered. */
export const errorsPart: SetUpPart = {
  section,
  edit,
  remove(item, context) {
    const { content, locale } = context;
    const placed = placedOf(item, context);
    return {
      what: wordsFor(locale).setUpWork.subjects.error,
      name: calledOf(placed.owner, placed.component.name, locale),
      changes: errorChanges(withoutError(placed, content.settings), context),
    };
  },
};
