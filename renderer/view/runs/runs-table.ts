import type { PhaseView, QuestionView, RunsView, RunView } from "../../../app/contract/index.ts";
import type { Locale, Method, PhaseName, QuantityEntry, QuantityName, Words } from "../../../core/index.ts";
import { quantityHeading, shownValue } from "../../state/quantities.ts";

/** What is looked at: readings or results, of a phase or (results only) of whole runs. */
export interface RunsChoice {
  readonly show: "readings" | "results";
  /** null: the whole run. */
  readonly phase: string | null;
}

/** One cell as it is shown, and what is known about it. */
export interface RunsCell {
  readonly text: string;
  /** To sort by: the number, or the text; null where there is nothing. */
  readonly order: number | string | null;
  readonly questions: readonly string[];
  /** Why there is nothing. */
  readonly missing: string | null;
}

export interface RunsColumn {
  readonly key: string;
  readonly heading: string;
  readonly align: "text" | "number";
  /** Heading in the readings file: what stands there was written down and can be changed. */
  readonly reading: string | null;
  /** The phase that is written to; null: the whole run. */
  readonly phase: PhaseName | null;
  readonly quantity: QuantityEntry | null;
  /** The other method's formula on these readings. */
  readonly formulaOnly: boolean;
  readonly cell: (run: RunView) => RunsCell;
}

export interface RunsTable {
  readonly columns: readonly RunsColumn[];
  readonly runs: readonly RunView[];
}

interface Knowledge {
  readonly words: Words["screens"];
  readonly locale: Locale;
  readonly quantities: ReadonlyMap<QuantityName, QuantityEntry>;
  readonly method: Method;
}

/** Phases that occur, in order of first appearance. */
export function phasesOf(view: RunsView): string[] {
  return [...new Set(view.runs.flatMap((run) => run.phases.map((phase) => phase.phase)))];
}

/** Whether the run has what the column is about. */
export const hasPhase = (run: RunView, phase: string | null) =>
  phase === null || run.phases.some((one) => one.phase === phase);

const phaseOf = (run: RunView, phase: string | null): PhaseView | undefined =>
  run.phases.find((one) => one.phase === phase);

const isNumeric = (text: string) => /^-?\d+(?:\.\d+)?$/.test(text);

function textCell(text: string, missing: string, questions: readonly string[]): RunsCell {
  const order = text === "" ? null : isNumeric(text) ? Number(text) : text;
  return { text, order, questions, missing: text === "" ? missing : null };
}

const messages = (questions: readonly QuestionView[]) => questions.map((question) => question.message);

/** The runs as a table of the chosen readings or results, in the order in which they are recorded. */
export function runsTable(view: RunsView, choice: RunsChoice, known: Knowledge): RunsTable {
  const own = ownColumns(view, known.words);
  const chosen =
    choice.show === "readings" ? readingColumns(view, choice.phase, known) : resultColumns(view, choice.phase, known);
  const shown = new Set([...own, ...chosen].map((column) => column.reading));
  return { columns: [runColumn(choice, shown, known.words), ...own, ...chosen], runs: view.runs };
}

/** The run's name. It carries the questions that no other cell of the table shows. */
function runColumn(choice: RunsChoice, shown: ReadonlySet<string | null>, words: Words["screens"]): RunsColumn {
  const hasCell = (question: QuestionView) =>
    question.column !== null &&
    shown.has(question.column) &&
    (question.phase === choice.phase || question.phase === null);
  return {
    key: "run",
    heading: words.runs.run,
    align: "text",
    reading: "run",
    phase: null,
    quantity: null,
    formulaOnly: false,
    cell: (run) => ({
      text: run.run,
      order: run.run,
      missing: null,
      questions: run.questions
        .filter((question) => !hasCell(question))
        .map((question) => placedMessage(question, words)),
    }),
  };
}

function placedMessage(question: QuestionView, words: Words["screens"]): string {
  const place = [
    ...(question.phase === null ? [] : [words.phase(question.phase)]),
    ...(question.column === null ? [] : [words.reading(question.column)]),
  ];
  return place.length === 0 ? question.message : `${place.join(", ")}: ${question.message}`;
}

