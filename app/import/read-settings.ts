import type * as v from "valibot";
import {
  type Calibration,
  defaultCharNetCalorific,
  defaultLocale,
  defaultSettings,
  type FuelSettings,
  formatFixed,
  type Instrument,
  type InstrumentRole,
  type Locale,
  type Method,
  type MonteCarloSettings,
  type PlaceSettings,
  type PotSettings,
  type Problem,
  type UncertaintyComponent,
  type ValueWithUncertainty,
} from "../../core/index.ts";
import { decodeText } from "./decode-text.ts";
import { largestFile } from "./limits.ts";
import { type ProblemList, problemList } from "./problem-list.ts";
import { repeatedKeys } from "./repeated-keys.ts";
import type { SettingsFile } from "./settings-file.ts";
import { type JsonObject, objectReader, type SettingsReader } from "./settings-reader.ts";
import {
  adaptiveSchema,
  altitudeSchema,
  calorificSchema,
  componentEntries,
  confidenceSchema,
  dateSchema,
  emptyMassSchema,
  hydrogenSchema,
  instrumentRoles,
  methodSchema,
  positiveSchema,
  pressureSchema,
  seedSchema,
  sizeNames,
  textSchema,
  trialsSchema,
  volumeSchema,
} from "./settings-schema.ts";

type ComponentSize = UncertaintyComponent["size"];

function readSize(object: JsonObject, reader: SettingsReader): ComponentSize | null {
  const { words } = reader;
  const given = sizeNames.filter((name) => object.has(name));
  const [name] = given;
  if (name === undefined || given.length > 1) {
    reader.fault("one-size", object.path, words.oneSize({ known: sizeNames }));
    return null;
  }
  const value = reader.value(object, name, componentEntries[name]);
  const isExpanded = name === "expandedUncertainty" || name === "relativeExpandedUncertainty";
  if (isExpanded !== object.has("coverageFactor")) {
    reader.fault("coverage-factor", object.path, words.coverageFactor());
    return null;
  }
  const factor = isExpanded ? reader.value(object, "coverageFactor", componentEntries.coverageFactor) : 1;
  if (value === null || factor === null) return null;
  switch (name) {
    case "expandedUncertainty":
      return { expandedUncertainty: value, coverageFactor: factor };
    case "relativeExpandedUncertainty":
      return { relativeExpandedUncertainty: value, coverageFactor: factor };
    case "standardUncertainty":
      return { standardUncertainty: value };
    case "relativeStandardUncertainty":
      return { relativeStandardUncertainty: value };
    case "halfWidth":
      return { halfWidth: value };
    case "relativeHalfWidth":
      return { relativeHalfWidth: value };
  }
}

function readComponent(value: unknown, path: string, reader: SettingsReader): UncertaintyComponent | null {
  const object = reader.object(value, path, Object.keys(componentEntries));
  if (object === null) return null;
  const name = reader.needed(object, "name", componentEntries.name);
  const distribution = reader.needed(object, "distribution", componentEntries.distribution);
  const kind = reader.needed(object, "kind", componentEntries.kind);
  const size = readSize(object, reader);
  const degreesOfFreedom = reader.value(object, "degreesOfFreedom", componentEntries.degreesOfFreedom);
  if (distribution === "normal" && size !== null && ("halfWidth" in size || "relativeHalfWidth" in size)) {
    reader.fault("normal-half-width", path, reader.words.normalHalfWidth());
    return null;
  }
  return name === null || distribution === null || kind === null || size === null
    ? null
    : { name, distribution, size, kind, degreesOfFreedom };
}

/**
 * Components as written, or their short form: `resolution` is one digit, rectangular, with half of it as half-width and new
 * at each reading; `standardUncertainty` is normal and, to be cautious, shared by all readings.
 */
function readComponents(object: JsonObject, reader: SettingsReader): readonly UncertaintyComponent[] {
  const short: UncertaintyComponent[] = [];
  const resolution = reader.value(object, "resolution", positiveSchema);
  if (resolution !== null) {
    const size = { halfWidth: resolution / 2 };
    short.push({ name: "resolution", distribution: "rectangular", size, kind: "independent", degreesOfFreedom: null });
  }
  const standard = reader.value(object, "standardUncertainty", positiveSchema);
  if (standard !== null) {
    const size = { standardUncertainty: standard };
    short.push({ name: "standard uncertainty", distribution: "normal", size, kind: "shared", degreesOfFreedom: null });
  }
  if (!object.has("components")) return short;
  if (object.has("resolution") || object.has("standardUncertainty")) {
    reader.fault("shorthand-beside", object.path, reader.words.shorthandBeside());
  }
  const path = `${object.path}.components`;
  return reader
    .list(object.get("components"), path)
    .flatMap((item, index) => readComponent(item, `${path}[${index}]`, reader) ?? []);
}

const componentKeys = ["components", "resolution", "standardUncertainty"];
const instrumentKeys = [...componentKeys, "calibrations"];
const allInstrumentKeys = [...instrumentKeys, "source"];

