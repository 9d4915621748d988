import { readFileSync } from "node:fs";
import { type ComparisonTableRead, readComparisonTable } from "../../app/import/index.ts";
import type { ComparedTable, TableComparison } from "../../core/index.ts";
import { compareTable } from "../../core/index.ts";
import { cellOf, readInput } from "../reference/read-reference.ts";

/** A case of the reference compare-tables, read as the command line reads it, and compared. */
export function comparedCase(name: string): TableComparison {
  const input = readInput("compare-tables").get(name);
  const text = (column: string) => cellOf(input, column);
  const orNull = (column: string) => (text(column) === "" ? null : text(column));
  const bytes = readFileSync(new URL(`../reference/compare-tables/tables/${name}.csv`, import.meta.url));
  const factors = text("factors") === "" ? [] : text("factors").split(" ");
  const read = readComparisonTable(bytes, `${name}.csv`, {
    value: "value",
    by: "variant",
    block: orNull("block"),
    factors,
  });
  const margin = orNull("margin");
  return compareTable(
    tableOf(read),
    {
      baseline: orNull("baseline"),
      margin: margin === null ? null : Number(margin),
      confidence: Number(text("confidence")),
      resampling: null,
    },
    "en",
  );
}

/** The table that was read; a failure of the test where there were errors. */
export function tableOf({ table, problems }: ComparisonTableRead): ComparedTable {
  if (table === null) throw new Error(problems.map(({ message }) => message).join(" "));
  return table;
}

/** Values by variant as a table, in the order given, rows counted as a spreadsheet does. */
export function tableFrom(values: Readonly<Record<string, readonly number[]>>): ComparedTable {
  let row = 1;
  return {
    value: "value",
    by: "variant",
    hasBlocks: false,
    factors: [],
    rows: Object.entries(values).flatMap(([level, group]) =>
      group.map((value) => {
        row += 1;
        return { row, value, level, block: null, factors: [], order: null };
      }),
    ),
    leftOut: [],
    withoutValue: [],
    blocksIgnored: 0,
  };
}
