import type {
  Calibration,
  FuelSettings,
  Instrument,
  PlaceSettings,
  PotSettings,
  Settings,
  UncertaintyComponent,
  ValueWithUncertainty,
} from "../../core/index.ts";
import { instrumentRoles } from "./settings-schema.ts";

type Json = Record<string, unknown>;

/** An object from entries: a key may be `__proto__`, which assignment would lose. */
const objectOf = (entries: Iterable<readonly [string, unknown]>): Json => Object.fromEntries(entries);

function componentJson({ name, distribution, size, kind, degreesOfFreedom }: UncertaintyComponent): Json {
  return { name, distribution, ...size, kind, ...(degreesOfFreedom === null ? {} : { degreesOfFreedom }) };
}

function valueJson({ value, components }: ValueWithUncertainty): Json {
  return components.length === 0 ? { value } : { value, components: components.map(componentJson) };
}

function fuelJson({ netCalorific, grossCalorific, hydrogenPercent, source }: FuelSettings): Json {
  return {
    ...(netCalorific === null ? {} : { netCalorific: valueJson(netCalorific) }),
    ...(grossCalorific === null ? {} : { grossCalorific: valueJson(grossCalorific) }),
    ...(hydrogenPercent === null ? {} : { hydrogenPercent: valueJson(hydrogenPercent) }),
    ...(source === undefined ? {} : { source }),
  };
}

function calibrationJson({ from, until, certificate }: Calibration): Json {
  return { from, ...(until === null ? {} : { until }), ...(certificate === null ? {} : { certificate }) };
}

function instrumentJson({ components, source, calibrations }: Instrument): Json {
  return {
    components: components.map(componentJson),
    ...(source === undefined ? {} : { source }),
    ...(calibrations === undefined ? {} : { calibrations: calibrations.map(calibrationJson) }),
  };
}

function potJson({ emptyMass, volume }: PotSettings): Json {
  return { emptyMass_g: emptyMass, ...(volume === null ? {} : { volume_L: volume }) };
}

function placeJson({ name, altitude, pressure }: PlaceSettings): Json {
  return {
    ...(name === null ? {} : { name }),
    ...(altitude === null ? {} : { altitude_m: altitude }),
    ...(pressure === null ? {} : { pressure_kPa: pressure }),
  };
}

/** Settings as a settings file; reading it again gives the same settings. */
export function writeSettings(settings: Settings): string {
  const instruments = instrumentRoles.flatMap((role): (readonly [string, unknown])[] => {
    const instrument = settings.instruments.get(role);
    if (instrument === undefined) return [];
    if ("sameAs" in instrument) return [[role, instrument.sameAs]];
    return [[role, instrumentJson(instrument)]];
  });
  const file = {
    method: settings.method,
    confidence: settings.confidence,
    fuels: objectOf([...settings.fuels].map(([name, fuel]) => [name, fuelJson(fuel)])),
    char: {
      netCalorific: valueJson(settings.charNetCalorific),
      ...(settings.charSource === undefined ? {} : { source: settings.charSource }),
    },
    ...(settings.pots === undefined ? {} : { pots: objectOf(settings.pots.map((pot) => [pot.name, potJson(pot)])) }),
    ...(settings.place === undefined ? {} : { place: placeJson(settings.place) }),
    instruments: objectOf(instruments),
    monteCarlo: settings.monteCarlo,
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}
