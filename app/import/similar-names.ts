import type { FileColumns } from "./file-columns.ts";
import type { Place, ProblemList } from "./problem-list.ts";
import type { RowReader } from "./row-reader.ts";

/** A name without what the eye passes over: capitals, blanks, marks without width, and forms that Unicode holds for alike. */
function asTheEyeReads(name: string): string {
  return (
    name
      .normalize("NFKC")
      .toLowerCase()
      .replaceAll(/\p{Cf}/gu, "")
      // Between digits a blank or a hyphen means something: 1-1 is not 11.
      .replaceAll(/(?<!\d)[\s_-]+|[\s_-]+(?!\d)/g, "")
  );
}

/** A name that comes to nothing that way is compared as it is. */
const keyOf = (name: string) => asTheEyeReads(name) || name;

/** Names that look alike but are not the same would silently part what belongs together: one question for each. */
function askAboutNames(
  column: string,
  named: readonly { readonly row: number; readonly name: string; readonly place: Place }[],
  list: ProblemList,
): void {
  const first = new Map<string, { readonly row: number; readonly name: string }>();
  const asked = new Set<string>();
  for (const { row, name, place } of named) {
    const key = keyOf(name);
    const other = first.get(key);
    if (other === undefined) first.set(key, { row, name });
    else if (other.name !== name && !asked.has(name)) {
      asked.add(name);
      const message = list.words.run.similarNames({
        column,
        cell: name,
        row,
        otherCell: other.name,
        otherRow: other.row,
      });
      list.question("similar-names", place, message);
    }
  }
}

/** Asks about runs, variants, fuels and levels of factors whose names look alike. Rows that were left out do not count. */
export function askAboutSimilarNames(rows: readonly RowReader[], columns: FileColumns, list: ProblemList): void {
  const included = rows.filter(({ leftOut }) => !leftOut);
  for (const names of [["run"], ["variant"], ["fuel", "fuel2", "fuel3", "fuel4"]]) {
    const [column = ""] = names;
    const named = included.flatMap((row) =>
      names.flatMap((one) => {
        const name = row.text(one);
        return name === null ? [] : [{ row: row.row, name, place: row.place(one) }];
      }),
    );
    askAboutNames(columns.known.get(column)?.heading ?? column, named, list);
  }
  for (const { index, heading } of columns.factors) {
    const named = included.flatMap((row) => {
      const name = row.textAt(index);
      return name === null ? [] : [{ row: row.row, name, place: { ...row.place("run"), column: heading, cell: name } }];
    });
    askAboutNames(heading, named, list);
  }
}
