import { netFromGross } from "../fuel/calorific-value.ts";
import { moistureWetFromDry } from "../fuel/moisture.ts";
import type { Arithmetic } from "../numeric/arithmetic.ts";
import { constants } from "../quantity/constants.ts";
import type { CalorificReading, CharReading, FuelEntry, Phase, PotNumber } from "../readings/phase.ts";
import type { InstrumentRole, Reading } from "../readings/reading.ts";
import type { FuelSettings, Settings, ValueWithUncertainty } from "../readings/settings.ts";
import type { Run } from "../readings/study.ts";
import { boilingPointAtAltitude, boilingPointAtPressure } from "../water/boiling-point.ts";
import { waterAtAltitude, waterAtPressure } from "../water/water-properties.ts";
import { given, missing, type Outcome } from "./outcome.ts";

/** Where the numbers of a computation come from: the readings themselves, or the readings with their errors. */
export interface InputValues<N> {
  /** A reading in its own unit, taken with the instrument of this role. */
  reading(reading: Reading, role: InstrumentRole): N;
  /** A net mass: two weighings, of which the difference alone stands there. */
  net(reading: Reading, role: InstrumentRole): N;
  /**
   * A value that no instrument of the study read, with what the settings say of its errors. `key` names it: values of one key have
   * the same errors ("char", "fuel:dry eucalyptus", "gross:dry eucalyptus", "hydrogen:dry eucalyptus").
   */
  setting(key: string, value: ValueWithUncertainty): N;
}

/** The readings as they stand. */
export const readingsAsRead: InputValues<number> = {
  reading: (reading) => reading.value,
  net: (reading) => reading.value,
  setting: (_key, value) => value.value,
};

export interface FuelInputs<N> {
  readonly fuel: string | null;
  /** g as fired. */
  readonly consumed: N;
  /** Wet basis, fraction. */
  readonly moisture: Outcome<N>;
  /** LHV, kJ/kg dry. */
  readonly netCalorific: Outcome<N>;
}

export interface PotInputs<N> {
  readonly pot: PotNumber;
  /** g, net. */
  readonly waterStart: N;
  readonly waterEnd: N;
  readonly waterLost: N;
  /** °C. */
  readonly temperatureStart: N;
  readonly temperatureEnd: N;
}

/** One phase's readings as the formulas take them: net masses, fractions, minutes. */
export interface PhaseInputs<N> {
  readonly fuels: readonly [FuelInputs<N>, ...FuelInputs<N>[]];
  /** dC, g: with char - container - char at start. */
  readonly charFormed: Outcome<N>;
  /** LHVc, kJ/kg. */
  readonly charNetCalorific: N;
  readonly pots: readonly [PotInputs<N>, ...PotInputs<N>[]];
  /** min. */
  readonly duration: N;
  /** From the start to the moment it boiled, min. */
  readonly untilBoiled: Outcome<N>;
  readonly airTemperature: Outcome<N>;
  readonly boilingPoint: Outcome<N>;
  readonly carbonMonoxide: Outcome<N>;
  readonly particulateMatter: Outcome<N>;
}

/** What was taken from another phase because the sheet was empty there (calculations of section 1, "Char"). */
export interface StandIn {
  readonly phase: "hot-start" | "simmer";
  readonly what: "char" | "charAtStart";
  readonly from: "cold-start" | "hot-start";
}

/** Char at the end of a phase: its own, or for a hot start that has none, the cold start's (from memory of the protocol). */
function charAtEnd(run: Run, phase: Phase): { char: CharReading | null; standIn: boolean } {
  if (phase.char !== null || phase.phase !== "hot-start") return { char: phase.char, standIn: false };
  const coldStart = run.phases.find((other) => other.phase === "cold-start");
  return { char: coldStart?.char ?? null, standIn: coldStart?.char != null };
}

/** The stand-ins that a phase makes use of. */
export function standInsOf(run: Run, phase: Phase): StandIn[] {
  if (phase.phase === "hot-start" && charAtEnd(run, phase).standIn) {
    return [{ phase: "hot-start", what: "char", from: "cold-start" }];
  }
  const needsCharAtStart = phase.phase === "simmer" && phase.char !== null && phase.charAtStart === null;
  if (needsCharAtStart && charInBedFromHotStart(run) !== null) {
    return [{ phase: "simmer", what: "charAtStart", from: "hot-start" }];
  }
  return [];
}

function charInBedFromHotStart(run: Run): CharReading | null {
  const hotStart = run.phases.find((phase) => phase.phase === "hot-start");
  return hotStart === undefined ? null : charAtEnd(run, hotStart).char;
}

