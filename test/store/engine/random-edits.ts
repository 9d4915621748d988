import type { Change, RunField, StoredPhase, StoredRun, StudyDatabase } from "../../../app/store/index.ts";
import { type PhaseName, phaseNames } from "../../../core/index.ts";
import { phaseOf, runOf } from "./sample.ts";

/** What a random edit is drawn from: its kind, and two numbers that choose a place and a value. */
export interface Draw {
  readonly kind: number;
  readonly place: number;
  readonly value: number;
}

const pick = <T>(from: readonly T[], number: number): T | undefined => from[number % Math.max(from.length, 1)];

const words = ["", "Oak", "<b>", "__proto__", "‮x", '"', "é", "\n", "Oak "];
const word = (number: number): string => `${pick(words, number)}${number % 7}`;
const columns = ["char_g", "start", "pot1_start_C", "fuel_start_g", "__proto__"];
const column = (number: number): string => pick(columns, number) ?? "start";
const numberFrom = (number: number): number => (number % 5 === 0 ? 0 : (number % 9973) / 7);

function phaseFrom(study: StudyDatabase, phase: PhaseName, number: number): StoredPhase {
  const count = number % 4;
  const act = study.nextItem("act", count + 1);
  const readings = columns
    .slice(0, count)
    .map((name, index) => [name, act + index, numberFrom(number + index)] as const);
  const texts = words
    .slice(number % 3, 1 + (number % 6))
    .map((text, index) => [`c${text}`, word(number + index)] as const);
  return { ...phaseOf(phase, readings, texts), sourceRow: number % 2 === 0 ? null : (number % 99) + 1 };
}

function runFrom(study: StudyDatabase, position: number, { place, value }: Draw): StoredRun {
  const names = phaseNames.filter((_, index) => ((value >> index) & 1) === 1);
  const variant = pick([...study.head().variants.keys()], place) ?? 1;
  return {
    ...runOf(
      word(value),
      position,
      names.map((name) => phaseFrom(study, name, value)),
    ),
    variant,
    levels: new Map(value % 3 === 0 ? [[word(place), value % 2 === 0 ? null : word(value)]] : []),
  };
}

function fieldChange(run: number, study: StudyDatabase, { place, value }: Draw): Change {
  const values: readonly (readonly [RunField, unknown])[] = [
    ["name", word(value)],
    ["variant", pick([...study.head().variants.keys()], value) ?? 1],
    ["method", value % 2 === 0 ? "wbt" : "iso"],
    ["date", value % 3 === 0 ? null : `2026-03-${10 + (value % 20)}`],
    ["order", value % 4 === 0 ? null : value % 50],
    ["block", value % 2 === 0 ? null : word(value)],
    ["operator", value % 2 === 0 ? null : word(value)],
    ["leftOut", value % 2 === 0 ? null : word(value)],
    ["levels", new Map(value % 2 === 0 ? [] : [[word(place), word(value)]])],
  ];
  const [field, after] = pick(values, place) ?? ["name", "x"];
  return { subject: "runField", item: run, field, after };
}

/** All readings of one act at once: it has one value. */
function actChanges(study: StudyDatabase, act: number, value: number): Change[] {
  return study
    .runLines()
    .flatMap(({ run }) =>
      study
        .run(run)
        .phases.flatMap(({ phase, readings }) =>
          [...readings]
            .filter(([, reading]) => reading.act === act)
            .map(([field]): Change => ({ subject: "reading", item: run, phase, field, after: { act, value } })),
        ),
    );
}

/** A reading of its own act, or one that shares the act of another. */
function readingChange(
  study: StudyDatabase,
  run: number,
  { phase, readings }: StoredPhase,
  { place, value }: Draw,
): Change[] {
  const field = column(place);
  if (value % 5 === 1) return [{ subject: "reading", item: run, phase, field, after: null }];
  const shared = pick([...readings.values()], value);
  if (value % 5 === 2 && shared !== undefined) return actChanges(study, shared.act, numberFrom(value));
  const after =
    value % 5 === 3 && shared !== undefined ? shared : { act: study.nextItem("act"), value: numberFrom(value) };
  return [{ subject: "reading", item: run, phase, field, after }];
}

function textChange(run: number, { phase, texts }: StoredPhase, { place, value }: Draw): Change {
  const field = (value % 2 === 0 ? pick([...texts.keys()], place) : undefined) ?? `c${word(place)}`;
  return { subject: "text", item: run, phase, field, after: value % 3 === 0 ? null : word(value) };
}

