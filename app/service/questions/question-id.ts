import { createHash } from "node:crypto";
import type { Phase, Question, Run } from "../../../core/index.ts";
import { layoutColumns, phaseCells } from "../../import/index.ts";
import type { StoredRunLine } from "../../store/index.ts";
import { cellText } from "../stored/index.ts";

/** So many hex digits name a question: 128 bits of its digest. */
const idLength = 32;

const digest = (text: string) => createHash("sha256").update(text).digest("hex");

const layoutNames: ReadonlySet<string> = new Set(layoutColumns.map(({ name }) => name));
/** What is read off an instrument or a clock, phase by phase. */
const measuredNames: ReadonlySet<string> = new Set(
  layoutColumns.filter(({ content, ofRun }) => content !== "text" && !ofRun).map(({ name }) => name),
);

/** All that was measured in a phase, in little. */
function measured(run: Run, phase: Phase): string {
  const cells = phaseCells(run, phase).filter(({ column }) => measuredNames.has(column));
  return digest(JSON.stringify(cells.map(({ column, text }) => [column, text])));
}

/** What the questioned place of a run holds: the cell, or where a whole phase is questioned, its row. Null: there is no such place. */
function contentOf(run: Run, { phase, column }: Pick<Question, "phase" | "column">): string | null {
  const row = run.phases.find((one) => phase === null || one.phase === phase);
  if (row === undefined) return null;
  if (column === null) return phase === null ? null : measured(run, row);
  const text = cellText(run, row, column);
  return text !== "" || layoutNames.has(column) ? text : null;
}

interface KnownContents {
  readonly seal: string;
  /** By phase and column. */
  readonly contents: Map<string, string | null>;
}

/**
 * Names questions. Two questions have one name where the same rule asks about the same place with the same content: an answer
 * stands as long as that is so, falls away when the reading is changed, and is there again when it is changed back. A question about
 * no place of a run is known by what it says. Run and variant count by their items: either can be renamed.
 */
export class QuestionIds {
  readonly #known = new Map<number, KnownContents>();
  readonly #readRun: (line: StoredRunLine) => Run;

  constructor(readRun: (line: StoredRunLine) => Run) {
    this.#readRun = readRun;
  }

  /**
   * The questions with their names.
   *
   * @param line the run that they are about; null: a variant or the whole study
   * @param variantItem item of a variant by its name
   */
  named(
    questions: readonly Question[],
    line: StoredRunLine | null,
    variantItem: (name: string) => number | undefined,
  ): Question[] {
    // A run is read at most once, and only where something is asked that is not known.
    let read: Run | null = null;
    const contentAt = (question: Question): string | null => {
      if (line === null) return null;
      // The same variant under another name.
      if (question.column === "variant") return String(line.variant);
      const contents = this.#contentsOf(line);
      const place = JSON.stringify([question.phase, question.column]);
      const known = contents.get(place);
      if (known !== undefined) return known;
      read ??= this.#readRun(line);
      const content = contentOf(read, question);
      contents.set(place, content);
      return content;
    };
    return questions.map((question) => {
      const { rule, variant, phase, column, message } = question;
      const content = contentAt(question);
      const about = [rule, line?.run ?? null, variant === null ? null : (variantItem(variant) ?? null), phase, column];
      const asked = JSON.stringify([...about, content === null ? { message } : { content }]);
      return { ...question, id: digest(asked).slice(0, idLength) };
    });
  }

  #contentsOf({ run, seal }: StoredRunLine): Map<string, string | null> {
    const known = this.#known.get(run);
    if (known?.seal === seal) return known.contents;
    const contents = new Map<string, string | null>();
    this.#known.set(run, { seal, contents });
    return contents;
  }

  /** What is known of runs that are gone is let go. */
  keepOnly(lines: readonly StoredRunLine[]): void {
    const there = new Set(lines.map(({ run }) => run));
    for (const run of this.#known.keys()) if (!there.has(run)) this.#known.delete(run);
  }
}
