import type { CharReading, Phase, PhaseConditions, Reading } from "../../core/index.ts";
import type { FileColumns } from "./file-columns.ts";
import { keepWritten, neededNumber, type PhaseSource, reportBoth } from "./phase-draft.ts";
import { readFuels } from "./read-fuels.ts";
import { readPots } from "./read-pots.ts";
import { type RowTimes, readTiming } from "./read-timing.ts";
import type { RunMinutes } from "./run-clock.ts";

function readChar(source: PhaseSource): CharReading | null {
  const { row, phase, readings, list } = source;
  const [container, withContainer, net] = ["char_container_g", "char_with_container_g", "char_g"] as const;
  if (row.isFilled(withContainer)) {
    if (row.isFilled(net)) reportBoth(source, withContainer, net);
    const whole = neededNumber(source, withContainer);
    const empty = row.number(container);
    if (empty !== null) {
      return {
        kind: "weighed",
        container: readings.shared(container, phase, container, empty),
        withContainer: readings.own(phase, withContainer, whole),
      };
    }
    // Not a needed reading: the char is not known, and what was weighed stays with the phase.
    keepWritten(source, withContainer);
    const place = row.place(withContainer);
    if (!row.leftOut) list.question("char-without-container", place, list.words.cell.charWithoutContainer());
    return null;
  }
  // A container that was weighed once may stand in rows whose char was not.
  row.number(container);
  keepWritten(source, container);
  const mass = row.number(net);
  return mass === null ? null : { kind: "net", mass: readings.own(phase, net, mass) };
}

function readConditions({ row, kept }: PhaseSource, columns: FileColumns): PhaseConditions {
  const others = columns.others.flatMap(({ index, heading }) => {
    const text = row.textAt(index);
    return text === null ? [] : [{ heading, text }];
  });
  return {
    lid: row.text("lid"),
    wind: row.text("wind"),
    humidityPercent: row.text("humidity_percent"),
    fuelSizeMillimetres: row.text("fuel_size_mm"),
    deviation: row.text("deviation"),
    note: row.text("note"),
    others: [...kept, ...others],
  };
}

export interface PhaseRead {
  readonly phase: Phase;
  readonly durationBeside: boolean;
}

/**
 * One row as a phase. Where something cannot be read it is said, and its value is NaN: such a phase serves for finding what
 * else is wrong with the row, and never leaves the import.
 */
export function readPhase(
  source: PhaseSource,
  columns: FileColumns,
  runId: string,
  times: RowTimes,
  minutes: RunMinutes,
  day: number | null,
): PhaseRead {
  const { row, phase, readings } = source;
  const optional = (name: string, make: (value: number) => Reading): Reading | null => {
    const value = row.number(name);
    return value === null ? null : make(value);
  };
  const own = (name: string) => optional(name, (value) => readings.own(phase, name, value));
  const shared = (name: string) => optional(name, (value) => readings.shared(name, phase, name, value));

  const { timing, boiledAt, durationBeside } = readTiming(source, times, minutes, day);
  const fuels = readFuels(source);
  const char = readChar(source);
  const read: Phase = {
    id: `${runId}/${phase}`,
    phase,
    timing,
    boiledAt,
    fuels,
    char,
    charAtStart: own("char_at_start_g"),
    charCalorific: shared("char_net_calorific_kJ_per_kg"),
    airTemperature: shared("air_C"),
    boilingPoint: { measured: shared("boiling_C"), pressure: shared("pressure_kPa"), altitude: shared("altitude_m") },
    pots: readPots(source),
    carbonMonoxide: own("co_g"),
    particulateMatter: own("pm25_mg"),
    conditions: readConditions(source, columns),
    sourceRow: row.row,
  };
  return { phase: read, durationBeside };
}
