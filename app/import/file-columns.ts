import { formatFixed } from "../../core/index.ts";
import { layoutColumns } from "./layout.ts";
import { longestCell } from "./limits.ts";
import { columnByWords, matchHeading, plainHeading } from "./match-headings.ts";
import { nearestName } from "./nearest-name.ts";
import type { ProblemList } from "./problem-list.ts";
import type { ReadTable } from "./read-table.ts";
import type { Unit } from "./units.ts";

/** Where a column of the layout stands in a file. */
export interface FileColumn {
  readonly index: number;
  /** As the file writes it. */
  readonly heading: string;
  readonly unit: Unit | null;
}

/** What the headings of a file mean. */
export interface FileColumns {
  /** By the layout's name. */
  readonly known: ReadonlyMap<string, FileColumn>;
  readonly factors: readonly { readonly index: number; readonly heading: string; readonly factor: string }[];
  readonly others: readonly { readonly index: number; readonly heading: string }[];
  /** Layout names of columns whose absence, or whose unit, is an error of the whole file already. */
  readonly refused: ReadonlySet<string>;
  readonly notes: readonly string[];
}

/** Columns without which no run can be computed; of several sets one is enough, the first is the one that is named. */
const needed: readonly (readonly (readonly string[])[])[] = [
  [["run"]],
  [["variant"]],
  [["phase"]],
  [["start", "end"], ["duration_min"]],
  [["fuel_start_g"]],
  [["fuel_end_g"]],
  [["moisture_wet_percent"], ["moisture_dry_percent"]],
  [
    ["pot1_empty_g", "pot1_start_g", "pot1_end_g"],
    ["pot1_water_start_g", "pot1_water_end_g"],
  ],
  [["pot1_start_C"]],
  [["pot1_end_C"]],
];

/** Whose absence is an error by itself. */
const neededNames: ReadonlySet<string> = new Set(needed.flat(2));

/** Letters by which a spreadsheet names a column; index from 0. */
function spreadsheetLetters(index: number): string {
  const rest = index % 26;
  const letter = String.fromCharCode(65 + rest);
  return index < 26 ? letter : spreadsheetLetters(Math.floor(index / 26) - 1) + letter;
}

/** Says which needed columns are missing, and returns them. */
function reportMissing(
  isThere: (name: string) => boolean,
  others: readonly string[],
  row: number,
  list: ProblemList,
): string[] {
  const missing: string[] = [];
  for (const sets of needed) {
    const lacking = sets.map((set) => set.filter((name) => !isThere(name)));
    if (lacking.some((names) => names.length === 0)) continue;
    // The set that is nearest to being there tells best what is missing.
    const nearest = lacking.reduce((best, names, index) => {
      const share = names.length - (sets[index]?.length ?? 0);
      const bestShare = (lacking[best]?.length ?? 0) - (sets[best]?.length ?? 0);
      return share < bestShare ? index : best;
    }, 0);
    const alternative = sets.find((_, index) => index !== nearest);
    missing.push(...lacking.flat());
    for (const column of lacking[nearest] ?? []) {
      list.error(
        "column-missing",
        { row, column },
        list.words.file.columnMissing({
          column,
          alternative: alternative === undefined ? null : alternative.join(" + "),
          near: nearestName(
            column,
            others.filter((heading) => nearestName(heading, [column]) !== null),
          ),
        }),
      );
    }
  }
  return missing;
}

/**
 * Columns that are not known but have cells. A fifth pot or fuel is an error, since results without it would be wrong; a
 * heading near that of a column which the file lacks is asked about.
 */
