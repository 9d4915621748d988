import { formatValue, type Locale, type PhaseName, phaseNames, quantityEntry, wordsFor } from "../../../core/index.ts";
import { layoutColumns, phaseCells } from "../../import/index.ts";
import type { RunDigest } from "../study/run-digest.ts";
import { folded, numeral } from "./folded.ts";
import { runsWithText } from "./runs-with-text.ts";
import type { SortPlace } from "./sort-keys.ts";
import type { Turn } from "./turn.ts";

/** In which rows of each run a text was found, kept as long as the run is what it was. */
type Found = Map<number, { readonly digest: RunDigest; readonly phases: ReadonlySet<PhaseName> }>;

/** How many texts are kept that were looked for. */
const textsKept = 4;

const numberColumns: ReadonlySet<string> = new Set(
  layoutColumns.filter(({ content }) => content === "number").map(({ name }) => name),
);
const noPhases: ReadonlySet<PhaseName> = new Set();

type FindPlace = Pick<SortPlace, "rows" | "content" | "database">;

/** Finds rows by what their cells show. */
export class FoundTexts {
  readonly #locale: Locale;
  readonly #found = new Map<string, Found>();

  constructor(locale: Locale) {
    this.#locale = locale;
  }

  /** Whether each of the rows has a cell in which the text occurs; runs must be worked out. */
  async rowsWith(text: string, { rows, content, database }: FindPlace, turn: Turn): Promise<(row: number) => boolean> {
    const needle = folded(text.trim());
    if (needle === "") return () => true;
    const found = this.#of(needle);
    const within = this.#narrower(needle);
    const may = await runsWithText(needle, rows, content, database, this.#locale, turn);
    const phasesOf: ReadonlySet<PhaseName>[] = [];
    for (const line of rows.lines) {
      const digest = content.digest(line);
      let known = found.get(line.run);
      if (digest !== null && known?.digest !== digest) {
        const before = within?.get(line.run);
        const isOut = may?.has(line.run) === false || (before?.digest === digest && before.phases.size === 0);
        const run = isOut ? null : (content.readRun(line) ?? null);
        known = { digest, phases: run === null ? noPhases : this.#phasesWith(needle, run, digest) };
        found.set(line.run, known);
      }
      phasesOf.push(known?.phases ?? noPhases);
      if (turn.isOver) await turn.pause();
    }
    if (found.size > rows.lines.length * 2) this.#found.delete(needle);
    return (row) => phasesOf[rows.runs[row] ?? 0]?.has(rows.phases[row] ?? "simmer") ?? false;
  }

  #of(needle: string): Found {
    const found: Found = this.#found.get(needle) ?? new Map();
    this.#found.delete(needle);
    this.#found.set(needle, found);
    for (const oldest of this.#found.keys()) {
      if (this.#found.size <= textsKept) break;
      this.#found.delete(oldest);
    }
    return found;
  }

  /** A shorter text that was looked for: where it is not, a longer one that holds it is not either. */
  #narrower(needle: string): Found | null {
    let best: string | null = null;
    for (const other of this.#found.keys()) {
      if (other !== needle && needle.includes(other) && (best === null || other.length > best.length)) best = other;
    }
    return best === null ? null : (this.#found.get(best) ?? null);
  }

  #phasesWith(needle: string, run: Parameters<typeof phaseCells>[0], digest: RunDigest): ReadonlySet<PhaseName> {
    const { phase: phaseWords } = wordsFor(this.#locale).quantities;
    const number = numeral(needle);
    const has = (text: string) => folded(text).includes(needle);
    const hasNumber = (column: string, text: string) => numberColumns.has(column) && text.includes(number);
    const inResults = this.#phasesOfResults(needle, digest);
    const isInRun = inResults.has(null);
    const phases = new Set<PhaseName>();
    for (const phase of run.phases) {
      const isFound =
        isInRun ||
        inResults.has(phase.phase) ||
        has(phaseWords[phase.phase]) ||
        phaseCells(run, phase).some(({ column, text }) => column !== "phase" && (has(text) || hasNumber(column, text)));
      if (isFound) phases.add(phase.phase);
    }
    return phases.size === 0 ? noPhases : phases;
  }

  /** Phases whose results show the text, as the page writes them; null: the run's own results do, which is found in all its rows. */
  #phasesOfResults(needle: string, { places, values }: RunDigest): ReadonlySet<PhaseName | null> {
    const found = new Set<PhaseName | null>();
    // Results are digits, their marks and a sign.
    const number = numeral(needle);
    if (/[^\d.-]/.test(number)) return found;
    for (const [key, place] of places) {
      const dot = key.indexOf(".");
      const phase = dot === -1 ? null : (phaseNames.find((name) => name === key.slice(0, dot)) ?? null);
      const name = key.slice(dot + 1) as Parameters<typeof quantityEntry>[0];
      if (found.has(phase)) continue;
      const text = formatValue(values[place] ?? Number.NaN, quantityEntry(name, this.#locale), this.#locale);
      if (numeral(text).includes(number)) found.add(phase);
    }
    return found;
  }
}
