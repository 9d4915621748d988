import type { GridChoice, GridColumnView, QuestionView, RunsView } from "../../app/contract/index.ts";
import { formatValue, quantityEntry, wordsFor } from "../../core/index.ts";

/** The grid over again, from what `runs.show` says of the whole study: simple, and slow. */

export interface PlainRow {
  readonly runId: string;
  readonly run: string;
  readonly phase: string;
  readonly variant: string;
  readonly leftOut: string | null;
  readonly questions: readonly QuestionView[];
  readonly cell: (key: string) => string | number | null;
}

export function plainRows(view: RunsView): PlainRow[] {
  return view.runs.flatMap((run) =>
    run.phases.map((phase): PlainRow => {
      const cell = (key: string) => {
        const [kind, name] = [key.slice(0, key.indexOf(".")), key.slice(key.indexOf(".") + 1)];
        if (kind === "result") return phase.values.find(({ quantity }) => quantity === name)?.value ?? null;
        if (kind === "runResult") return run.values.find(({ quantity }) => quantity === name)?.value ?? null;
        return phase.readings[view.readingColumns.indexOf(name)] || null;
      };
      const { id: runId, run: runName, variant, leftOut, questions } = run;
      return { runId, run: runName, phase: phase.phase, variant, leftOut, questions, cell };
    }),
  );
}

const isOfRun = (key: string) => key.startsWith("runResult.");

function compared(one: string | number | null, other: string | number | null, column: GridColumnView, way: number) {
  if (one === null || other === null) return one === other ? 0 : one === null ? 1 : -1;
  if (column.isNumber) return way * (Number(one) - Number(other));
  return way * new Intl.Collator("en", { numeric: true }).compare(String(one), String(other));
}

const plain = (text: string) => text.normalize("NFKC").toLowerCase();
const numeral = (text: string) => text.replace(/\s/g, "").replace(/,/g, ".").replace(/−/g, "-");

function shows(row: PlainRow, column: GridColumnView, needle: string): boolean {
  const value = row.cell(column.key);
  if (value === null) return false;
  if (column.quantity === null) {
    const text = String(value);
    return plain(text).includes(needle) || (column.isNumber && text.includes(numeral(needle)));
  }
  if (/[^\d.-]/.test(numeral(needle))) return false;
  return numeral(formatValue(Number(value), quantityEntry(column.quantity, "en"), "en")).includes(numeral(needle));
}

export function plainOrder(
  rows: readonly PlainRow[],
  columns: readonly GridColumnView[],
  { sort, find, variant, phase, only }: GridChoice,
): PlainRow[] {
  const needle = plain(find.trim());
  const words = wordsFor("en").quantities.phase as Record<string, string>;
  const found = rows.filter((row) => {
    if (variant !== null && row.variant !== variant) return false;
    if (phase !== null && row.phase !== phase) return false;
    if (only === "counting" && row.leftOut !== null) return false;
    if (only === "leftOut" && row.leftOut === null) return false;
    if (needle === "") return true;
    return plain(words[row.phase] ?? "").includes(needle) || columns.some((column) => shows(row, column, needle));
  });
  const column = columns.find(({ key }) => key === sort?.column);
  const way = sort?.falling === true ? -1 : 1;
  const sorted =
    column === undefined
      ? found
      : found.toSorted((one, other) => compared(one.cell(column.key), other.cell(column.key), column, way));
  if (only !== "questions") return sorted;
  return sorted.filter((row, at) => questionsAt(row, isFirst(sorted, at)).length > 0);
}

export const isFirst = (rows: readonly PlainRow[], at: number): boolean =>
  rows.findIndex(({ runId }) => runId === rows[at]?.runId) === at;

export const questionsAt = ({ questions, phase }: PlainRow, first: boolean): readonly QuestionView[] =>
  questions.filter((one) => (one.phase === null ? first : one.phase === phase));

/** What stands in a cell of a row: results of the whole run on its first row alone. */
export const plainCell = (row: PlainRow, key: string, first: boolean): string | number | null =>
  isOfRun(key) && !first ? null : row.cell(key);
