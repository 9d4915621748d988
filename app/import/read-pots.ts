import type { PotNumber, PotReadings } from "../../core/index.ts";
import { neededNumber, type PhaseSource, reportBoth, reportMissing } from "./phase-draft.ts";

function namesOf(pot: PotNumber) {
  return {
    pot,
    empty: `pot${pot}_empty_g`,
    start: `pot${pot}_start_g`,
    end: `pot${pot}_end_g`,
    waterStart: `pot${pot}_water_start_g`,
    waterEnd: `pot${pot}_water_end_g`,
    temperatureStart: `pot${pot}_start_C`,
    temperatureEnd: `pot${pot}_end_C`,
  };
}

type Names = ReturnType<typeof namesOf>;

/** Names of the columns of the four pots, in order. */
export const potColumnNames: readonly Names[] = ([1, 2, 3, 4] as const).map(namesOf);

/** Columns of one pot: if any is filled, the pot was there. */
const columnsOf = ({ pot: _, ...names }: Names) => Object.values(names);
const columnsByPot = potColumnNames.map(columnsOf);

function readMasses(source: PhaseSource, names: Names): PotReadings["masses"] {
  const { row, phase, readings } = source;
  const weighed = [names.empty, names.start, names.end].filter((name) => row.isFilled(name));
  const net = [names.waterStart, names.waterEnd].filter((name) => row.isFilled(name));
  const [firstWeighed] = weighed;
  const [firstNet] = net;
  if (firstWeighed !== undefined && firstNet !== undefined) reportBoth(source, firstWeighed, firstNet);
  const hasWeighedColumns = row.hasColumn(names.empty) || row.hasColumn(names.start);
  if (net.length > 0 || (weighed.length === 0 && !hasWeighedColumns)) {
    return {
      kind: "net",
      waterStart: readings.own(phase, names.waterStart, neededNumber(source, names.waterStart)),
      waterEnd: readings.own(phase, names.waterEnd, neededNumber(source, names.waterEnd)),
    };
  }
  if (weighed.length === 0 && row.hasColumn(names.waterStart)) {
    reportMissing(source, [names.start, names.waterStart]);
    const unknown = { id: "", value: Number.NaN };
    return { kind: "net", waterStart: unknown, waterEnd: unknown };
  }
  return {
    kind: "weighed",
    empty: readings.shared(names.empty, phase, names.empty, neededNumber(source, names.empty)),
    start: readings.own(phase, names.start, neededNumber(source, names.start)),
    end: readings.own(phase, names.end, neededNumber(source, names.end)),
  };
}

/** The pots of a phase: pot 1, and each further one of which any cell is filled. */
export function readPots(source: PhaseSource): PotReadings[] {
  const { row, phase, readings } = source;
  const pots: PotReadings[] = [];
  for (const [index, names] of potColumnNames.entries()) {
    if (index > 0 && !columnsByPot[index]?.some((name) => row.isFilled(name))) continue;
    pots.push({
      pot: names.pot,
      masses: readMasses(source, names),
      temperatureStart: readings.own(phase, names.temperatureStart, neededNumber(source, names.temperatureStart)),
      temperatureEnd: readings.own(phase, names.temperatureEnd, neededNumber(source, names.temperatureEnd)),
    });
  }
  return pots;
}