/** A value with its components, or the bare number. */
function readValue(
  object: JsonObject,
  key: string,
  schema: v.GenericSchema<unknown, number>,
  reader: SettingsReader,
): ValueWithUncertainty | null {
  if (!object.has(key)) return null;
  const path = object.path === "" ? key : `${object.path}.${key}`;
  if (typeof object.get(key) === "number") {
    const value = reader.value(object, key, schema);
    return value === null ? null : { value, components: [] };
  }
  const inner = reader.object(object.get(key), path, ["value", ...componentKeys]);
  if (inner === null) return null;
  const value = reader.needed(inner, "value", schema);
  const components = readComponents(inner, reader);
  return value === null ? null : { value, components };
}

function readFuel(value: unknown, path: string, reader: SettingsReader): FuelSettings | null {
  const object = reader.object(value, path, ["netCalorific", "grossCalorific", "hydrogenPercent", "source"]);
  if (object === null) return null;
  const source = reader.value(object, "source", textSchema);
  if (object.has("netCalorific") === object.has("grossCalorific")) {
    reader.fault("net-or-gross", path, reader.words.netOrGross());
  }
  return {
    netCalorific: readValue(object, "netCalorific", calorificSchema, reader),
    grossCalorific: readValue(object, "grossCalorific", calorificSchema, reader),
    hydrogenPercent: readValue(object, "hydrogenPercent", hydrogenSchema, reader),
    ...(source === null ? {} : { source }),
  };
}

type Instruments = Map<InstrumentRole, Instrument | { readonly sameAs: InstrumentRole }>;

const isRole = (text: unknown): text is InstrumentRole => (instrumentRoles as readonly unknown[]).includes(text);

/** A role that names another must come to an instrument in the end. */
function checkAliases(instruments: Instruments, reader: SettingsReader): void {
  for (const [role, first] of instruments) {
    if (!("sameAs" in first)) continue;
    const path = `instruments.${role}`;
    const passed = new Set<InstrumentRole>([role]);
    let next: InstrumentRole | null = first.sameAs;
    while (next !== null) {
      if (passed.has(next)) {
        reader.fault("alias-circle", path, reader.words.aliasCircle({ role }), first.sameAs);
        break;
      }
      passed.add(next);
      const found = instruments.get(next);
      if (found === undefined) {
        reader.fault("alias-nowhere", path, reader.words.aliasNowhere({ role: next }), first.sameAs);
      }
      next = found !== undefined && "sameAs" in found ? found.sameAs : null;
    }
  }
}

/** The calibrations of an instrument, in the order of the file; null where nothing is said about them. */
function readCalibrations(object: JsonObject, reader: SettingsReader): readonly Calibration[] | null {
  if (!object.has("calibrations")) return null;
  const path = `${object.path}.calibrations`;
  return reader.list(object.get("calibrations"), path).flatMap((item, index): Calibration[] => {
    const at = `${path}[${index}]`;
    const entry = reader.object(item, at, ["from", "until", "certificate"]);
    if (entry === null) return [];
    const from = reader.needed(entry, "from", dateSchema);
    const until = reader.value(entry, "until", dateSchema);
    const certificate = reader.value(entry, "certificate", textSchema);
    if (from === null) return [];
    if (until !== null && until < from) {
      reader.fault("until-before-from", `${at}.until`, reader.words.untilBeforeFrom({ from, until }));
    }
    return [{ from, until, certificate }];
  });
}

function readPots(value: unknown, reader: SettingsReader): PotSettings[] {
  const object = reader.object(value, "pots", null);
  return [...(object?.entries() ?? [])].flatMap(([name, written]): PotSettings[] => {
    const pot = reader.object(written, `pots.${name}`, ["emptyMass_g", "volume_L"]);
    if (pot === null) return [];
    const emptyMass = reader.needed(pot, "emptyMass_g", emptyMassSchema);
    const volume = reader.value(pot, "volume_L", volumeSchema);
    return emptyMass === null ? [] : [{ name, emptyMass, volume }];
  });
}

function readPlace(value: unknown, reader: SettingsReader): PlaceSettings | null {
  const object = reader.object(value, "place", ["name", "altitude_m", "pressure_kPa"]);
  if (object === null) return null;
  return {
    name: reader.value(object, "name", textSchema),
    altitude: reader.value(object, "altitude_m", altitudeSchema),
    pressure: reader.value(object, "pressure_kPa", pressureSchema),
  };
}

function readInstruments(value: unknown, reader: SettingsReader): Instruments {
  const instruments: Instruments = new Map();
  const object = reader.object(value, "instruments", instrumentRoles);
  if (object === null) return instruments;
  for (const role of instrumentRoles) {
    if (!object.has(role)) continue;
    const written = object.get(role);
    const path = `instruments.${role}`;
    if (typeof written === "string") {
      if (isRole(written)) instruments.set(role, { sameAs: written });
      else reader.fault("choice", path, reader.words.choice({ known: instrumentRoles }), written);
      continue;
    }
    const instrument = reader.object(written, path, allInstrumentKeys);
    if (instrument === null) continue;
    if (!instrumentKeys.some((key) => instrument.has(key))) {
      reader.fault("no-components", path, reader.words.noComponents());
    }
    const calibrations = readCalibrations(instrument, reader);
    const components = readComponents(instrument, reader);
    const source = reader.value(instrument, "source", textSchema);
    instruments.set(role, {
      components,
      ...(source === null ? {} : { source }),
      ...(calibrations === null ? {} : { calibrations }),
    });
  }
  checkAliases(instruments, reader);
  return instruments;
}

