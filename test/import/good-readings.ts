/** Invented readings of one run without a fault, and what tests change in them. */
const headings = [
  ..."run,variant,phase,date,start,end,fuel,fuel_start_g,fuel_end_g,moisture_wet_percent,net_calorific_kJ_per_kg".split(
    ",",
  ),
  ..."char_container_g,char_with_container_g,air_C,boiling_C,pot1_empty_g,pot1_start_g,pot1_end_g,pot1_start_C,pot1_end_C".split(
    ",",
  ),
];

const rows = [
  "R01,clay insert,cold-start,2026-03-10,08:10,08:37,eucalyptus,912,378,11.9,18400,248,309,24.5,98.2,815,5818,5667,22.4,98.1",
  "R01,clay insert,hot-start,2026-03-10,08:45,09:10,eucalyptus,868,377,11.9,18400,,,25.1,98.2,815,5832,5674,22.7,98.2",
  "R01,clay insert,simmer,2026-03-10,09:12,09:57,eucalyptus,462,67,11.9,18400,248,322,25.6,98.2,815,5666,4953,97.9,96.4",
];

export interface Changes {
  /** New texts by row (2 to 4, as a spreadsheet counts) and column: "3.fuel_end_g". */
  readonly cells?: Readonly<Record<string, string>>;
  /** Headings in place of the layout's. */
  readonly rename?: Readonly<Record<string, string>>;
  /** Further columns, empty unless `cells` fills them. */
  readonly add?: readonly string[];
  readonly remove?: readonly string[];
  readonly delimiter?: "," | ";" | "\t";
}

/** Cells of the readings with changes, heading first. */
export function readingsCells({ cells = {}, rename = {}, add = [], remove = [] }: Changes = {}): string[][] {
  const columns = [...headings, ...add].filter((name) => !remove.includes(name));
  const table = rows.map((line, index) => {
    const values = line.split(",");
    return columns.map((name) => cells[`${index + 2}.${name}`] ?? values[headings.indexOf(name)] ?? "");
  });
  return [columns.map((name) => rename[name] ?? name), ...table];
}

/** The same as text; cells are put in quotation marks where they need them. */
export function readingsText(changes: Changes = {}): string {
  const { delimiter = "," } = changes;
  const quote = (cell: string) =>
    cell.includes(delimiter) || /["\n\r]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
  return readingsCells(changes)
    .map((row) => `${row.map(quote).join(delimiter)}\n`)
    .join("");
}
