import type { FuelSettings, Settings, UncertaintyComponent, ValueWithUncertainty } from "../../core/index.ts";
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

function fuelJson({ netCalorific, grossCalorific, hydrogenPercent }: FuelSettings): Json {
  return {
    ...(netCalorific === null ? {} : { netCalorific: valueJson(netCalorific) }),
    ...(grossCalorific === null ? {} : { grossCalorific: valueJson(grossCalorific) }),
    ...(hydrogenPercent === null ? {} : { hydrogenPercent: valueJson(hydrogenPercent) }),
  };
}

/** Settings as a settings file; reading it again gives the same settings. */
export function writeSettings(settings: Settings): string {
  const instruments = instrumentRoles.flatMap((role): (readonly [string, unknown])[] => {
    const instrument = settings.instruments.get(role);
    if (instrument === undefined) return [];
    if ("sameAs" in instrument) return [[role, instrument.sameAs]];
    return [[role, { components: instrument.components.map(componentJson) }]];
  });
  const file = {
    method: settings.method,
    confidence: settings.confidence,
    fuels: objectOf([...settings.fuels].map(([name, fuel]) => [name, fuelJson(fuel)])),
    char: { netCalorific: valueJson(settings.charNetCalorific) },
    instruments: objectOf(instruments),
    monteCarlo: settings.monteCarlo,
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}
