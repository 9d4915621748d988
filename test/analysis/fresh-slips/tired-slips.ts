import type { BoilTests, Cells } from "./boil-tests.ts";
import type { Chance } from "./chance.ts";

/** Spoils the rows of one run in place; false where this run cannot have the slip, or where it would change next to nothing. */
type Spoil = (run: Cells[], chance: Chance, file: BoilTests) => boolean;

/** The kinds of slip, each with the ways in which a tired person makes it. */
export type Kind =
  | "pots swapped"
  | "tare missing"
  | "kg for g"
  | "F for C"
  | "dry for wet"
  | "digits"
  | "carried over"
  | "clock";

const text = (row: Cells, column: string): string => row[column] ?? "";
const value = (row: Cells, column: string): number => Number(row[column]);
const has = (row: Cells, column: string): boolean => text(row, column) !== "";
const later = (run: Cells[]): Cells[] => run.filter((row) => row.phase !== "simmer");
const columnsOf = (row: Cells, pattern: RegExp): string[] =>
  Object.keys(row).filter((name) => pattern.test(name) && has(row, name));

function exchange(a: Cells, b: Cells, column: string, other = column): boolean {
  const [mine, theirs] = [text(a, column), text(b, other)];
  if (mine === "" || theirs === "") return false;
  a[column] = theirs;
  b[other] = mine;
  return Math.abs(Number(mine) - Number(theirs)) > 0.04 * Math.max(Number(mine), Number(theirs));
}

function add(row: Cells, column: string, grams: number): boolean {
  if (!has(row, column)) return false;
  row[column] = String(Math.round((value(row, column) + grams) * 10) / 10);
  return true;
}

/** Two neighbouring digits of a number exchanged so that it changes by more than `least` of itself. */
function transpose(row: Cells, column: string, chance: Chance, least: number): boolean {
  const old = text(row, column);
  const ways: string[] = [];
  for (let i = 0; i + 1 < old.length; i += 1) {
    const [a, b] = [old.charAt(i), old.charAt(i + 1)];
    if (a === b || a === "." || b === "." || (i === 0 && b === "0")) continue;
    const changed = old.slice(0, i) + b + a + old.slice(i + 2);
    if (Math.abs(Number(changed) - Number(old)) >= least) ways.push(changed);
  }
  if (ways.length === 0) return false;
  row[column] = chance.pick(ways);
  return true;
}