/** A run goes with what belongs to it. */
function runRemoval(study: StudyDatabase, run: number): Change[] {
  const remarks = [...study.head().remarks].filter(([, remark]) => remark.run === run);
  return [
    ...remarks.map(([item]): Change => ({ subject: "remark", item, after: null })),
    ...[...study.seriesOf(run).keys()].map((item): Change => ({ subject: "series", item, after: null })),
    { subject: "run", item: run, after: null },
  ];
}

function variantChanges(study: StudyDatabase, { place, value }: Draw): Change[] {
  const variants = [...study.head().variants];
  const [first, second] = [variants[0], variants.at(-1)];
  if (value % 3 === 0 && first !== undefined && second !== undefined) {
    const swapped = (item: number, name: string, position: number): Change => ({
      subject: "variant",
      item,
      after: { name, position, levels: new Map([[word(place), word(value)]]) },
    });
    return [
      swapped(first[0], first[1].name, second[1].position),
      ...(first === second ? [] : [swapped(second[0], second[1].name, first[1].position)]),
    ];
  }
  const position = Math.max(-1, ...variants.map(([, variant]) => variant.position)) + 1;
  return [
    { subject: "variant", item: study.nextItem("variant"), after: { name: word(value), position, levels: new Map() } },
  ];
}

function seriesChange(study: StudyDatabase, run: number, { place, value }: Draw): Change {
  const item = value % 2 === 0 ? pick([...study.seriesOf(run).keys()], place) : undefined;
  if (item !== undefined && value % 4 === 0) return { subject: "series", item, after: null };
  const samples = Float64Array.from({ length: value % 5 }, (_, index) => numberFrom(value + index) - 3);
  const after = { run, name: word(value), unit: "C", minutes: samples, values: samples.map((sample) => -sample) };
  return { subject: "series", item: item ?? study.nextItem("series"), after };
}

function smallChange(study: StudyDatabase, { kind, place, value }: Draw): Change {
  const head = study.head();
  const subject = pick(["fuel", "pot", "instrument"] as const, place) ?? "fuel";
  const tables = { fuel: head.fuels, pot: head.pots, instrument: head.instruments };
  const item = value % 2 === 0 ? pick([...tables[subject].keys()], value) : undefined;
  const runs = study.runLines().map(({ run }) => run);
  const changes: readonly Change[] = [
    {
      subject,
      item: item ?? study.nextItem(subject),
      after: item !== undefined && value % 3 === 0 ? null : { name: word(value), value: { [word(value)]: value } },
    },
    { subject: "setting", field: word(place), after: value % 3 === 0 ? null : [value] },
    { subject: "study", field: "name", after: word(value) },
    { subject: "study", field: "confidence", after: 0.5 + (value % 40) / 100 },
    { subject: "study", field: "method", after: value % 2 === 0 ? "wbt" : "iso" },
    { subject: "attachment", item: study.nextItem("attachment"), after: { file: word(value), sha256: "0".repeat(64) } },
    {
      subject: "remark",
      item: study.nextItem("remark"),
      after: { kind: "question", run: pick(runs, value) ?? null, value },
    },
  ];
  return pick(changes, kind + place) ?? { subject: "study", field: "name", after: "x" };
}

/** How many kinds of edit `changesOf` knows. */
export const kinds = 12;

/** An edit of the study as it is now. It may be one that changes nothing. */
export function changesOf(study: StudyDatabase, draw: Draw): Change[] {
  const { kind, place, value } = draw;
  const lines = study.runLines();
  const line = pick(lines, place);
  if (kind === 0) return variantChanges(study, draw);
  if (kind === 1) return [smallChange(study, draw)];
  if (line === undefined || kind === 2) {
    const position = (lines.at(-1)?.position ?? -1) + 1;
    return [{ subject: "run", item: study.nextItem("run"), after: runFrom(study, position, draw) }];
  }
  const { run } = line;
  if (kind === 3) return [fieldChange(run, study, draw)];
  if (kind === 4) return runRemoval(study, run);
  if (kind === 5) return [{ subject: "run", item: run, after: runFrom(study, line.position, draw) }];
  if (kind === 6) return [seriesChange(study, run, draw)];
  const phase = pick(study.run(run).phases, value);
  if (phase === undefined || kind === 7) {
    const name = pick(phaseNames, value) ?? "simmer";
    return [
      { subject: "phase", item: run, phase: name, after: value % 4 === 0 ? null : phaseFrom(study, name, value) },
    ];
  }
  if (kind === 8) {
    const after = pick(["time", "dateTime", "utcDateTime", "duration"] as const, value) ?? "time";
    return [{ subject: "timing", item: run, phase: phase.phase, after }];
  }
  if (kind === 9) return [textChange(run, phase, draw)];
  return readingChange(study, run, phase, draw);
}
