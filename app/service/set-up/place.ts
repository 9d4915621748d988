import {
  formatFixed,
  type Locale,
  type PlaceSettings,
  waterAtAltitude,
  waterAtPressure,
  wordsFor,
} from "../../../core/index.ts";
import type { SetUpFieldView } from "../../contract/index.ts";
import { numberEntry } from "../../import/index.ts";
import type { Change } from "../../store/index.ts";
import { refuse } from "../refused.ts";
import { settingsParts } from "../study/stored-settings.ts";
import { field, type SetUpPart } from "./part.ts";
import { Sheet, textsByField } from "./sheet.ts";

const nowhere: PlaceSettings = { name: null, altitude: null, pressure: null };

function fieldsOf(locale: Locale): SetUpFieldView[] {
  const words = wordsFor(locale);
  const { fields } = words.setUpWork;
  const { units } = words.settings;
  return [
    field("name", "text", fields.placeName),
    field("altitude_m", "number", fields.placeAltitude, { unit: units.altitude }),
    field("pressure_kPa", "number", fields.placePressure, { unit: units.barometer }),
  ];
}

function textsOf({ name, altitude, pressure }: PlaceSettings): string[] {
  return [name ?? "", ...[altitude, pressure].map((value) => (value === null ? "" : numberEntry(value)))];
}

/** Where water boils at a place, in words. */
function boilingText({ altitude, pressure }: PlaceSettings, locale: Locale): string {
  const words = wordsFor(locale).setUpWork;
  const water = pressure !== null ? waterAtPressure(pressure) : altitude !== null ? waterAtAltitude(altitude) : null;
  if (water === null || !water.ok) return words.noBoilingPoint;
  const boils = words.boils(formatFixed(water.boilingPoint, 1, locale));
  return pressure !== null && altitude !== null ? `${boils}, ${words.fromPressure}` : boils;
}

/** The place: one of it, never silently taken over by a run. */
export const placePart: SetUpPart = {
  section({ content, locale }) {
    const { place = nowhere } = content.settings;
    return {
      subject: "place",
      ...wordsFor(locale).setUpWork.sections.place,
      add: null,
      addField: null,
      fieldSuggestions: [],
      fields: fieldsOf(locale),
      items: [
        { item: null, title: null, texts: textsOf(place), detail: boilingText(place, locale), isRemovable: false },
      ],
      catalogue: null,
    };
  },
  edit(_item, entered, { content, locale }) {
    const words = wordsFor(locale);
    const { settings } = content;
    const fields = fieldsOf(locale);
    const sheet = new Sheet(fields, textsByField(fields, textsOf(settings.place ?? nowhere)), entered, locale);
    const name = sheet.text("name");
    const place: PlaceSettings = {
      name: name === "" ? null : name,
      altitude: sheet.number("altitude_m", "altitude"),
      pressure: sheet.number("pressure_kPa", "pressure"),
    };
    const isNone = textsOf(place).every((text) => text === "");
    const after = isNone ? null : settingsParts({ ...settings, place }).settings.get("place");
    const isSame = JSON.stringify(after) === JSON.stringify(content.head.settings.get("place") ?? null);
    const changes: Change[] = isSame ? [] : [{ subject: "setting", field: "place", after }];
    const [changed] = fields.filter((one) => sheet.isChanged(one.field));
    const unit = changed?.unit == null ? "" : ` ${changed.unit}`;
    const about = changed === undefined ? name : `${sheet.text(changed.field)}${unit}`;
    return { what: changed?.name ?? words.setUpWork.subjects.place, name: about, changes };
  },
  remove(_item, { locale }) {
    refuse(wordsFor(locale).setUpWork.noSuchField);
  },
};
