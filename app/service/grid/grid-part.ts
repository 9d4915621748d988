import {
  type AnalysedRun,
  type Locale,
  type MissingQuantity,
  type PhaseName,
  type QuantityName,
  wordsFor,
} from "../../../core/index.ts";
import type { GridColumnView, GridRowView } from "../../contract/index.ts";
import { phaseCells } from "../../import/index.ts";
import type { StudyContent } from "../study/study-content.ts";
import type { AskedOfRuns } from "./asked.ts";
import { type ExpandedOfRun, expandedOf } from "./expanded.ts";
import type { GridOrder } from "./grid-order.ts";
import type { GridRows } from "./grid-rows.ts";
import type { Turn } from "./turn.ts";

/** So many runs are kept as they were shown: a few windows, and what lies before and after. */
const runsKept = 600;

/** A run that is shown, with the texts of its phases' rows, and how uncertain its results are. */
interface ShownRun {
  readonly analysed: AnalysedRun;
  readonly texts: ReadonlyMap<PhaseName, ReadonlyMap<string, string>>;
  readonly expanded: ExpandedOfRun;
}

/** Runs that were shown last. */
export class ShownRuns {
  readonly #runs = new Map<number, ShownRun>();

  /** A run by its place among the lines; null where it cannot be read. */
  of(rows: GridRows, place: number, content: StudyContent): ShownRun | null {
    const line = rows.line(place);
    const analysed = content.analysed(line);
    const known = this.#runs.get(line.run);
    this.#runs.delete(line.run);
    if (analysed === null) return null;
    // Results under other settings are others: what was kept with them is not taken.
    const shown =
      known?.analysed === analysed
        ? known
        : { analysed, texts: textsOf(analysed), expanded: expandedOf(analysed.results, content.settings) };
    this.#runs.set(line.run, shown);
    for (const oldest of this.#runs.keys()) {
      if (this.#runs.size <= runsKept) break;
      this.#runs.delete(oldest);
    }
    return shown;
  }
}

function textsOf({ results: { run } }: AnalysedRun): ShownRun["texts"] {
  return new Map(
    run.phases.map((phase) => [
      phase.phase,
      new Map(phaseCells(run, phase).map(({ column, text }): [string, string] => [column, text])),
    ]),
  );
}

/** What a part of the grid is made from. */
export interface PartPlace {
  readonly content: StudyContent;
  readonly columns: readonly GridColumnView[];
  readonly shown: ShownRuns;
  readonly asked: AskedOfRuns;
  readonly variantIndex: ReadonlyMap<number, number>;
  readonly locale: Locale;
}

/** Rows of an order; null where the study changed while they were read, or a run turned out not to be readable. */
export async function gridPart(
  place: PartPlace,
  order: GridOrder,
  from: number,
  count: number,
  turn: Turn,
): Promise<readonly GridRowView[] | null> {
  const { rows } = order;
  const part: GridRowView[] = [];
  for (let at = from; at < Math.min(from + count, order.order.length); at += 1) {
    const row = order.at(at);
    const shown = row === null ? null : place.shown.of(rows, row.run, place.content);
    if (row === null || shown === null) return null;
    part.push(rowView(place, rows, row, shown));
    if (!turn.isOver) continue;
    await turn.pause();
    if (!rows.isOf(place.content)) return null;
  }
  return part;
}

function rowView(
  { columns, asked, variantIndex, locale }: PartPlace,
  rows: GridRows,
  { run: at, phase, isFirst }: { readonly run: number; readonly phase: PhaseName; readonly isFirst: boolean },
  { analysed, texts, expanded }: ShownRun,
): GridRowView {
  const line = rows.line(at);
  const { results } = analysed;
  const ofPhase = results.phases.find((one) => one.phase === phase);
  const cells = texts.get(phase);
  const values: ReadonlyMap<QuantityName, number> | undefined = ofPhase?.values;
  const ofRun: ReadonlyMap<QuantityName, number> = results.values;
  const cell = ({ kind, column, quantity }: GridColumnView): string | number | null => {
    if (column !== null) return cells?.get(column) ?? null;
    if (quantity === null) return null;
    return (kind === "result" ? values?.get(quantity) : isFirst ? ofRun.get(quantity) : undefined) ?? null;
  };
  const half = ({ kind, quantity }: GridColumnView): number | null => {
    if (quantity === null || (kind === "runResult" && !isFirst)) return null;
    return expanded.get(kind === "result" ? phase : null)?.get(quantity) ?? null;
  };
  const keys = new Set(columns.map(({ key }) => key));
  const words = wordsFor(locale).missing;
  const missing = (kind: "result" | "runResult", some: readonly MissingQuantity[]) =>
    some.flatMap(({ quantity, reason, reasonPhase }) => {
      const key = `${kind}.${quantity}`;
      return keys.has(key) ? [{ key, because: words.because(reason, reasonPhase) }] : [];
    });
  return {
    runId: String(line.run),
    run: line.name,
    phase,
    isFirst,
    variant: results.run.variant,
    variantIndex: variantIndex.get(line.variant) ?? 0,
    leftOut: line.leftOut,
    cells: columns.map(cell),
    expanded: expanded.size === 0 ? [] : columns.filter(({ quantity }) => quantity !== null).map(half),
    missing: [...missing("result", ofPhase?.missing ?? []), ...(isFirst ? missing("runResult", results.missing) : [])],
    questions: asked.of(line).filter((one) => (one.phase === null ? isFirst : one.phase === phase)),
  };
}
