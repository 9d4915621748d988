import {
  componentTexts,
  type Instrument,
  type InstrumentRole,
  type Locale,
  type Settings,
  wordsFor,
} from "../../../core/index.ts";
import type { SetUpFieldView } from "../../contract/index.ts";
import { instrumentRoles } from "../../import/index.ts";
import { refuse } from "../refused.ts";
import { type Described, instrumentChange, isNothing, otherOf, refuseIfNamed, roleOf } from "./instrument-change.ts";
import { field, type PartContext, type PartEdit, type SetUpPart } from "./part.ts";
import { type EnteredField, Sheet, textsByField } from "./sheet.ts";
import { errorEntry, furtherErrors, type SimpleError, withError } from "./simple-errors.ts";
import { instrumentCatalogue, startedFrom } from "./starting-value-texts.ts";
import { readingUncertainty } from "./uncertainty-text.ts";

const errors = ["resolution", "standard", "relative"] as const satisfies readonly SimpleError[];
const errorFields = {
  resolution: "resolution",
  standard: "standardUncertainty",
  relative: "relativeStandardUncertainty_percent",
} as const;

function fieldsOf(locale: Locale): SetUpFieldView[] {
  const words = wordsFor(locale);
  const { fields, none, percentUnit } = words.setUpWork;
  return [
    field(errorFields.resolution, "number", fields.resolution),
    field(errorFields.standard, "number", fields.standard),
    field(errorFields.relative, "number", fields.relative, { unit: percentUnit }),
    field("sameAs", "choice", fields.sameAs, {
      choices: [
        { value: "", label: none },
        ...instrumentRoles.map((role) => ({ value: role, label: words.settings.roles[role] })),
      ],
    }),
    field("source", "text", fields.source),
  ];
}

function textsOf(instrument: Described | undefined): string[] {
  if (instrument === undefined) return [...errors.map(() => ""), "", ""];
  if ("sameAs" in instrument) return [...errors.map(() => ""), instrument.sameAs, ""];
  return [...errors.map((which) => errorEntry(which, instrument.components)), "", instrument.source ?? ""];
}

function detailOf(role: InstrumentRole, instrument: Described | undefined, locale: Locale): string {
  const words = wordsFor(locale);
  const { setUpWork, settings } = words;
  if (instrument === undefined) return setUpWork.notSetUp;
  if ("sameAs" in instrument) return setUpWork.sameAs(settings.roles[instrument.sameAs]);
  const { components, calibrations = [] } = instrument;
  const further = furtherErrors(errors, components);
  return [
    readingUncertainty(components, settings.units[role], locale),
    ...(further.length === 0
      ? []
      : [setUpWork.further(componentTexts(further, settings.units[role], locale).join("; "))]),
    ...(calibrations.length === 0 ? [] : [setUpWork.calibrations(calibrations.length)]),
  ].join("; ");
}

function section({ content, locale }: PartContext) {
  const words = wordsFor(locale);
  const { instruments } = content.settings;
  return {
    subject: "instrument" as const,
    ...words.setUpWork.sections.instrument,
    add: null,
    addField: null,
    fieldSuggestions: [],
    fields: fieldsOf(locale),
    items: instrumentRoles.map((role) => {
      const instrument = instruments.get(role);
      return {
        item: role,
        title: words.setUpWork.roleIn(words.settings.roles[role], words.settings.units[role]),
        texts: textsOf(instrument),
        detail: detailOf(role, instrument, locale),
        isRemovable: instrument !== undefined && otherOf(role, content.settings) === null,
      };
    }),
    catalogue: instrumentCatalogue(locale),
  };
}

/** An instrument that is the same as another one: what it had itself must not be lost unseen. */
function aliasOf(role: InstrumentRole, sheet: Sheet, settings: Settings, locale: Locale): Described {
  const words = wordsFor(locale).setUpWork;
  const { roles } = wordsFor(locale).settings;
  const other = roleOf(sheet.text("sameAs"), locale);
  const there = settings.instruments.get(role);
  if (other === role) sheet.refuseAt("sameAs", words.sameAsItself);
  const named = settings.instruments.get(other);
  if (named === undefined) sheet.refuseAt("sameAs", words.sameAsMissing(roles[other]));
  let next: Described | undefined = named;
  while (next !== undefined && "sameAs" in next) {
    if (next.sameAs === role) sheet.refuseAt("sameAs", words.sameAsChain(roles[role], roles[other]));
    next = settings.instruments.get(next.sameAs);
  }
  if (there !== undefined && !("sameAs" in there) && (there.calibrations ?? []).length > 0) {
    sheet.refuseAt("sameAs", words.sameAsCalibrated(roles[role]));
  }
  const isTyped = (name: string) => sheet.isChanged(name) && sheet.text(name) !== "";
  if (errors.some((which) => isTyped(errorFields[which])) || isTyped("source")) {
    refuse(words.isSameAs(roles[role], roles[other]));
  }
  return { sameAs: other };
}

function describedOf(sheet: Sheet, there: Described | undefined): Instrument | null {
  const before: Instrument = there === undefined || "sameAs" in there ? { components: [] } : there;
  const values = errors.map(
    (which) =>
      [
        which,
        sheet.number(errorFields[which], which === "relative" ? "fraction" : "notPositive", which === "relative"),
      ] as const,
  );
  const components = values.reduce(
    (all, [which, value]) => (sheet.isChanged(errorFields[which]) ? withError(which, value, all) : all),
    before.components,
  );
  const source = sheet.text("source");
  const { source: _before, ...rest } = before;
  const after = { ...rest, components, ...(source === "" ? {} : { source }) };
  return isNothing(after) ? null : after;
}

/** The instruments, by what they are used for: there is a row for each use. */
export const instrumentsPart: SetUpPart = {
  section,
  edit(item, entered: readonly EnteredField[], context): PartEdit {
    const { content, locale } = context;
    const words = wordsFor(locale);
    const role = roleOf(item ?? "", locale);
    const fields = fieldsOf(locale);
    const there = content.settings.instruments.get(role);
    const started = startedFrom(entered, role, there, locale);
    if (started !== null) {
      return {
        what: words.setUpWork.subjects.instrument,
        name: words.settings.roles[role],
        changes: instrumentChange(role, started, context),
      };
    }
    const sheet = new Sheet(fields, textsByField(fields, textsOf(there)), entered, locale);
    const isAlias = sheet.text("sameAs") !== "";
    const after = isAlias ? aliasOf(role, sheet, content.settings, locale) : describedOf(sheet, there);
    if (after === null) refuseIfNamed(role, content.settings, locale);
    return {
      what: words.setUpWork.subjects.instrument,
      name: words.settings.roles[role],
      changes: instrumentChange(role, after, context),
    };
  },
  remove(item, context) {
    const { content, locale } = context;
    const words = wordsFor(locale);
    const role = roleOf(item, locale);
    if (!content.settings.instruments.has(role)) refuse(words.setUpWork.gone);
    refuseIfNamed(role, content.settings, locale);
    return {
      what: words.setUpWork.subjects.instrument,
      name: words.settings.roles[role],
      changes: instrumentChange(role, null, context),
    };
  },
};