function netChar<N>(arithmetic: Arithmetic<N>, char: CharReading, values: InputValues<N>): N {
  if (char.kind === "net") return values.net(char.mass, "fuelBalance");
  return arithmetic.subtract(
    values.reading(char.withContainer, "fuelBalance"),
    values.reading(char.container, "fuelBalance"),
  );
}

function charFormed<N>(arithmetic: Arithmetic<N>, run: Run, phase: Phase, values: InputValues<N>): Outcome<N> {
  const { char } = charAtEnd(run, phase);
  if (char === null) return missing({ code: "noChar" });
  const atEnd = netChar(arithmetic, char, values);
  const atStart = phase.charAtStart;
  if (atStart !== null) {
    // 0 says there was none, and is exact: no error is drawn for it.
    const mass = atStart.value === 0 ? arithmetic.constant(0) : values.net(atStart, "fuelBalance");
    return given(arithmetic.subtract(atEnd, mass));
  }
  if (phase.phase !== "simmer") return given(atEnd);
  const inBed = charInBedFromHotStart(run);
  return inBed === null
    ? missing({ code: "noChar" })
    : given(arithmetic.subtract(atEnd, netChar(arithmetic, inBed, values)));
}

function moistureOf<N>(arithmetic: Arithmetic<N>, entry: FuelEntry, values: InputValues<N>): Outcome<N> {
  if (entry.moisture === null) return missing({ code: "noMoisture", fuel: entry.fuel });
  const percent = values.reading(entry.moisture.percent, "moistureMeter");
  const fraction = arithmetic.divide(percent, arithmetic.constant(100));
  return given(entry.moisture.basis === "wet" ? fraction : moistureWetFromDry(arithmetic, fraction));
}

/**
 * A calorific value that stands in the row: it wins over the settings' value, whose errors it has all the same. A gross value takes
 * the errors of the settings' gross value, else those of the net one, and the other way about.
 */
function rowValue<N>(
  kind: CalorificReading["kind"],
  { value }: Reading,
  name: string,
  named: FuelSettings | undefined,
  values: InputValues<N>,
): N {
  const net = { key: `fuel:${name}`, components: named?.netCalorific?.components };
  const gross = { key: `gross:${name}`, components: named?.grossCalorific?.components };
  const [first, other] = kind === "net" ? [net, gross] : [gross, net];
  const { key, components } = first.components === undefined && other.components !== undefined ? other : first;
  return values.setting(key, { value, components: components ?? [] });
}

/** Net calorific value of an entry's dry fuel: the row's own, else the settings' of that fuel's name. */
function netCalorificOf<N>(
  arithmetic: Arithmetic<N>,
  entry: FuelEntry,
  settings: Settings,
  values: InputValues<N>,
): Outcome<N> {
  const { constant, divide } = arithmetic;
  const named = entry.fuel === null ? undefined : settings.fuels.get(entry.fuel);
  const name = entry.fuel ?? "";
  const net = (gross: N, hydrogenPercent: N) => netFromGross(arithmetic, gross, divide(hydrogenPercent, constant(100)));
  const hydrogenOfSettings = () =>
    named?.hydrogenPercent == null
      ? constant(constants.hydrogenOfWood.value)
      : values.setting(`hydrogen:${name}`, named.hydrogenPercent);
  if (entry.calorific !== null) {
    const { kind, value } = entry.calorific;
    const own = rowValue(kind, value, name, named, values);
    if (kind === "net") return given(own);
    const { hydrogenPercent } = entry.calorific;
    const hydrogen = hydrogenPercent === null ? hydrogenOfSettings() : values.reading(hydrogenPercent, "hydrogen");
    return given(net(own, hydrogen));
  }
  if (named?.netCalorific != null) return given(values.setting(`fuel:${name}`, named.netCalorific));
  if (named?.grossCalorific != null) {
    return given(net(values.setting(`gross:${name}`, named.grossCalorific), hydrogenOfSettings()));
  }
  return missing({ code: "noCalorific", fuel: entry.fuel });
}

/** True where the hydrogen of a gross value was neither in the row nor in the settings, so that wood's usual 6 % was taken. */
export function assumesHydrogen(entry: FuelEntry, settings: Settings): boolean {
  const named = entry.fuel === null ? undefined : settings.fuels.get(entry.fuel);
  if (entry.calorific?.kind === "net") return false;
  if (entry.calorific?.kind === "gross") return entry.calorific.hydrogenPercent === null && !named?.hydrogenPercent;
  return named?.netCalorific == null && named?.grossCalorific != null && named.hydrogenPercent === null;
}

/**
 * Local boiling point, °C: as measured, else from the pressure (IAPWS-IF97 saturation), else from the altitude
 * (ISO 2533 standard atmosphere, then saturation).
 */