function ownColumns(view: RunsView, words: Words["screens"]): RunsColumn[] {
  const column = (key: string, heading: string, align: "text" | "number", of: (run: RunView) => string) => ({
    key,
    heading,
    align,
    reading: key,
    phase: null,
    quantity: null,
    formulaOnly: false,
    cell: (run: RunView) =>
      textCell(
        of(run),
        words.runs.notMeasured,
        messages(run.questions.filter((question) => question.phase === null && question.column === key)),
      ),
  });
  const all = [
    column("variant", words.runs.variant, "text", (run) => run.variant),
    column("order", words.runs.order, "number", (run) => (run.order === null ? "" : String(run.order))),
    column("date", words.runs.date, "text", (run) => run.date ?? ""),
    column("block", words.runs.block, "text", (run) => run.block ?? ""),
    column("operator", words.runs.operator, "text", (run) => run.operator ?? ""),
  ];
  return all.filter((one) => one.key === "variant" || view.runs.some((run) => one.cell(run).text !== ""));
}

/** Columns of the layout that tell of the run, not of the phase: they have a place of their own, or stand with the variants. */
const runHeadings = new Set(["run", "variant", "phase", "date", "order", "block", "operator", "excluded"]);
const isOfRun = (heading: string) => runHeadings.has(heading) || heading.startsWith("factor:");

function readingColumns(view: RunsView, phase: string | null, { words }: Knowledge): RunsColumn[] {
  return view.readingColumns
    .map((heading, index): RunsColumn => {
      const textOf = (run: RunView) => phaseOf(run, phase)?.readings[index] ?? "";
      return {
        key: heading,
        heading: words.reading(heading),
        align: view.runs.every((run) => /^$|^[-\d]/.test(textOf(run))) ? "number" : "text",
        reading: heading,
        phase: phase as PhaseName | null,
        quantity: null,
        formulaOnly: false,
        cell: (run) => {
          const found = phaseOf(run, phase);
          return textCell(
            textOf(run),
            found === undefined ? words.runs.noPhase : words.runs.notMeasured,
            messages((found?.questions ?? []).filter((question) => question.column === heading)),
          );
        },
      };
    })
    .filter(
      (column) =>
        !isOfRun(column.key) &&
        view.runs.some((run) => {
          const cell = column.cell(run);
          return cell.text !== "" || cell.questions.length > 0;
        }),
    );
}

function resultColumns(view: RunsView, phase: string | null, known: Knowledge): RunsColumn[] {
  const { words, locale, quantities, method } = known;
  const source = (run: RunView) => (phase === null ? run : phaseOf(run, phase));
  const names = phase === null ? view.runQuantities : view.phaseQuantities;
  return names
    .filter((name) =>
      view.runs.some((run) => {
        const of = source(run);
        return [...(of?.values ?? []), ...(of?.missing ?? [])].some((one) => one.quantity === name);
      }),
    )
    .map((name): RunsColumn => {
      const quantity = quantities.get(name) ?? null;
      return {
        key: name,
        heading: quantity === null ? name : quantityHeading(quantity),
        align: "number",
        reading: null,
        phase: null,
        quantity,
        formulaOnly: quantity !== null && quantity.method !== "both" && quantity.method !== method,
        cell: (run) => {
          const of = source(run);
          const value = of?.values.find((one) => one.quantity === name)?.value;
          const because = of?.missing.find((one) => one.quantity === name)?.because;
          return {
            text: value === undefined ? "" : quantity === null ? String(value) : shownValue(quantity, value, locale),
            order: value ?? null,
            questions: [],
            missing:
              value === undefined
                ? (because ?? (of === undefined ? words.runs.noPhase : words.runs.notMeasured))
                : null,
          };
        },
      };
    });
}

/** The same runs in the order of a column; what is not known stands last, equal ones keep their order. */
export function sortedRuns(table: RunsTable, key: string | null, falling: boolean, locale: Locale): readonly RunView[] {
  const column = table.columns.find((one) => one.key === key);
  if (column === undefined) return table.runs;
  const collator = new Intl.Collator(locale, { numeric: true });
  const sign = falling ? -1 : 1;
  return table.runs
    .map((run) => ({ run, order: column.cell(run).order }))
    .sort((one, other) => {
      if (one.order === null || other.order === null) return Number(one.order === null) - Number(other.order === null);
      if (typeof one.order === "number" && typeof other.order === "number") return sign * (one.order - other.order);
      return sign * collator.compare(String(one.order), String(other.order));
    })
    .map(({ run }) => run);
}
