import {
  type FuelEntry,
  isoPhases,
  methodOfPhase,
  type Phase,
  type PhaseName,
  type PotNumber,
  type PotReadings,
} from "../../core/readings/phase.ts";
import type { Reading } from "../../core/readings/reading.ts";
import { defaultSettings, type FuelSettings, type Settings } from "../../core/readings/settings.ts";
import type { Run, Study } from "../../core/readings/study.ts";

/** A fuel entry as a sheet has it: g, per cent, kJ/kg. What is left out was not written down. */
export interface FuelSheet {
  readonly fuel?: string;
  readonly before: number;
  readonly after: number;
  readonly wet?: number;
  readonly dry?: number;
  readonly net?: number;
  readonly gross?: number;
  readonly hydrogen?: number;
}

/** A pot as a sheet has it: g with the pot, or net (`waterStart`, `waterEnd`), and °C. */
export type PotSheet = { readonly pot?: PotNumber; readonly from: number; readonly to: number } & (
  | { readonly empty: number; readonly start: number; readonly end: number }
  | { readonly waterStart: number; readonly waterEnd: number }
);

/** One phase as a sheet has it. */
export interface PhaseSheet {
  readonly phase: PhaseName;
  /** min; or `start` and `end` in minutes after midnight. */
  readonly minutes?: number;
  readonly start?: number;
  readonly end?: number;
  readonly boiledAt?: number;
  readonly fuels: readonly FuelSheet[];
  /** g: net, or container and container with char. */
  readonly char?: number | { readonly container: number; readonly withContainer: number };
  readonly charAtStart?: number;
  readonly charNet?: number;
  readonly air?: number;
  readonly boiling?: number;
  readonly pressure?: number;
  readonly altitude?: number;
  readonly pots: readonly PotSheet[];
  readonly co?: number;
  readonly pm25?: number;
}

export interface RunSheet {
  readonly run: string;
  readonly variant: string;
  readonly phases: readonly PhaseSheet[];
  readonly block?: string;
  readonly leftOut?: string;
}

type Take = (name: string, value: number) => Reading;

/** Readings that keep one identity where a sheet has one number for several phases (pot, container, moisture, air, boiling). */
function identities(run: string): (phase: PhaseName) => Take {
  const wholeRun = /\.(empty|container|moisture|air|boiling)$/;
  return (phase) => (name, value) => ({
    id: wholeRun.test(name) ? `${run}/${name}=${value}` : `${run}/${phase}${name}`,
    value,
  });
}

function fuelOf(sheet: FuelSheet, index: number, take: Take): FuelEntry {
  const at = (name: string, value: number) => take(`.fuel${index + 1}.${name}`, value);
  const { wet, dry, net, gross, hydrogen } = sheet;
  const percent = wet ?? dry;
  return {
    fuel: sheet.fuel ?? null,
    massBefore: at("before", sheet.before),
    massAfter: at("after", sheet.after),
    moisture:
      percent === undefined ? null : { basis: wet === undefined ? "dry" : "wet", percent: at("moisture", percent) },
    calorific:
      net !== undefined
        ? { kind: "net", value: at("net", net) }
        : gross !== undefined
          ? {
              kind: "gross",
              value: at("gross", gross),
              hydrogenPercent: hydrogen === undefined ? null : at("hydrogen", hydrogen),
            }
          : null,
  };
}

function potOf(sheet: PotSheet, take: Take): PotReadings {
  const pot = sheet.pot ?? 1;
  const at = (name: string, value: number) => take(`.pot${pot}.${name}`, value);
  return {
    pot,
    masses:
      "empty" in sheet
        ? {
            kind: "weighed",
            empty: at("empty", sheet.empty),
            start: at("start", sheet.start),
            end: at("end", sheet.end),
          }
        : { kind: "net", waterStart: at("waterStart", sheet.waterStart), waterEnd: at("waterEnd", sheet.waterEnd) },
    temperatureStart: at("from", sheet.from),
    temperatureEnd: at("to", sheet.to),
  };
}

