import { readFileSync } from "node:fs";

/** One case of a reference: its fields as generate.R wrote them. */
export type ReferenceCase = Readonly<Record<string, number | string | null>>;

function readText(folder: string, file: string): string {
  return readFileSync(new URL(`./${folder}/${file}`, import.meta.url), "utf8");
}

/** The cases of test/reference/<folder>/expected.json. */
export function readExpected(folder: string): ReferenceCase[] {
  const { cases } = JSON.parse(readText(folder, "expected.json")) as { cases: ReferenceCase[] };
  if (cases.length === 0) throw new Error(`${folder}: no cases`);
  return cases;
}

/** A field that must be a number. */
export function numberOf(reference: ReferenceCase, field: string): number {
  const value = reference[field];
  if (typeof value !== "number") throw new Error(`${field} is ${value}: not a number`);
  return value;
}

/** The rows of test/reference/<folder>/input.csv (no quoting), by the case's name in the first column. */
export function readInput(folder: string): Map<string, ReadonlyMap<string, string>> {
  const [header = "", ...lines] = readText(folder, "input.csv").trim().split("\n");
  const columns = header.split(",");
  return new Map(
    lines.map((line) => {
      const cells = line.split(",");
      const row = new Map(columns.map((column, index) => [column, cells[index] ?? ""] as const));
      return [cells[0] ?? "", row] as const;
    }),
  );
}

/** A cell of an input row. */
export function cellOf(row: ReadonlyMap<string, string> | undefined, column: string): string {
  const cell = row?.get(column);
  if (cell === undefined) throw new Error(`no input in column ${column}`);
  return cell;
}

/** "1.5 2 3" as numbers; the same rule as in json.R. */
export function numbersOf(text: string): number[] {
  return text.trim() === "" ? [] : text.trim().split(/ +/).map(Number);
}
