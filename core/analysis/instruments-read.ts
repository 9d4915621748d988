import type { Phase } from "../readings/phase.ts";
import type { InstrumentRole } from "../readings/reading.ts";
import type { Run } from "../readings/study.ts";

/** What each instrument is read for in a phase. */
const isReadIn: Readonly<Record<InstrumentRole, (phase: Phase) => boolean>> = {
  fuelBalance: ({ fuels, char }) => fuels.length > 0 || char !== null,
  potBalance: ({ pots }) => pots.length > 0,
  thermometer: ({ pots, airTemperature, boilingPoint }) =>
    pots.length > 0 || airTemperature !== null || boilingPoint.measured !== null,
  moistureMeter: ({ fuels }) => fuels.some(({ moisture }) => moisture !== null),
  clock: () => true,
  barometer: ({ boilingPoint }) => boilingPoint.pressure !== null,
  altitude: ({ boilingPoint }) => boilingPoint.altitude !== null,
  hydrogen: ({ fuels }) =>
    fuels.some(({ calorific }) => calorific?.kind === "gross" && calorific.hydrogenPercent !== null),
  co: ({ carbonMonoxide }) => carbonMonoxide !== null,
  pm25: ({ particulateMatter }) => particulateMatter !== null,
};

const roles = Object.keys(isReadIn) as InstrumentRole[];

/** Runs read the same instruments again and again: one list for all of them. */
const lists = new Map<string, readonly InstrumentRole[]>();

/** The instruments that were read in a run, by what they are used for. */
export function instrumentsRead({ phases }: Run): readonly InstrumentRole[] {
  const read = roles.filter((role) => phases.some(isReadIn[role]));
  const key = read.join();
  const known = lists.get(key) ?? read;
  lists.set(key, known);
  return known;
}
