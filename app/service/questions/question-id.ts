import { createHash } from "node:crypto";
import type { Question, Run } from "../../../core/index.ts";
import { layoutColumns, phaseCells } from "../../import/index.ts";
import type { StoredRunLine } from "../../store/index.ts";

/** So many hex digits name a question: 128 bits of its digest. */
const idLength = 32;

const layoutNames: ReadonlySet<string> = new Set(layoutColumns.map(({ name }) => name));

const keyOf = (phase: string | null, column: string) => JSON.stringify([phase, column]);

/** What the cells of a run hold, by phase and column; without a phase: those of its first row. */
function cellTexts(run: Run): Map<string, string> {
  const texts = new Map<string, string>();
  for (const [index, phase] of run.phases.entries()) {
    for (const { column, text } of phaseCells(run, phase)) {
      texts.set(keyOf(phase.phase, column), text);
      if (index === 0) texts.set(keyOf(null, column), text);
    }
  }
  return texts;
}

/**
 * Names questions. Two questions have one name where the same rule asks about the same cell with the same content: an answer
 * stands as long as that is so, falls away when the reading is changed, and is there again when it is changed back. A question about
 * no cell is known by what it says. Run and variant count by their items: either can be renamed.
 */
export class QuestionIds {
  readonly #texts = new Map<number, { readonly seal: string; readonly texts: ReadonlyMap<string, string> }>();
  readonly #readRun: (line: StoredRunLine) => Run;

  constructor(readRun: (line: StoredRunLine) => Run) {
    this.#readRun = readRun;
  }

  #textsOf(line: StoredRunLine): ReadonlyMap<string, string> {
    const known = this.#texts.get(line.run);
    if (known?.seal === line.seal) return known.texts;
    const texts = cellTexts(this.#readRun(line));
    this.#texts.set(line.run, { seal: line.seal, texts });
    return texts;
  }

  /** Text of the cell that is questioned; null where the question is about none. */
  #cellText({ phase, column }: Question, line: StoredRunLine | null): string | null {
    if (line === null || column === null) return null;
    return this.#textsOf(line).get(keyOf(phase, column)) ?? (layoutNames.has(column) ? "" : null);
  }

  /**
   * The question with its name.
   *
   * @param line the run that it is about; null: a variant or the whole study
   * @param variant item of the variant that it is about
   */
  named(question: Question, line: StoredRunLine | null, variant: number | null): Question {
    const { rule, phase, column, message } = question;
    const cell = this.#cellText(question, line);
    const content = cell === null ? { message } : { cell };
    const asked = JSON.stringify([rule, line?.run ?? null, variant, phase, column, content]);
    return { ...question, id: createHash("sha256").update(asked).digest("hex").slice(0, idLength) };
  }

  /** What is known of runs that are gone is let go. */
  keepOnly(lines: readonly StoredRunLine[]): void {
    const there = new Set(lines.map(({ run }) => run));
    for (const run of this.#texts.keys()) if (!there.has(run)) this.#texts.delete(run);
  }
}
