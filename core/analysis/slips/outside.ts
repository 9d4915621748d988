import { isBoilingPhase, type PhaseName, type PotNumber } from "../../readings/phase.ts";
import type { Locale } from "../../words/index.ts";
import { isUsualVolume } from "../run-facts.ts";
import type { PhaseNumbers } from "../run-numbers.ts";
import { type NumberedRun, phaseOf, type Suspicion, touch } from "./numbered-run.ts";
import { type Meant, outsideSentence } from "./outside-sentence.ts";
import { type Judged, outsideLimits, type Reference } from "./reference.ts";
import { readingOf, withReading } from "./replace-reading.ts";
import { resemblance, slipKinds } from "./resemblance.ts";
import { phaseBefore, type Watched, type WatchedName } from "./watched.ts";

/** Share of the limit within which a value that may have been meant counts as usual. */
const usualShare = { few: 0.3, many: 0.6 };

/** Readings that hang together: what is compared of them, and the columns a slip may be in. */
interface Cluster {
  readonly phase: PhaseNumbers;
  readonly items: readonly { readonly watched: Watched; readonly phase: PhaseName }[];
  /** The last is blamed where nothing tells. */
  readonly columns: readonly string[];
}

/** Where a run's value of something lies among the other runs'. */
export function judge(
  { watched, phase }: { readonly watched: Watched; readonly phase: PhaseName },
  run: NumberedRun,
  reference: Reference,
  standing: NumberedRun = run,
): Judged | null {
  const value = (of: NumberedRun) => {
    const one = phaseOf(of, phase);
    return one === undefined ? Number.NaN : watched.of(one, of);
  };
  const deviation = reference.deviation(watched, phase, run, value(run), value(standing));
  return deviation === null ? null : { ...deviation, watched, phase };
}

function clustersOf(run: NumberedRun, phase: PhaseNumbers, reference: Reference): Cluster[] {
  const item = (name: WatchedName, pot: PotNumber = 1, where: PhaseName | undefined = phase.phase) => {
    const watched = reference.find(name, pot);
    return watched === undefined || where === undefined ? [] : [{ watched, phase: where }];
  };
  const following = run.phases.find((other) => phaseBefore(other, run) === phase)?.phase;
  const woods = phase.woods.flatMap((_, index) => {
    const fuel = index === 0 ? "fuel" : `fuel${index + 1}`;
    return [`${fuel}_start_g`, `${fuel}_end_g`];
  });
  const [wood] = phase.woods;
  const charColumn = Number.isNaN(phase.withContainer) ? ["char_g"] : ["char_with_container_g"];
  const found: Cluster[] = [
    {
      phase,
      items: [
        ...item("woodBefore"),
        ...item("woodAfter"),
        ...item("woodBurned"),
        ...item("woodToBefore"),
        ...item("woodToBefore", 1, following),
      ],
      columns: woods,
    },
    { phase, items: item("char"), columns: charColumn },
    {
      phase,
      items: [
        ...item("duration"),
        ...item("durationToBefore"),
        ...item("durationToBefore", 1, following),
        ...item("pause"),
        ...item("pause", 1, following),
      ],
      columns: Number.isNaN(phase.start) ? ["duration_min"] : ["start", "end"],
    },
    { phase, items: [...item("air"), ...item("airInRun")], columns: ["air_C"] },
    { phase, items: item("boiling"), columns: ["boiling_C"] },
    {
      phase,
      items: [...item("moisture"), ...item("moistureInRun")],
      columns: [wood?.isDryBasis ? "moisture_dry_percent" : "moisture_wet_percent"],
    },
  ];
  for (const { pot, isNet } of phase.pots) {
    const water = isNet ? "water_" : "";
    const goesOn = phase.phase === "simmer" ? phase.phase : following === "simmer" ? following : undefined;
    found.push(
      {
        phase,
        items: [
          ...item("waterAtStart", pot),
          ...item("waterLost", pot),
          ...(goesOn === undefined ? [] : item("potGoesOn", pot, goesOn)),
        ],
        columns: [`pot${pot}_${water}start_g`, `pot${pot}_${water}end_g`],
      },
      {
        phase,
        items: [
          ...item("temperatureAtStart", pot),
          ...item("startInRun", pot),
          ...item("startInRun", pot, following === "simmer" ? undefined : following),
        ],
        columns: [`pot${pot}_start_C`],
      },
      { phase, items: [...item("endUnderBoiling", pot), ...item("endOfLevel", pot)], columns: [`pot${pot}_end_C`] },
    );
  }
  return found;
}