function boilingPointOf<N>(arithmetic: Arithmetic<N>, phase: Phase, values: InputValues<N>): Outcome<N> {
  const { measured, pressure, altitude } = phase.boilingPoint;
  if (measured !== null) return given(values.reading(measured, "thermometer"));
  if (pressure !== null) {
    if (!waterAtPressure(pressure.value).ok) return missing({ code: "pressureOutOfRange" });
    return given(arithmetic.through(boilingPointAtPressure, values.reading(pressure, "barometer")));
  }
  if (altitude !== null) {
    if (!waterAtAltitude(altitude.value).ok) return missing({ code: "pressureOutOfRange" });
    return given(arithmetic.through(boilingPointAtAltitude, values.reading(altitude, "altitude")));
  }
  return missing({ code: "noBoilingPoint" });
}

function potInputs<N>(arithmetic: Arithmetic<N>, pot: Phase["pots"][number], values: InputValues<N>): PotInputs<N> {
  const { subtract } = arithmetic;
  const read = (reading: Reading) => values.reading(reading, "potBalance");
  const temperatures = {
    temperatureStart: values.reading(pot.temperatureStart, "thermometer"),
    temperatureEnd: values.reading(pot.temperatureEnd, "thermometer"),
  };
  const { masses } = pot;
  if (masses.kind === "net") {
    const waterStart = values.net(masses.waterStart, "potBalance");
    const waterEnd = values.net(masses.waterEnd, "potBalance");
    return { pot: pot.pot, waterStart, waterEnd, waterLost: subtract(waterStart, waterEnd), ...temperatures };
  }
  const [empty, start, end] = [read(masses.empty), read(masses.start), read(masses.end)];
  return {
    pot: pot.pot,
    waterStart: subtract(start, empty),
    waterEnd: subtract(end, empty),
    // start - end, not the difference of the net masses: the empty pot does not enter what was lost.
    waterLost: subtract(start, end),
    ...temperatures,
  };
}

function optional<N>(
  reading: Reading | null,
  role: InstrumentRole,
  values: InputValues<N>,
  otherwise: Outcome<never>,
): Outcome<N> {
  return reading === null ? otherwise : given(values.reading(reading, role));
}

/** One phase's readings, made ready for the formulas. Throws where a phase has no fuel entry or no pot: the import refuses those. */
export function phaseInputs<N>(
  arithmetic: Arithmetic<N>,
  run: Run,
  phase: Phase,
  settings: Settings,
  values: InputValues<N>,
): PhaseInputs<N> {
  const { timing } = phase;
  const [firstFuel, ...furtherFuels] = phase.fuels.map((entry) => ({
    fuel: entry.fuel,
    consumed: arithmetic.subtract(
      values.reading(entry.massBefore, "fuelBalance"),
      values.reading(entry.massAfter, "fuelBalance"),
    ),
    moisture: moistureOf(arithmetic, entry, values),
    netCalorific: netCalorificOf(arithmetic, entry, settings, values),
  }));
  const [firstPot, ...furtherPots] = phase.pots.map((pot) => potInputs(arithmetic, pot, values));
  if (firstFuel === undefined || firstPot === undefined) {
    throw new RangeError(`phase ${phase.id} has no ${firstFuel === undefined ? "fuel entry" : "pot"}`);
  }
  const clock = timing.kind === "clock" ? timing : null;
  return {
    fuels: [firstFuel, ...furtherFuels],
    charFormed: charFormed(arithmetic, run, phase, values),
    charNetCalorific:
      phase.charCalorific === null
        ? values.setting("char", settings.charNetCalorific)
        : values.setting("char", {
            value: phase.charCalorific.value,
            components: settings.charNetCalorific.components,
          }),
    pots: [firstPot, ...furtherPots],
    duration:
      timing.kind === "duration"
        ? values.reading(timing.minutes, "clock")
        : arithmetic.subtract(values.reading(timing.end, "clock"), values.reading(timing.start, "clock")),
    untilBoiled:
      phase.boiledAt === null || clock === null
        ? missing({ code: phase.boiledAt === null ? "noBoiledAt" : "noStartTime" })
        : given(arithmetic.subtract(values.reading(phase.boiledAt, "clock"), values.reading(clock.start, "clock"))),
    airTemperature: optional(phase.airTemperature, "thermometer", values, missing({ code: "noAirTemperature" })),
    boilingPoint: boilingPointOf(arithmetic, phase, values),
    carbonMonoxide: optional(
      phase.carbonMonoxide,
      "co",
      values,
      missing({ code: "notMeasured", what: "carbonMonoxide" }),
    ),
    particulateMatter: optional(
      phase.particulateMatter,
      "pm25",
      values,
      missing({ code: "notMeasured", what: "particulateMatter" }),
    ),
  };
}
