import {
  assumedCharComponents,
  componentTexts,
  defaultCharNetCalorific,
  type Instrument,
  type InstrumentRole,
  type Locale,
  type Settings,
  startingValues,
  wordsFor,
} from "../../../core/index.ts";
import type { SetUpCatalogueView } from "../../contract/index.ts";
import { instrumentRoles, numberEntry } from "../../import/index.ts";
import { refuse } from "../refused.ts";
import type { Described } from "./instrument-change.ts";
import type { EnteredField } from "./sheet.ts";

/** The field of an edit that takes over a starting value by its name, in place of all that is said of the errors. */
const startingField = "startingValue";
const assumedChar = "assumedChar";

const taking = (name: string) => [{ field: startingField, text: name }];

/** The name of the starting value that an edit takes over; null for an edit of fields. */
function takenOver(entered: readonly EnteredField[]): string | null {
  const [first, ...others] = entered;
  return first?.field === startingField && others.length === 0 ? first.text : null;
}

/** Usual instruments for each use, with their errors and where these are from. */
export function instrumentCatalogue(locale: Locale): SetUpCatalogueView {
  const { settings, setUpWork: words } = wordsFor(locale);
  const column = (name: string, kind: "text" | "sentence") => ({ name, unit: null, kind });
  return {
    columns: [
      column(words.startingFor, "text"),
      column(words.startingLabel, "text"),
      column(words.startingErrors, "sentence"),
    ],
    entries: instrumentRoles.flatMap((role) =>
      startingValues
        .filter(({ roles }) => roles.includes(role))
        .map(({ name, components }) => {
          const { label, source } = words.startingValues[name];
          return {
            label: words.errorCalled(label, settings.roles[role]),
            cells: [settings.roles[role], label, componentTexts(components, settings.units[role], locale).join("; ")],
            source,
            item: role,
            fields: taking(name),
          };
        }),
    ),
  };
}

/** The instrument that an edit takes over from the starting values, calibrations and all; null for an edit of fields. */
export function startedFrom(
  entered: readonly EnteredField[],
  role: InstrumentRole,
  there: Described | undefined,
  locale: Locale,
): Instrument | null {
  const taken = takenOver(entered);
  if (taken === null) return null;
  const words = wordsFor(locale).setUpWork;
  const value = startingValues.find(({ name, roles }) => name === taken && roles.includes(role));
  if (value === undefined) refuse(words.noSuchField);
  const before: Instrument = there === undefined || "sameAs" in there ? { components: [] } : there;
  return { ...before, components: value.components, source: words.startingValues[value.name].source };
}

/** The char's assumed value with its error. */
export function charCatalogue(locale: Locale): SetUpCatalogueView {
  const { settings, setUpWork: words } = wordsFor(locale);
  const unit = settings.calorificUnit;
  return {
    columns: [
      { name: words.fields.charCalorific.name, unit, kind: "number" },
      { name: words.startingErrors, unit: null, kind: "sentence" },
    ],
    entries: [
      {
        label: words.assumedChar.label,
        cells: [numberEntry(defaultCharNetCalorific), componentTexts(assumedCharComponents, unit, locale).join("; ")],
        source: words.assumedChar.source,
        item: null,
        fields: taking(assumedChar),
      },
    ],
  };
}

/** The settings with the char's assumed value, where an edit takes that over; null for an edit of fields. */
export function charStartedFrom(entered: readonly EnteredField[], settings: Settings, locale: Locale): Settings | null {
  const taken = takenOver(entered);
  if (taken === null) return null;
  const words = wordsFor(locale).setUpWork;
  if (taken !== assumedChar) refuse(words.noSuchField);
  return {
    ...settings,
    charNetCalorific: { value: defaultCharNetCalorific, components: assumedCharComponents },
    charSource: words.assumedChar.source,
  };
}