/** Everything that is compared of a run. */
export function judgeAll(run: NumberedRun, reference: Reference): Judged[] {
  return run.phases.flatMap((phase) =>
    reference.watched.flatMap((watched) => {
      const value = watched.of(phase, run);
      const deviation = reference.deviation(watched, phase.phase, run, value);
      return deviation === null ? [] : [{ ...deviation, watched, phase: phase.phase }];
    }),
  );
}

/** Readings, and what is reckoned from them, that lie outside what the other runs have, phase by phase. */
export function outsideSuspicions(run: NumberedRun, reference: Reference, locale: Locale): Suspicion[] {
  return run.phases.flatMap((phase) => {
    const readings = clustersOf(run, phase, reference).flatMap(
      (cluster) => askOf(cluster, run, reference, locale) ?? [],
    );
    return [...readings, ...resultSuspicions(run, phase, reference, locale)];
  });
}

function askOf(cluster: Cluster, run: NumberedRun, reference: Reference, locale: Locale): Suspicion | null {
  const { phase, items, columns } = cluster;
  const judged = items.flatMap((item) => judge(item, run, reference) ?? []);
  // How much wood is brought to a phase is free: it tells which weighing is odd, not whether one is.
  const telling = judged.filter(({ watched }) => watched.name !== "woodBefore" && watched.name !== "woodAfter");
  // What is odd in itself says more than that it is odd beside the phase before; and there it is asked, not at the phase before.
  const ofItself = telling.filter(({ watched }) => !isToBefore(watched.name));
  const besideBefore = telling.filter(({ watched, phase: where }) => isToBefore(watched.name) && where === phase.phase);
  const worst = mostOutside(ofItself) ?? mostOutside(besideBefore);
  if (worst === null) return null;
  const meant = meantBy(cluster, run, reference);
  const own = judged.find(({ watched, excess }) => excess > 1 && isOwnReading(watched.name));
  const column = meant?.column ?? (own === undefined ? undefined : ownColumn(own, columns)) ?? columns.at(-1) ?? "";
  const isStart = worst.watched.name === "waterAtStart" && isBoilingPhase(phase.phase) && !isUsualVolume(worst.value);
  const isUnit = meant?.kind === "fahrenheit" || meant?.kind === "kelvin" || meant?.kind === "kilograms";
  const rule =
    isStart && meant?.kind !== "withoutPot"
      ? "waterAtStart"
      : meant === null
        ? "outsideRuns"
        : isUnit
          ? "otherUnit"
          : meant.kind === "withoutPot"
            ? "missingTare"
            : "valueSlipped";
  const touches = [
    ...touch(phase.phase, ...columns),
    ...(worst.watched.name === "waterAtStart" ? touch(phase.phase, `pot${worst.watched.pot}_empty_g`) : []),
    ...chainTouches(worst, run),
  ];
  const sentence = outsideSentence({ worst, run, phase, meant, column, locale });
  return { rule, phase: phase.phase, column, ...sentence, touches };
}

function mostOutside(judged: readonly Judged[]): Judged | null {
  return judged.reduce<Judged | null>((most, one) => (one.excess > (most?.excess ?? 1) ? one : most), null);
}

function isToBefore(name: WatchedName): boolean {
  return name === "woodToBefore" || name === "durationToBefore" || name === "startInRun";
}

/** A question about what lies between two phases touches both sides. */
function chainTouches({ watched, phase: name }: Judged, run: NumberedRun): string[] {
  const phase = phaseOf(run, name);
  const previous = phase === undefined ? undefined : phaseBefore(phase, run)?.phase;
  if (previous === undefined) return [];
  if (watched.name === "potGoesOn") {
    return [...touch(previous, `pot${watched.pot}_end_g`), ...touch(name, `pot${watched.pot}_start_g`)];
  }
  const both = (...columns: string[]) => [previous, name].flatMap((one) => touch(one, ...columns));
  if (watched.name === "woodToBefore") return both("fuel_start_g", "fuel_end_g");
  if (watched.name === "durationToBefore") return both("start", "end", "duration_min");
  if (watched.name === "startInRun") return both(`pot${watched.pot}_start_C`);
  if (watched.name === "pause") return [...touch(previous, "end"), ...touch(name, "start")];
  return [];
}

