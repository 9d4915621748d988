import type { Draw, GoodStudy, Row } from "./good-study.ts";

/** A kind of slip, and how it gets into a study's rows. */
export interface SlipKind {
  readonly name: string;
  /** Changes rows in place; the run that it is in, or null where the study has no place for it. */
  make(rows: Row[], draw: Draw, study: GoodStudy): string | null;
}

export const number = (row: Row, column: string) => Number(row[column]);
const clock = (minutes: number) => {
  const inDay = ((minutes % 1440) + 1440) % 1440;
  return `${String(Math.floor(inDay / 60)).padStart(2, "0")}:${String(inDay % 60).padStart(2, "0")}`;
};

/** A row at random: of one of these phases, with these columns. */
export function rowOf(
  rows: readonly Row[],
  draw: Draw,
  columns: readonly string[],
  phases = ["cold-start", "hot-start", "simmer"],
) {
  const having = rows.filter(
    (row) => phases.includes(row.phase ?? "") && columns.every((column) => (row[column] ?? "") !== ""),
  );
  return having.length === 0 ? null : draw.pick(having);
}

/**
 * How much a slip has to change what it is in for anybody to see it: a third of the wood burnt, half of the water lost in the
 * phase (and 60 g), 4 % of the water, half of the char, 6 K at the start, 3 K at the end, 40 % of the time. Less is within, or
 * near to, what runs of the same stove differ by.
 */
export function isNoticeable(row: Row, column: string, to: number): boolean {
  const change = Math.abs(to - number(row, column));
  const pot = column.slice(0, 4);
  if (column.startsWith("fuel_")) return change > 0.34 * (number(row, "fuel_start_g") - number(row, "fuel_end_g"));
  if (/^pot\d_start_g/.test(column)) {
    const water = number(row, column) - number(row, `${pot}_empty_g`);
    return row.phase === "simmer"
      ? change > 0.6 * (water - (number(row, `${pot}_end_g`) - number(row, `${pot}_empty_g`)))
      : change > 0.04 * water;
  }
  if (/^pot\d_end_g/.test(column)) {
    return change > Math.max(60, 0.6 * (number(row, `${pot}_start_g`) - number(row, column)));
  }
  if (/^pot\d_empty_g/.test(column)) return change > 12;
  if (column === "char_with_container_g") return change > 0.6 * (number(row, column) - number(row, "char_container_g"));
  if (column === "char_container_g") return change > 12;
  if (column === "char_g") return change > 0.6 * number(row, column);
  if (column.endsWith("start_C")) return change > 8;
  if (column.endsWith("end_C")) return change > 4;
  if (column.startsWith("moisture")) return change > 4;
  return change > 0;
}

export const masses = ["fuel_start_g", "fuel_end_g", "pot1_start_g", "pot1_end_g", "pot1_empty_g"];
export const charMasses = ["char_with_container_g", "char_container_g", "char_g"];
export const temperatures = ["pot1_start_C", "pot1_end_C"];

/** Tries places and ways until one makes a slip that can be noticed. */
export function slipped(
  rows: readonly Row[],
  draw: Draw,
  columns: readonly string[],
  change: (text: string, column: string) => string | null,
  phases?: string[],
): string | null {
  for (let attempt = 0; attempt < 60; attempt += 1) {
    const column = draw.pick(columns);
    const row = rowOf(rows, draw, [column], phases);
    const text = row?.[column];
    const to = text === undefined ? null : change(text, column);
    if (row === null || to === null || to === text || !isNoticeable(row, column, Number(to))) continue;
    row[column] = to;
    return row.run ?? null;
  }
  return null;
}

export function exchangedDigits(draw: Draw) {
  return (text: string): string | null => {
    const at = draw.whole(0, text.length - 2);
    const [one, other] = [text[at] ?? "", text[at + 1] ?? ""];
    if (!/\d/.test(one) || !/\d/.test(other) || one === other) return null;
    return text.slice(0, at) + other + one + text.slice(at + 2);
  };
}

const keyboard = "1234567890";
export function neighbourDigit(draw: Draw) {
  return (text: string): string | null => {
    const at = draw.whole(0, text.length - 1);
    const key = keyboard.indexOf(text[at] ?? "x");
    const other = key === -1 ? "" : (keyboard[key + draw.pick([-1, 1])] ?? "");
    return other === "" ? null : text.slice(0, at) + other + text.slice(at + 1);
  };
}

export function digitMore(draw: Draw) {
  return (text: string) => {
    const at = draw.whole(0, text.split(".")[0]?.length ?? 0);
    return text.slice(0, at) + String(draw.whole(at === 0 ? 1 : 0, 9)) + text.slice(at);
  };
}

export function digitLess(draw: Draw) {
  return (text: string) => {
    const at = draw.whole(0, (text.split(".")[0]?.length ?? 1) - 1);
    return text.slice(0, at) + text.slice(at + 1);
  };
}

const ofRun = (rows: readonly Row[], run: string | undefined) => rows.filter((row) => row.run === run);

/** The cells of rows changed with a function; the run's name. */
export function each(rows: readonly Row[], change: (row: Row) => void): string | null {
  for (const row of rows) change(row);
  return rows[0]?.run ?? null;
}

export function runAtRandom(rows: readonly Row[], draw: Draw, columns: readonly string[] = []): Row[] {
  const row = rowOf(rows, draw, columns);
  return row === null ? [] : ofRun(rows, row.run);
}

export function exchange(row: Row, one: string, other: string): void {
  const [here, there] = [row[one], row[other]];
  if (here !== undefined && there !== undefined) Object.assign(row, { [one]: there, [other]: here });
}

export function shiftTime(text: string, minutes: number): string {
  const [, date, hours, rest] = /^(\d{4}-\d\d-\d\dT)?(\d\d):(\d\d)$/.exec(text) ?? [];
  if (date === undefined) return clock(Number(hours) * 60 + Number(rest) + minutes);
  const at = new Date(`${text}:00Z`).getTime() + minutes * 60_000;
  return new Date(at).toISOString().slice(0, 16);
}

export function shiftDate(rows: readonly Row[], draw: Draw, change: (date: string) => string): string | null {
  const run = runAtRandom(rows, draw, ["date"]);
  if (new Set(rows.map(({ date }) => date)).size < 3) return null;
  return each(run, (row) => {
    const date = change(row.date ?? "");
    row.date = date;
    for (const column of ["start", "end"]) {
      if (row[column]?.includes("T")) row[column] = date + row[column].slice(10);
    }
  });
}
