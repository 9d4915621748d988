import {
  type Calibration,
  type Instrument,
  type InstrumentRole,
  type Locale,
  type Settings,
  wordsFor,
} from "../../../core/index.ts";
import type { SetUpFieldView } from "../../contract/index.ts";
import { instrumentRoles } from "../../import/index.ts";
import { refuse } from "../refused.ts";
import type { EditContext } from "../study/prepared.ts";
import { instrumentChange, isNothing, roleOf } from "./instrument-change.ts";
import { field, type PartContext, type PartEdit, type SetUpPart } from "./part.ts";
import { type EnteredField, Sheet, textsByField } from "./sheet.ts";

function fieldsOf(locale: Locale): SetUpFieldView[] {
  const words = wordsFor(locale);
  const { fields } = words.setUpWork;
  return [
    field("instrument", "choice", fields.calibrationInstrument, {
      needed: true,
      choices: instrumentRoles.map((role) => ({ value: role, label: words.settings.roles[role] })),
    }),
    field("from", "date", fields.calibrationFrom, { needed: true }),
    field("until", "date", fields.calibrationUntil),
    field("certificate", "text", fields.certificate),
  ];
}

interface Placed {
  readonly item: string;
  readonly role: InstrumentRole;
  readonly index: number;
  readonly calibration: Calibration;
}

function allOf({ instruments }: Settings): Placed[] {
  return instrumentRoles.flatMap((role) => {
    const instrument = instruments.get(role);
    const calibrations = instrument === undefined || "sameAs" in instrument ? [] : (instrument.calibrations ?? []);
    return calibrations.map((calibration, index) => ({ item: `${role}/${index + 1}`, role, index, calibration }));
  });
}

function textsOf(role: InstrumentRole, { from, until, certificate }: Calibration): string[] {
  return [role, from, until ?? "", certificate ?? ""];
}

function section({ content, facts, locale }: PartContext) {
  const words = wordsFor(locale).setUpWork;
  return {
    subject: "calibration" as const,
    ...words.sections.calibration,
    addField: null,
    fieldSuggestions: [],
    fields: fieldsOf(locale),
    items: allOf(content.settings).map(({ item, role, calibration }) => {
      const { from, until } = calibration;
      const count = facts?.filter(
        ({ date }) => date !== null && date >= from && (until === null || date <= until),
      ).length;
      const detail = count === undefined ? words.notCounted : words.onItsDays(count);
      return { item, title: null, texts: textsOf(role, calibration), detail, isRemovable: true };
    }),
    catalogue: null,
  };
}

/** An instrument that can have calibrations: one that is the same as another is calibrated with that. */
function calibratedOf(role: InstrumentRole, sheet: Sheet, { instruments }: Settings, locale: Locale): Instrument {
  const words = wordsFor(locale);
  const { roles } = words.settings;
  const instrument = instruments.get(role);
  if (instrument === undefined) return { components: [] };
  if ("sameAs" in instrument) {
    sheet.refuseAt("instrument", words.setUpWork.calibrateOther(roles[role], roles[instrument.sameAs]));
  }
  return instrument;
}

function placedOf(item: string, { content, locale }: EditContext): Placed {
  return allOf(content.settings).find((one) => one.item === item) ?? refuse(wordsFor(locale).setUpWork.gone);
}

function without({ role, index }: Placed, { instruments }: Settings): Instrument | null {
  const instrument = instruments.get(role);
  if (instrument === undefined || "sameAs" in instrument) return null;
  const { calibrations = [], ...rest } = instrument;
  const left = calibrations.filter((_, place) => place !== index);
  if (left.length > 0) return { ...rest, calibrations: left };
  return isNothing(rest) ? null : rest;
}

function edit(item: string | null, entered: readonly EnteredField[], context: EditContext): PartEdit {
  const { content, locale } = context;
  const { settings } = content;
  const words = wordsFor(locale);
  const fields = fieldsOf(locale);
  const placed = item === null ? null : placedOf(item, context);
  const there = placed === null ? [] : textsOf(placed.role, placed.calibration);
  const sheet = new Sheet(fields, textsByField(fields, there), entered, locale);
  const role = roleOf(sheet.text("instrument"), locale);
  const instrument = calibratedOf(role, sheet, settings, locale);
  const from = sheet.date("from") ?? "";
  const until = sheet.date("until");
  if (until !== null && until < from) sheet.refuseAt("until", words.setUpWork.untilBeforeFrom);
  const certificate = sheet.text("certificate");
  const calibration: Calibration = { from, until, certificate: certificate === "" ? null : certificate };
  const { calibrations = [] } = instrument;
  const stays = placed !== null && placed.role === role;
  const after = stays ? calibrations.with(placed.index, calibration) : [...calibrations, calibration];
  return {
    what: words.setUpWork.subjects.calibration,
    name: words.settings.roles[role],
    changes: [
      ...(placed === null || stays ? [] : instrumentChange(placed.role, without(placed, settings), context)),
      ...instrumentChange(role, { ...instrument, calibrations: after }, context),
    ],
  };
}

/** The calibrations of all instruments, each instrument's in the order in which they were entered. */
export const calibrationsPart: SetUpPart = {
  section,
  edit,
  remove(item, context) {
    const { content, locale } = context;
    const words = wordsFor(locale);
    const placed = placedOf(item, context);
    return {
      what: words.setUpWork.subjects.calibration,
      name: words.settings.roles[placed.role],
      changes: instrumentChange(placed.role, without(placed, content.settings), context),
    };
  },
};