function phaseOf(sheet: PhaseSheet, take: Take, run: string): Phase {
  const reading = (name: string, value: number | undefined) => (value === undefined ? null : take(`.${name}`, value));
  const { char } = sheet;
  return {
    id: `${run}/${sheet.phase}`,
    phase: sheet.phase,
    timing:
      sheet.start !== undefined && sheet.end !== undefined
        ? { kind: "clock", start: take(".clockStart", sheet.start), end: take(".clockEnd", sheet.end), written: "time" }
        : { kind: "duration", minutes: take(".minutes", sheet.minutes ?? 30) },
    boiledAt: reading("boiledAt", sheet.boiledAt),
    fuels: sheet.fuels.map((fuel, index) => fuelOf(fuel, index, take)),
    char:
      char === undefined
        ? null
        : typeof char === "number"
          ? { kind: "net", mass: take(".char", char) }
          : {
              kind: "weighed",
              container: take(".container", char.container),
              withContainer: take(".withContainer", char.withContainer),
            },
    charAtStart: reading("charAtStart", sheet.charAtStart),
    charCalorific: reading("charNet", sheet.charNet),
    airTemperature: reading("air", sheet.air),
    boilingPoint: {
      measured: reading("boiling", sheet.boiling),
      pressure: reading("pressure", sheet.pressure),
      altitude: reading("altitude", sheet.altitude),
    },
    pots: sheet.pots.map((pot) => potOf(pot, take)),
    carbonMonoxide: reading("co", sheet.co),
    particulateMatter: reading("pm25", sheet.pm25),
    conditions: nothingNoted,
    sourceRow: null,
  };
}

/** Conditions of a phase of which nothing was written down. */
export const nothingNoted: Phase["conditions"] = {
  lid: null,
  wind: null,
  humidityPercent: null,
  fuelSizeMillimetres: null,
  deviation: null,
  note: null,
  others: [],
};

/** A run from its sheet; its method follows from its phases (WBT where it has none). */
export function buildRun(sheet: RunSheet): Run {
  const takeIn = identities(sheet.run);
  const [first] = sheet.phases;
  return {
    id: `id of ${sheet.run}`,
    name: sheet.run,
    variant: sheet.variant,
    method: first === undefined ? "wbt" : methodOfPhase(first.phase),
    date: null,
    order: null,
    block: sheet.block ?? null,
    operator: null,
    factors: new Map(),
    leftOut: sheet.leftOut ?? null,
    phases: sheet.phases.map((phase) => phaseOf(phase, takeIn(phase.phase), sheet.run)),
  };
}

/** Settings of the first sheet's method; fuels by name. */
export function buildSettings(
  fuels: Readonly<Record<string, { net?: number; gross?: number; hydrogen?: number }>> = {},
  more: Partial<Settings> = {},
): Settings {
  const exact = (value: number | undefined) => (value === undefined ? null : { value, components: [] });
  const named = new Map<string, FuelSettings>(
    Object.entries(fuels).map(([name, { net, gross, hydrogen }]) => [
      name,
      { netCalorific: exact(net), grossCalorific: exact(gross), hydrogenPercent: exact(hydrogen) },
    ]),
  );
  return { ...defaultSettings(more.method ?? "wbt"), fuels: named, ...more };
}

export function buildStudy(sheets: readonly RunSheet[], settings: Settings = buildSettings()): Study {
  return { name: "study", settings, runs: sheets.map(buildRun) };
}

/** A boil test that raises no question: 5 L, usual wood, usual times. A starting point for tests that change one thing. */
export function plainPhase(phase: PhaseName, change: Partial<PhaseSheet> = {}): PhaseSheet {
  const iso = (isoPhases as readonly string[]).includes(phase);
  const common = { phase, air: 25, boiling: 98, charAtStart: 0 } as const;
  const fuel = { fuel: "pine", wet: 10, net: 18_500 } as const;
  const pot = { empty: 600, start: 5600 } as const;
  if (phase === "simmer") {
    return {
      ...common,
      minutes: 45,
      fuels: [{ ...fuel, before: 1000, after: 600 }],
      char: 40,
      pots: [{ ...pot, end: 4800, from: 97, to: 96 }],
      ...change,
    };
  }
  return {
    ...common,
    minutes: iso ? 30 : 25,
    fuels: [{ ...fuel, before: 1500, after: 900 }],
    char: 60,
    pots: [{ ...pot, end: 5400, from: 25, to: 98 }],
    ...change,
  };
}

/** A whole run of {@link plainPhase}s, so that the simmer begins with what the hot start left. */
export function plainRun(run: string, variant: string, change: Partial<RunSheet> = {}): RunSheet {
  const phases = [
    plainPhase("cold-start"),
    plainPhase("hot-start"),
    plainPhase("simmer", { charAtStart: 60, char: 70 }),
  ];
  return { run, variant, phases, ...change };
}
