import * as v from "valibot";
import type { Words } from "../../core/index.ts";
import { nearestName } from "./nearest-name.ts";
import type { ProblemList } from "./problem-list.ts";
import type { SettingsFault } from "./settings-schema.ts";

/** A JSON object as a map: its keys may be any text, `__proto__` too. */
export interface JsonObject extends ReadonlyMap<string, unknown> {
  /** Where it stands in the file. */
  readonly path: string;
}

/** Reads JSON values against schemas; what is wrong goes to the list, with its path. */
export interface SettingsReader {
  readonly words: Words["problems"]["settings"];
  /** An object with no other keys than the known ones; null, and said, where it is none. `known` null: any keys. */
  object(value: unknown, path: string, known: readonly string[] | null): JsonObject | null;
  list(value: unknown, path: string): readonly unknown[];
  /** The value of a key; null where it is absent, or wrong and said. */
  value<T>(object: JsonObject, key: string, schema: v.GenericSchema<unknown, T>): T | null;
  /** The same for a key that must be there. */
  needed<T>(object: JsonObject, key: string, schema: v.GenericSchema<unknown, T>): T | null;
  fault(rule: string, path: string, message: string, cell?: unknown): void;
}

const rules: Readonly<Record<SettingsFault, string>> = {
  notAText: "not-a-text",
  notANumber: "not-a-number",
  notPositive: "not-positive",
  notAFraction: "not-a-fraction",
  confidence: "confidence",
  calorificValue: "calorific-value-out-of-range",
  hydrogen: "hydrogen-out-of-range",
  trials: "trials",
  adaptive: "not-true-or-false",
  seed: "seed",
  notAnObject: "not-an-object",
  notAnArray: "not-a-list",
  method: "choice",
  distribution: "choice",
  kind: "choice",
  date: "not-a-date",
  emptyMass: "empty-mass-out-of-range",
  volume: "volume-out-of-range",
  altitude: "altitude-out-of-range",
  pressure: "pressure-out-of-range",
};

const choices = {
  method: ["wbt", "iso"],
  distribution: ["normal", "rectangular", "triangular"],
  kind: ["independent", "shared"],
} as const;

/** A value as the file writes it, where it is a simple one. */
function simpleText(value: unknown): string | undefined {
  // Too large for a number, and JSON has no word for it.
  if (typeof value === "number" && !Number.isFinite(value)) return String(value);
  return value === null || ["string", "number", "boolean"].includes(typeof value) ? JSON.stringify(value) : undefined;
}

/** What a code says in words. */
export function faultText(code: SettingsFault, words: Words["problems"]["settings"]): string {
  switch (code) {
    case "method":
    case "distribution":
    case "kind":
      return words.choice({ known: choices[code] });
    default:
      return words[code]();
  }
}

export function objectReader(list: ProblemList): SettingsReader {
  const words = list.words.settings;
  const reader: SettingsReader = {
    words,
    object(value, path, known) {
      if (typeof value !== "object" || value === null || Array.isArray(value)) {
        reader.fault("not-an-object", path, words.notAnObject(), value);
        return null;
      }
      const entries = new Map<string, unknown>(Object.entries(value));
      for (const key of known === null ? [] : entries.keys()) {
        if (known?.includes(key)) continue;
        const near = nearestName(key, known ?? []);
        const place = path === "" ? key : `${path}.${key}`;
        reader.fault("unknown-key", place, words.unknownKey({ key, near, known: known ?? [] }), entries.get(key));
      }
      return Object.assign(entries, { path });
    },
    list(value, path) {
      if (Array.isArray(value)) return value;
      reader.fault("not-a-list", path, words.notAnArray(), value);
      return [];
    },
    value(object, key, schema) {
      if (!object.has(key)) return null;
      const result = v.safeParse(schema, object.get(key), { abortEarly: true });
      if (result.success) return result.output;
      const code = result.issues[0].message as SettingsFault;
      reader.fault(
        rules[code],
        object.path === "" ? key : `${object.path}.${key}`,
        faultText(code, words),
        object.get(key),
      );
      return null;
    },
    needed(object, key, schema) {
      if (!object.has(key)) {
        const path = object.path === "" ? key : `${object.path}.${key}`;
        reader.fault("missing-key", path, words.missingKey({ key }));
        return null;
      }
      return reader.value(object, key, schema);
    },
    fault(rule, path, message, cell) {
      const text = simpleText(cell);
      list.error(
        rule,
        { ...(path === "" ? {} : { column: path }), ...(text === undefined ? {} : { cell: text }) },
        text === undefined || rule === "unknown-key" ? message : words.found({ text, message }),
      );
    },
  };
  return reader;
}