function isOwnReading(name: WatchedName): boolean {
  return name === "woodBefore" || name === "woodAfter" || name === "waterAtStart";
}

function ownColumn({ watched }: Judged, columns: readonly string[]): string | undefined {
  return watched.name === "woodAfter" ? columns[1] : columns[0];
}

/** What may have been meant in one of the cluster's columns, so that everything would be as usual. */
function meantBy(cluster: Cluster, run: NumberedRun, reference: Reference): Meant | null {
  const { phase, items, columns } = cluster;
  let best: (Meant & { readonly rank: number }) | null = null;
  for (const column of columns) {
    const value = readingOf(phase, column);
    if (!Number.isFinite(value)) continue;
    const distance = (meant: number): number | null => {
      const tried = withReading(run, phase.phase, column, meant);
      const all = items.flatMap((item) => judge(item, tried, reference, run) ?? []);
      const isUsual = all.every(({ excess, others }) => {
        return excess < (others < outsideLimits.fewestOthers ? usualShare.few : usualShare.many);
      });
      return all.length > 0 && isUsual ? Math.max(...all.map(({ excess }) => excess)) : null;
    };
    const found = otherUnitOf(cluster, column, value, distance) ?? resemblanceOf(column, value, distance);
    if (found !== null && (best === null || found.rank < best.rank)) best = found;
  }
  return best ?? bothWithoutPot(cluster, run, reference);
}

/** Both weighings of a pot noted without its own mass. */
function bothWithoutPot({ phase, items, columns }: Cluster, run: NumberedRun, reference: Reference): Meant | null {
  const [start = "", end = ""] = columns;
  const pot = phase.pots.find((one) => start === `pot${one.pot}_start_g`);
  if (pot === undefined) return null;
  const put = (of: NumberedRun, column: string, value: number) => withReading(of, phase.phase, column, value);
  const tried = put(put(run, start, pot.start + pot.empty), end, pot.end + pot.empty);
  const all = items.flatMap((item) => judge(item, tried, reference, run) ?? []);
  const isUsual = all.length > 0 && all.every(({ excess }) => excess < usualShare.many);
  return isUsual ? { kind: "withoutPot", column: start, value: pot.start + pot.empty } : null;
}

type Ranked = Meant & { readonly rank: number };

function otherUnitOf(
  { phase }: Cluster,
  column: string,
  value: number,
  distance: (meant: number) => number | null,
): Ranked | null {
  const fits = (kind: Meant["kind"], meant: number): Ranked | null =>
    distance(meant) === null ? null : { kind, column, value: Math.round(meant * 10) / 10, rank: -1 };
  if (column.endsWith("_C")) return fits("fahrenheit", (value - 32) / 1.8) ?? fits("kelvin", value - 273.15);
  const [, pot, moment] = /^pot(\d)_(start|end)_g$/.exec(column) ?? [];
  const empty = phase.pots.find((one) => String(one.pot) === pot)?.empty;
  if (moment === undefined || empty === undefined) return null;
  return fits("withoutPot", value + empty) ?? fits("potTwice", value - empty);
}

function resemblanceOf(column: string, value: number, distance: (meant: number) => number | null): Ranked | null {
  if (column === "start" || column === "end") return null;
  const found = resemblance(value, distance);
  return found === null ? null : { ...found, column, rank: slipKinds.indexOf(found.kind) };
}

function resultSuspicions(run: NumberedRun, phase: PhaseNumbers, reference: Reference, locale: Locale): Suspicion[] {
  return reference.watched.flatMap((watched) => {
    if (watched.name !== "efficiency" && watched.name !== "firepower") return [];
    const worst = judge({ watched, phase: phase.phase }, run, reference);
    if (worst === null || worst.excess <= 1) return [];
    const sentence = outsideSentence({ worst, run, phase, meant: null, column: null, locale });
    return [{ rule: "resultOutside", phase: phase.phase, column: null, ...sentence, touches: touch(phase.phase, "*") }];
  });
}