const usualMonteCarlo = defaultSettings().monteCarlo;

function readMonteCarlo(value: unknown, reader: SettingsReader): MonteCarloSettings {
  const object = reader.object(value, "monteCarlo", ["trials", "seed", "adaptive"]);
  if (object === null) return usualMonteCarlo;
  return {
    trials: reader.value(object, "trials", trialsSchema) ?? usualMonteCarlo.trials,
    seed: reader.value(object, "seed", seedSchema) ?? usualMonteCarlo.seed,
    ...(reader.value(object, "adaptive", adaptiveSchema) === true ? { adaptive: true } : {}),
  };
}

const fileKeys = ["method", "confidence", "fuels", "char", "pots", "place", "instruments", "monteCarlo"];

function readObject(value: unknown, flags: { method?: Method | null }, reader: SettingsReader): SettingsFile | null {
  const object = reader.object(value, "", fileKeys);
  if (object === null) return null;
  const fuels = new Map<string, FuelSettings>();
  const fuelObject = object.has("fuels") ? reader.object(object.get("fuels"), "fuels", null) : null;
  for (const [name, fuel] of fuelObject?.entries() ?? []) {
    const settings = readFuel(fuel, `fuels.${name}`, reader);
    if (settings !== null) fuels.set(name, settings);
  }
  const char = object.has("char") ? reader.object(object.get("char"), "char", ["netCalorific", "source"]) : null;
  const charSource = char === null ? null : reader.value(char, "source", textSchema);
  const charValue = char === null ? null : readValue(char, "netCalorific", calorificSchema, reader);
  const pots = object.has("pots") ? readPots(object.get("pots"), reader) : null;
  const place = object.has("place") ? readPlace(object.get("place"), reader) : null;
  return {
    method: flags.method ?? reader.value(object, "method", methodSchema),
    confidence: reader.value(object, "confidence", confidenceSchema),
    fuels,
    charNetCalorific: charValue ?? { value: defaultCharNetCalorific, components: [] },
    ...(charSource === null ? {} : { charSource }),
    instruments: object.has("instruments") ? readInstruments(object.get("instruments"), reader) : new Map(),
    monteCarlo: object.has("monteCarlo") ? readMonteCarlo(object.get("monteCarlo"), reader) : usualMonteCarlo,
    ...(pots === null ? {} : { pots }),
    ...(place === null ? {} : { place }),
  };
}

/** Text of a settings file; null, and said, where it is none. */
function readText(bytes: Uint8Array, list: ProblemList): string | null {
  const decoded = decodeText(bytes);
  if (decoded.ok) return decoded.text;
  const { file } = list.words;
  const megabytes = (count: number) => formatFixed(count / 1024 / 1024, 1, list.locale);
  if (decoded.because === "too-large") {
    list.error(
      "file-too-large",
      {},
      file.tooLarge({ megabytes: megabytes(bytes.length), limit: megabytes(largestFile) }),
    );
  } else if (decoded.because === "nul") list.error("nul", {}, file.nul(decoded));
  else if (decoded.because === "encoding") list.error("encoding", {}, file.encoding(decoded));
  else if (decoded.because === "workbook") list.error("not-json", {}, list.words.settings.notJson());
  else list.error("encoding", {}, file.encodingUtf16());
  return null;
}

export interface SettingsRead {
  /** Null where there are problems. */
  readonly settings: SettingsFile | null;
  readonly problems: readonly Problem[];
}

/**
 * A settings file. Problems name the place as a path (`instruments.potBalance.components[0]`) in `column`. A method given as
 * flag beats the file's.
 */
export function readSettings(
  bytes: Uint8Array,
  fileName: string,
  flags: { readonly method?: Method | null } = {},
  locale: Locale = defaultLocale,
): SettingsRead {
  const list = problemList(fileName, locale);
  const text = readText(bytes, list);
  if (text === null) return { settings: null, problems: list.problems };
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    const position = /position (\d+)/.exec(error instanceof Error ? error.message : "")?.[1];
    const row = text.slice(0, position === undefined ? text.length : Number(position)).split("\n").length;
    list.error("not-json", { row }, list.words.settings.notJson());
    return { settings: null, problems: list.problems };
  }
  for (const { path, row } of repeatedKeys(text)) {
    list.error("key-twice", { row, column: path }, list.words.settings.keyTwice({ key: path }));
  }
  const settings = readObject(value, flags, objectReader(list));
  return { settings: list.problems.length > 0 ? null : settings, problems: list.problems };
}
