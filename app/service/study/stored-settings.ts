import type { Locale, Settings } from "../../../core/index.ts";
import { readSettings, settingsFor, writeSettings } from "../../import/index.ts";
import type { StoredHead, StoredNamed } from "../../store/index.ts";

/** The settings of a study in the parts in which its file keeps them; each value as a settings file has it. */
export interface SettingsParts {
  readonly fuels: readonly StoredNamed[];
  readonly instruments: readonly StoredNamed[];
  /** Null where the settings say nothing about pots. */
  readonly pots: readonly StoredNamed[] | null;
  readonly settings: ReadonlyMap<string, unknown>;
}

const named = (object: unknown): StoredNamed[] =>
  Object.entries(object as Record<string, unknown>).map(([name, value]) => ({ name, value }));

/** Settings as a settings file has them, in parts. */
export function settingsParts(settings: Settings): SettingsParts {
  const { fuels, instruments, pots, place, char, monteCarlo } = JSON.parse(writeSettings(settings)) as Record<
    string,
    unknown
  >;
  return {
    fuels: named(fuels),
    instruments: named(instruments),
    pots: pots === undefined ? null : named(pots),
    settings: new Map([
      ["char", char],
      ["monteCarlo", monteCarlo],
      ...(place === undefined ? [] : ([["place", place]] as const)),
    ]),
  };
}

/** An object's text from its entries: a key may be anything, `__proto__` too. */
function objectText(entries: Iterable<readonly [string, unknown]>): string {
  return `{${[...entries].map(([key, value]) => `${JSON.stringify(key)}:${JSON.stringify(value)}`).join(",")}}`;
}

const entriesOf = (items: ReadonlyMap<number, StoredNamed>) =>
  [...items.values()].map(({ name, value }) => [name, value] as const);

/** The settings of a study file, read the way a settings file is read. Throws where they are none. */
export function settingsOf(head: StoredHead, locale: Locale): Settings {
  const text = `{${[
    `"fuels":${objectText(entriesOf(head.fuels))}`,
    `"instruments":${objectText(entriesOf(head.instruments))}`,
    ...(head.pots.size === 0 ? [] : [`"pots":${objectText(entriesOf(head.pots))}`]),
    ...[...head.settings].map(([name, value]) => `${JSON.stringify(name)}:${JSON.stringify(value)}`),
  ].join(",")}}`;
  const { settings, problems } = readSettings(Buffer.from(text), head.name, {}, locale);
  if (settings === null) throw new Error(problems.map(({ message }) => message).join("\n"));
  return settingsFor({ ...settings, method: head.method, confidence: head.confidence }, []);
}
