import { type LayoutColumn, layoutColumns } from "./layout.ts";
import { findUnit, isLayoutUnit, isUnitWord, knownUnits, type Unit } from "./units.ts";

/** What a heading means. */
export type HeadingMatch =
  | { readonly kind: "column"; readonly column: LayoutColumn; readonly unit: Unit | null; readonly converted: boolean }
  | { readonly kind: "factor"; readonly factor: string }
  | { readonly kind: "other"; readonly heading: string }
  | { readonly kind: "empty" }
  | {
      readonly kind: "unit-unknown";
      readonly heading: string;
      readonly unit: string;
      readonly known: readonly string[];
      readonly meant: readonly LayoutColumn[];
    }
  | { readonly kind: "unit-missing" | "unit-twice"; readonly heading: string; readonly meant: readonly LayoutColumn[] };

/** A text cell as it is meant: without blanks around it, and without the one apostrophe that writing puts in front. */
export function textOfCell(cell: string): string {
  const text = cell.trim();
  return text.startsWith("'") ? text.slice(1) : text;
}

/** Capitals, blanks and underscores make no difference. */
export function plainHeading(heading: string): string {
  return heading.toLowerCase().replaceAll(/[\s_]/g, "");
}

const columnsByPlainName: ReadonlyMap<string, LayoutColumn> = new Map(
  layoutColumns.map((column) => [plainHeading(column.name), column]),
);
const columnsByPlainStem: ReadonlyMap<string, readonly LayoutColumn[]> = Map.groupBy(
  layoutColumns.filter(({ dimension }) => dimension !== null),
  ({ stem }) => plainHeading(stem),
);
/** Longest first: `char_container` before `char`. */
const plainStems = [...columnsByPlainStem.keys()].sort((left, right) => right.length - left.length);

const timeForms = /^h{1,2}:mm(:ss)?$/;

function withUnit(columns: readonly LayoutColumn[], unitText: string): HeadingMatch | null {
  for (const column of columns) {
    const unit = column.dimension === null ? undefined : findUnit(column.dimension, unitText);
    if (unit !== undefined && column.dimension !== null) {
      return { kind: "column", column, unit, converted: !isLayoutUnit(column.dimension, unit) };
    }
  }
  return null;
}

const unitsOf = (columns: readonly LayoutColumn[]) =>
  columns.flatMap(({ dimension }) => (dimension === null ? [] : knownUnits(dimension)));

/** `pot1 start (kg)`, `pot1_start_g (g)`. Null where what stands before the bracket is no column. */
function matchBracketed(heading: string, stem: string, unitText: string): HeadingMatch | null {
  const unit = plainHeading(unitText);
  const named = columnsByPlainName.get(stem);
  const stemmed = columnsByPlainStem.get(stem);
  if (stemmed !== undefined) {
    return (
      withUnit(stemmed, unit) ?? {
        kind: "unit-unknown",
        heading,
        unit: unitText.trim(),
        known: unitsOf(stemmed),
        meant: stemmed,
      }
    );
  }
  if (named === undefined) return null;
  if (named.dimension === null) {
    return named.content === "time" && timeForms.test(unit)
      ? { kind: "column", column: named, unit: null, converted: false }
      : null;
  }
  const match = withUnit([named], unit);
  if (match === null)
    return { kind: "unit-unknown", heading, unit: unitText.trim(), known: unitsOf([named]), meant: [named] };
  return match.kind === "column" && match.converted ? { kind: "unit-twice", heading, meant: [named] } : match;
}

/** Whether a blank or an underscore stands where the stem of a heading ends. */
function isPartedAfter(heading: string, plainStem: string): boolean {
  let passed = 0;
  for (let index = 0; index < heading.length; index += 1) {
    const isSeparator = /[\s_]/.test(heading.charAt(index));
    if (passed === plainStem.length) return isSeparator;
    if (!isSeparator) passed += 1;
  }
  return false;
}

/**
 * The measured column that a heading with further words in it seems to mean: `air temp (C)` begins like `air_C` and ends with
 * a unit of temperature. Null where none does.
 */
export function columnByWords(heading: string, names: readonly string[]): string | null {
  const unit = plainHeading(/[([]([^()[\]]+)[)\]]\s*$/.exec(heading)?.[1] ?? heading.split(/[\s_]+/).at(-1) ?? "");
  const plain = plainHeading(heading);
  for (const stem of plainStems) {
    if (!plain.startsWith(stem) || !isPartedAfter(heading, stem)) continue;
    const meant = (columnsByPlainStem.get(stem) ?? []).find(
      ({ name, dimension }) => names.includes(name) && dimension !== null && findUnit(dimension, unit) !== undefined,
    );
    if (meant !== undefined) return meant.name;
  }
  return null;
}

/** What a heading of the file means. */
export function matchHeading(cell: string): HeadingMatch {
  const heading = textOfCell(cell).trim();
  if (heading === "") return { kind: "empty" };
  const factor = /^factor\s*:\s*(\S.*)$/is.exec(heading)?.[1];
  if (factor !== undefined) return { kind: "factor", factor };
  // Longer than any column with its unit.
  if (heading.length > 200) return { kind: "other", heading };

  const bracketed = /^([^()[\]]*)[([]([^()[\]]*)[)\]]$/.exec(heading);
  if (bracketed !== null) {
    const [, stem = "", unit = ""] = bracketed;
    return matchBracketed(heading, plainHeading(stem), unit) ?? { kind: "other", heading };
  }
  const plain = plainHeading(heading);
  const column = columnsByPlainName.get(plain);
  if (column !== undefined) {
    const unit = column.dimension === null ? null : withUnit([column], plain.slice(plainHeading(column.stem).length));
    return unit ?? { kind: "column", column, unit: null, converted: false };
  }
  for (const stem of plainStems) {
    if (!plain.startsWith(stem)) continue;
    const columns = columnsByPlainStem.get(stem) ?? [];
    const unit = plain.slice(stem.length);
    if (unit === "") return { kind: "unit-missing", heading, meant: columns };
    // `co_kg` names a unit, `cost` does not.
    if (!isPartedAfter(heading, stem)) continue;
    const match = withUnit(columns, unit);
    if (match !== null) return match;
    if (isUnitWord(unit)) return { kind: "unit-unknown", heading, unit, known: unitsOf(columns), meant: columns };
  }
  return { kind: "other", heading };
}
