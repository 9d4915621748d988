import {
  type FuelSettings,
  type Instrument,
  type InstrumentRole,
  type Locale,
  type Settings,
  type UncertaintyComponent,
  type ValueWithUncertainty,
  wordsFor,
} from "../../../core/index.ts";
import { instrumentRoles } from "../../import/index.ts";
import type { Change, StoredHead } from "../../store/index.ts";
import type { EditContext } from "../study/prepared.ts";
import { settingsParts } from "../study/stored-settings.ts";
import { instrumentChange, isNothing, refuseIfNamed } from "./instrument-change.ts";

/** What an error is of: an instrument, a value of a fuel, or the char's calorific value. */
export type ErrorOwner =
  | { readonly kind: "instrument"; readonly role: InstrumentRole }
  | { readonly kind: "fuel"; readonly item: number; readonly name: string; readonly value: "calorific" | "hydrogen" }
  | { readonly kind: "char" };

/** As items and edits name it. */
export function ownerKey(owner: ErrorOwner): string {
  if (owner.kind === "instrument") return owner.role;
  return owner.kind === "char" ? "char" : `fuel/${owner.item}/${owner.value}`;
}

/** Where it is chosen: an instrument with the unit of its readings. */
export function ownerChoice(owner: ErrorOwner, locale: Locale): string {
  const name = ownerName(owner, locale);
  return owner.kind === "instrument" ? wordsFor(locale).setUpWork.roleIn(name, ownerUnit(owner, locale)) : name;
}

export function ownerName(owner: ErrorOwner, locale: Locale): string {
  const { settings, setUpWork: words } = wordsFor(locale);
  if (owner.kind === "instrument") return settings.roles[owner.role];
  if (owner.kind === "char") return words.charCalorific;
  return owner.value === "calorific" ? words.calorificOf(owner.name) : words.hydrogenOf(owner.name);
}

export function ownerUnit(owner: ErrorOwner, locale: Locale): string {
  const { settings } = wordsFor(locale);
  if (owner.kind === "instrument") return settings.units[owner.role];
  return owner.kind === "fuel" && owner.value === "hydrogen" ? settings.hydrogenUnit : settings.calorificUnit;
}

/** All that can have errors of its own: instruments that are not the same as another, values that fuels have, and the char's. */
export function errorOwners(settings: Settings, head: StoredHead): readonly ErrorOwner[] {
  const roles = instrumentRoles.filter((role) => {
    const described = settings.instruments.get(role);
    return described === undefined || !("sameAs" in described);
  });
  const fuels = [...head.fuels].flatMap(([item, { name }]): ErrorOwner[] => {
    const fuel = settings.fuels.get(name);
    if (fuel === undefined) return [];
    const values = [
      ...(fuel.netCalorific === null && fuel.grossCalorific === null ? [] : (["calorific"] as const)),
      ...(fuel.hydrogenPercent === null ? [] : (["hydrogen"] as const)),
    ];
    return values.map((value) => ({ kind: "fuel", item, name, value }));
  });
  return [...roles.map((role): ErrorOwner => ({ kind: "instrument", role })), ...fuels, { kind: "char" }];
}

function fuelValue(fuel: FuelSettings | undefined, value: "calorific" | "hydrogen"): ValueWithUncertainty | null {
  if (fuel === undefined) return null;
  return value === "hydrogen" ? fuel.hydrogenPercent : (fuel.netCalorific ?? fuel.grossCalorific);
}

export function componentsOf(owner: ErrorOwner, settings: Settings): readonly UncertaintyComponent[] {
  if (owner.kind === "char") return settings.charNetCalorific.components;
  if (owner.kind === "fuel") return fuelValue(settings.fuels.get(owner.name), owner.value)?.components ?? [];
  const described = settings.instruments.get(owner.role);
  return described === undefined || "sameAs" in described ? [] : described.components;
}

/** The settings with other errors of an instrument or a value. */
export function withComponents(
  owner: ErrorOwner,
  components: readonly UncertaintyComponent[],
  settings: Settings,
): Settings {
  if (owner.kind === "char") {
    return { ...settings, charNetCalorific: { ...settings.charNetCalorific, components } };
  }
  if (owner.kind === "instrument") {
    const there = settings.instruments.get(owner.role);
    const before: Instrument = there === undefined || "sameAs" in there ? { components: [] } : there;
    const after = { ...before, components };
    const instruments = new Map(settings.instruments);
    if (isNothing(after)) instruments.delete(owner.role);
    else instruments.set(owner.role, after);
    return { ...settings, instruments };
  }
  const fuel = settings.fuels.get(owner.name);
  if (fuel === undefined) return settings;
  const changed = (value: ValueWithUncertainty | null) => (value === null ? null : { ...value, components });
  const after: FuelSettings =
    owner.value === "hydrogen"
      ? { ...fuel, hydrogenPercent: changed(fuel.hydrogenPercent) }
      : { ...fuel, netCalorific: changed(fuel.netCalorific), grossCalorific: changed(fuel.grossCalorific) };
  return { ...settings, fuels: new Map(settings.fuels).set(owner.name, after) };
}

/** What changes in the file where instruments, fuels and the char's value are to be as these settings have them. */
export function errorChanges(after: Settings, context: EditContext): Change[] {
  const { content, locale } = context;
  const { head, settings: before } = content;
  const instruments = instrumentRoles.flatMap((role) => {
    const described = after.instruments.get(role) ?? null;
    if (described === null && before.instruments.has(role)) refuseIfNamed(role, before, locale);
    return described === (before.instruments.get(role) ?? null) ? [] : instrumentChange(role, described, context);
  });
  const parts = settingsParts(after);
  const fuels = [...head.fuels].flatMap(([item, stored]): Change[] => {
    if (after.fuels.get(stored.name) === before.fuels.get(stored.name)) return [];
    const named = parts.fuels.find(({ name }) => name === stored.name);
    if (named === undefined || JSON.stringify(named) === JSON.stringify(stored)) return [];
    return [{ subject: "fuel", item, after: named }];
  });
  const char = parts.settings.get("char");
  const isCharSame = JSON.stringify(char) === JSON.stringify(settingsParts(before).settings.get("char"));
  return [
    ...instruments,
    ...fuels,
    ...(isCharSame ? [] : [{ subject: "setting", field: "char", after: char } as const]),
  ];
}
