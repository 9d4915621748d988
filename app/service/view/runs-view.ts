import {
  type MissingQuantity,
  type PhaseName,
  phaseQuantityNames,
  type QuantityName,
  type RunResults,
  runQuantityNames,
  type StudyResults,
  wordsFor,
} from "../../../core/index.ts";
import type { MissingView, PhaseView, RunsView, RunView } from "../../contract/index.ts";
import { layoutColumns, phaseCells } from "../../import/index.ts";
import { questionView } from "../questions/index.ts";

function missingView(missing: readonly MissingQuantity[], { locale }: StudyResults): MissingView[] {
  const words = wordsFor(locale).missing;
  return missing.map(({ quantity, reason, reasonPhase }) => ({
    quantity,
    because: words.because(reason, reasonPhase),
  }));
}

function values<Q extends QuantityName>(given: ReadonlyMap<Q, number>) {
  return [...given].map(([quantity, value]) => ({ quantity, value }));
}

/** Readings and results of every run. Readings are written as the readings file writes them. */
export function runsView(results: StudyResults): RunsView {
  const cellsOf = new Map(
    results.runs.flatMap(({ run }) =>
      run.phases.map((phase) => [phase.id, new Map(phaseCells(run, phase).map(({ column, text }) => [column, text]))]),
    ),
  );
  const occurring = new Set([...cellsOf.values()].flatMap((cells) => [...cells.keys()]));
  const known = layoutColumns.map(({ name }) => name).filter((name) => occurring.has(name));
  const readingColumns = [...known, ...[...occurring].filter((name) => !known.includes(name))];
  const index = new Map(results.variants.map((variant) => [variant.variant, variant.index]));
  const ofRun = (one: RunResults): RunView => {
    const { run } = one;
    const questions = (results.runQuestions.get(run.id) ?? []).map(questionView);
    const phaseView = (phase: PhaseName, id: string): PhaseView => {
      const found = one.phases.find((other) => other.phase === phase);
      const cells = cellsOf.get(id);
      return {
        phase,
        readings: readingColumns.map((column) => cells?.get(column) ?? ""),
        values: values(found?.values ?? new Map()),
        missing: missingView(found?.missing ?? [], results),
        questions: questions.filter((question) => question.phase === phase),
      };
    };
    return {
      id: run.id,
      run: run.name,
      variant: run.variant,
      variantIndex: index.get(run.variant) ?? 0,
      date: run.date,
      order: run.order,
      block: run.block,
      operator: run.operator,
      leftOut: run.leftOut,
      phases: run.phases.map(({ phase, id }) => phaseView(phase, id)),
      values: values(one.values),
      missing: missingView(one.missing, results),
      questions,
      notes: one.notes,
    };
  };
  const inPhases = new Set(results.runs.flatMap(({ phases }) => phases.flatMap((phase) => [...phase.values.keys()])));
  const inRuns = new Set(results.runs.flatMap((one) => [...one.values.keys()]));
  return {
    readingColumns,
    phaseQuantities: phaseQuantityNames.filter((name) => inPhases.has(name)),
    runQuantities: runQuantityNames.filter((name) => inRuns.has(name)),
    runs: results.runs.map(ofRun),
  };
}