const minutesOf = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
const clockOf = (minutes: number, like: string): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}${like.slice(5)}`;

const everywhere = (run: Cells[], change: (row: Cells) => boolean): boolean => run.map(change).some(Boolean);
const kilograms = (row: Cells, column: string): boolean => {
  if (!has(row, column)) return false;
  row[column] = String(value(row, column) / 1000);
  return true;
};
const fahrenheit = (row: Cells, column: string): boolean => {
  if (!has(row, column)) return false;
  row[column] = (value(row, column) * 1.8 + 32).toFixed(text(row, column).includes(".") ? 1 : 0);
  return true;
};
const container = (row: Cells): number => value(row, "char_container_g");
const potEmpty = (row: Cells): number => value(row, "pot1_empty_g");

export const slips: readonly (readonly [Kind, string, Spoil])[] = [
  [
    "pots swapped",
    "both pots, one phase, with water",
    (run, chance) => swapPots([chance.pick(run)], ["start_g", "end_g"]),
  ],
  ["pots swapped", "both pots, every phase, with water", (run) => swapPots(run, ["start_g", "end_g"])],
  ["pots swapped", "both pots, at the end only", (run, chance) => swapPots([chance.pick(run)], ["end_g"])],
  ["pots swapped", "both pots, temperatures", (run, chance) => swapPots([chance.pick(later(run))], ["end_C"])],
  ["pots swapped", "empty masses of the two, whole run", (run) => swapPots(run, ["empty_g"])],
  [
    "pots swapped",
    "start and end exchanged",
    (run, chance) => {
      const row = chance.pick(run);
      return exchange(row, row, "pot1_start_g", "pot1_end_g") || text(row, "pot1_start_g") !== text(row, "pot1_end_g");
    },
  ],
  [
    "tare missing",
    "pot, start, water alone",
    (run, chance) => withRow(chance.pick(run), (row) => add(row, "pot1_start_g", -potEmpty(row))),
  ],
  [
    "tare missing",
    "pot, end, water alone",
    (run, chance) => withRow(chance.pick(run), (row) => add(row, "pot1_end_g", -potEmpty(row))),
  ],
  ["tare missing", "pot, start and end of a phase", (run, chance) => withRow(chance.pick(run), tareBoth)],
  ["tare missing", "pot, start and end of the run", (run) => everywhere(run, tareBoth)],
  [
    "tare missing",
    "pot, once more on top",
    (run) => everywhere(run, (row) => add(row, "pot1_start_g", potEmpty(row)) && add(row, "pot1_end_g", potEmpty(row))),
  ],
  [
    "tare missing",
    "char without its container",
    (run, chance) => withRow(chance.pick(run), (row) => add(row, "char_with_container_g", -container(row))),
  ],
  [
    "tare missing",
    "char with its container in the net column",
    (run, chance, { style }) =>
      style.char === "net" && withRow(chance.pick(run), (row) => add(row, "char_g", chance.between(180, 600))),
  ],
  [
    "tare missing",
    "basket with the wood before",
    (run, chance) =>
      withRow(chance.pick(run), (row) => add(row, "fuel_start_g", Math.round(chance.between(350, 900) / 10) * 10)),
  ],
  [
    "tare missing",
    "basket with the wood left",
    (run, chance) =>
      withRow(chance.pick(run), (row) => add(row, "fuel_end_g", Math.round(chance.between(350, 900) / 10) * 10)),
  ],
  [
    "kg for g",
    "one cell of the wood",
    (run, chance) => kilograms(chance.pick(run), chance.pick(["fuel_start_g", "fuel_end_g"])),
  ],
  [
    "kg for g",
    "the wood of a run",
    (run) => everywhere(run, (row) => kilograms(row, "fuel_start_g") && kilograms(row, "fuel_end_g")),
  ],
  [
    "kg for g",
    "one pot cell",
    (run, chance) => kilograms(chance.pick(run), chance.pick(["pot1_start_g", "pot1_end_g", "pot1_empty_g"])),
  ],
  [
    "kg for g",
    "a pot for the run",
    (run) => everywhere(run, (row) => columnsOf(row, /^pot1_.*_g$/).every((column) => kilograms(row, column))),
  ],
  [
    "kg for g",
    "char",
    (run, chance) =>
      withRow(chance.pick(run), (row) =>
        columnsOf(row, /^char.*_g$/)
          .filter((c) => c !== "char_at_start_g")
          .map((c) => value(row, c) > 0 && kilograms(row, c))
          .some(Boolean),
      ),
  ],
  ["F for C", "water at the start, one phase", (run, chance) => fahrenheit(chance.pick(later(run)), "pot1_start_C")],
  ["F for C", "water at the start, the run", (run) => everywhere(run, (row) => fahrenheit(row, "pot1_start_C"))],
  ["F for C", "water at the end", (run, chance) => fahrenheit(chance.pick(run), "pot1_end_C")],
  ["F for C", "air, the run", (run) => everywhere(run, (row) => fahrenheit(row, "air_C"))],
  [
    "F for C",
    "all of a run",
    (run) => everywhere(run, (row) => columnsOf(row, /_C$/).every((column) => fahrenheit(row, column))),
  ],
  ["dry for wet", "the run", (run, _, { style }) => style.moisturePercent > 9 && everywhere(run, dryBasis)],
  ["dry for wet", "one phase", (run, chance, { style }) => style.moisturePercent > 9 && dryBasis(chance.pick(run))],
  ["digits", "wood before", (run, chance) => transpose(chance.pick(run), "fuel_start_g", chance, 80)],
  ["digits", "wood left", (run, chance) => transpose(chance.pick(run), "fuel_end_g", chance, 80)],
  ["digits", "pot with water at the start", (run, chance) => transpose(chance.pick(run), "pot1_start_g", chance, 80)],
  ["digits", "pot with water at the end", (run, chance) => transpose(chance.pick(run), "pot1_end_g", chance, 80)],
  ["digits", "pot empty, one phase", (run, chance) => transpose(chance.pick(run), "pot1_empty_g", chance, 20)],
  [
    "digits",
    "pot empty, the run",
    (run, chance) => {
      const first = run[0] ?? {};
      return (
        transpose(first, "pot1_empty_g", chance, 20) &&
        everywhere(run, (row) => put(row, "pot1_empty_g", text(first, "pot1_empty_g")))
      );
    },
  ],
  ["digits", "water at the start, °C", (run, chance) => transpose(chance.pick(later(run)), "pot1_start_C", chance, 4)],
  ["digits", "water at the end, °C", (run, chance) => transpose(chance.pick(run), "pot1_end_C", chance, 4)],
  [
    "digits",
    "moisture",
    (run, chance) => {
      const first = run[0] ?? {};
      return (
        transpose(first, "moisture_wet_percent", chance, 2) &&
        everywhere(run, (row) => put(row, "moisture_wet_percent", text(first, "moisture_wet_percent")))
      );
    },
  ],
  ["digits", "container with char", (run, chance) => transpose(chance.pick(run), "char_with_container_g", chance, 20)],
  [
    "digits",
    "char, net",
    (run, chance, { style }) => style.char === "net" && transpose(chance.pick(run), "char_g", chance, 9),
  ],
  [
    "digits",
    "a clock time",
    (run, chance) => {
      const row = chance.pick(run);
      const column = chance.pick(["start", "end"]);
      const clock = text(row, column);
      if (clock === "" || clock[3] === clock[4] || Number(clock[4]) > 5) return false;
      row[column] = `${clock.slice(0, 3)}${clock[4]}${clock[3]}${clock.slice(5)}`;
      return Math.abs(minutesOf(text(row, column)) - minutesOf(clock)) >= 9;
    },
  ],
  ["digits", "duration", (run, chance) => transpose(chance.pick(run), "duration_min", chance, 6)],
  [
    "carried over",
    "cold start's wood left stands as the hot start's before",
    (run, chance) =>
      withPair(
        run,
        chance,
        (before, after) => {
          after.fuel_start_g = text(before, "fuel_end_g");
        },
        "fuel_start_g",
      ),
  ],
  [
    "carried over",
    "the wood before again",
    (run, chance) =>
      withPair(
        run,
        chance,
        (before, after) => {
          after.fuel_start_g = text(before, "fuel_start_g");
        },
        "fuel_start_g",
      ),
  ],
  [
    "carried over",
    "both masses of the wood again",
    (run, chance) =>
      withPair(
        run,
        chance,
        (before, after) => {
          for (const column of ["fuel_start_g", "fuel_end_g"]) after[column] = text(before, column);
        },
        "fuel_end_g",
      ),
  ],
  [
    "carried over",
    "the wood left again",
    (run, chance) =>
      withPair(
        run,
        chance,
        (before, after) => {
          after.fuel_end_g = text(before, "fuel_end_g");
        },
        "fuel_end_g",
      ),
  ],
  [
    "carried over",
    "the row above copied: pot, wood and char",
    (run, chance) =>
      withPair(
        run,
        chance,
        (before, after) => {
          for (const column of columnsOf(before, /^(pot|fuel|char).*_[gC]$/))
            if (column !== "char_at_start_g") after[column] = text(before, column);
        },
        "pot1_start_g",
      ),
  ],
  [
    "clock",
    "start and end exchanged",
    (run, chance) => withRow(chance.pick(run), (row) => has(row, "start") && exchangeTimes(row)),
  ],
  [
    "clock",
    "end an hour or more before the start",
    (run, chance) => withRow(chance.pick(run), (row) => moveEnd(row, -60 * chance.whole(1, 2))),
  ],
  ["clock", "end an hour late", (run, chance) => withRow(chance.pick(run), (row) => moveEnd(row, 60))],
  [
    "clock",
    "twelve-hour clock in one phase",
    (run, chance) =>
      withRow(chance.pick(run), (row) => {
        const times = ["start", "end"].filter((column) => has(row, column) && minutesOf(text(row, column)) >= 13 * 60);
        for (const column of times) row[column] = clockOf(minutesOf(text(row, column)) - 720, text(row, column));
        return times.length > 0;
      }),
  ],
  [
    "clock",
    "another year",
    (run) => everywhere(run, (row) => put(row, "date", text(row, "date").replace("2024", "2023"))),
  ],
];

function withRow(row: Cells, change: (row: Cells) => boolean): boolean {
  return change(row);
}

function withPair(
  run: Cells[],
  chance: Chance,
  change: (before: Cells, after: Cells) => void,
  watched: string,
): boolean {
  const at = chance.isTrue(0.8) || run.length < 3 ? 1 : 2;
  const [before, after] = [run[at - 1], run[at]];
  if (before === undefined || after === undefined) return false;
  const old = value(after, watched);
  change(before, after);
  return Math.abs(value(after, watched) - old) > (watched === "pot1_start_g" ? 0 : 60);
}

function swapPots(rows: Cells[], readings: string[]): boolean {
  if (rows.some((row) => !has(row, "pot2_start_g"))) return false;
  return rows.every((row) =>
    readings.map((reading) => exchange(row, row, `pot1_${reading}`, `pot2_${reading}`)).some(Boolean),
  );
}

function put(row: Cells, column: string, cell: string): boolean {
  const isOther = text(row, column) !== cell;
  row[column] = cell;
  return isOther;
}

function exchangeTimes(row: Cells): boolean {
  exchange(row, row, "start", "end");
  return text(row, "start") !== text(row, "end");
}

function tareBoth(row: Cells): boolean {
  return add(row, "pot1_start_g", -potEmpty(row)) && add(row, "pot1_end_g", -potEmpty(row));
}

function dryBasis(row: Cells): boolean {
  const wet = value(row, "moisture_wet_percent");
  row.moisture_wet_percent = ((wet / (100 - wet)) * 100).toFixed(1);
  return true;
}

function moveEnd(row: Cells, minutes: number): boolean {
  if (!has(row, "end")) return false;
  const moved = minutesOf(text(row, "end")) + minutes;
  if (moved < 0 || moved >= 1440) return false;
  row.end = clockOf(moved, text(row, "end"));
  return true;
}

/** The file with one slip in one run, and that run's name; null where the slip does not fit this file. */
export function spoil(
  file: BoilTests,
  slip: Spoil,
  chance: Chance,
): { rows: Cells[]; run: string; changed: string } | null {
  const names = [...new Set(file.rows.map((row) => text(row, "run")))];
  for (let attempt = 0; attempt < 6; attempt += 1) {
    const rows = file.rows.map((row) => ({ ...row }));
    const run = chance.pick(names);
    if (
      !slip(
        rows.filter((row) => row.run === run),
        chance,
        file,
      )
    )
      continue;
    const changed = rows.flatMap((row, index) =>
      Object.keys(row).flatMap((column) => {
        const old = file.rows[index]?.[column];
        return row[column] === old ? [] : [`${row.phase} ${column} ${old} -> ${row[column]}`];
      }),
    );
    if (changed.length > 0) return { rows, run, changed: changed.join("; ") };
  }
  return null;
}