function askAboutOthers(
  others: readonly { readonly index: number; readonly heading: string }[],
  filled: ReadonlySet<number>,
  isThere: (name: string) => boolean,
  row: number,
  list: ProblemList,
): void {
  const { file } = list.words;
  const lacking = layoutColumns.map(({ name }) => name).filter((name) => !isThere(name) && !neededNames.has(name));
  for (const { index, heading } of others) {
    if (!filled.has(index)) continue;
    const place = { row, column: heading, cell: heading };
    const beyond = /^(pot|fuel)(\d+)/.exec(plainHeading(heading));
    if (beyond !== null) {
      const what = beyond[1] === "pot" ? "pot" : "fuel";
      if (Number(beyond[2]) > 4) list.error("entry-beyond", place, file.entryBeyond({ heading, what }));
      // The digit of another pot is no slip of the pen.
      continue;
    }
    const near = nearestName(heading, lacking) ?? columnByWords(heading, lacking);
    if (near !== null) list.question("near-column", place, file.nearColumn({ heading, near }));
  }
}

/** What the headings mean, and whether all that is needed is there. Errors here are of the whole file. */
export function fileColumns(table: ReadTable, list: ProblemList): FileColumns {
  const { words } = list;
  const row = table.headingRow;
  const known = new Map<string, FileColumn>();
  const factors: { index: number; heading: string; factor: string }[] = [];
  const others: { index: number; heading: string }[] = [];
  const seen = new Map<string, string>();
  const notes: string[] = [];
  /** Columns whose heading is there, but whose unit is not understood: they are not also missing. */
  const spoilt = new Set<string>();
  const filled = new Set<number>();
  for (const { cells } of table.rows) {
    for (let index = 0; index < Math.min(cells.length, table.headings.length); index += 1) {
      if (cells[index] !== "") filled.add(index);
    }
  }

  /** False, and said, where the same column came before. */
  const isNew = (key: string, heading: string): boolean => {
    const first = seen.get(key);
    if (first === undefined) {
      seen.set(key, heading);
      return true;
    }
    list.error(
      "column-twice",
      { row, column: heading, cell: heading },
      words.file.columnTwice({ first, column: heading }),
    );
    return false;
  };

  table.headings.forEach((written, index) => {
    const heading = written.trim();
    const place = { row, column: heading, cell: written };
    if (heading.length > longestCell) {
      list.error(
        "heading-too-long",
        { row },
        words.file.headingTooLong({ limit: formatFixed(longestCell, 0, list.locale) }),
      );
      return;
    }
    const match = matchHeading(written);
    if (match.kind === "column") {
      if (!isNew(`column ${match.column.name}`, heading)) return;
      known.set(match.column.name, { index, heading, unit: match.unit });
      if (match.converted) notes.push(words.notes.unitConverted({ heading, column: match.column.name }));
    } else if (match.kind === "factor") {
      if (isNew(`factor ${plainHeading(match.factor)}`, heading))
        factors.push({ index, heading, factor: match.factor });
    } else if (match.kind === "other") {
      if (isNew(`other ${plainHeading(match.heading)}`, heading)) others.push({ index, heading: match.heading });
    } else if (match.kind === "empty") {
      if (!filled.has(index)) return;
      const column = spreadsheetLetters(index);
      list.error("heading-missing", { row, column }, words.file.headingMissing({ column }));
    } else {
      for (const { name } of match.meant) spoilt.add(name);
      if (match.kind === "unit-unknown") list.error("unit-unknown", place, words.file.unitUnknown(match));
      else if (match.kind === "unit-twice") list.error("unit-twice", place, words.file.unitTwice(match));
      else {
        const column = match.meant.map(({ name }) => name).join(", ");
        list.error("unit-missing", place, words.file.unitMissing({ heading, column }));
      }
    }
  });
  askAboutOthers(others, filled, (name) => known.has(name) || spoilt.has(name), row, list);
  const missing = reportMissing(
    (name) => known.has(name) || spoilt.has(name),
    others.map(({ heading }) => heading),
    row,
    list,
  );
  if (others.length > 0) notes.push(words.notes.otherColumns({ headings: others.map(({ heading }) => heading) }));
  return { known, factors, others, refused: new Set([...spoilt, ...missing]), notes };
}
