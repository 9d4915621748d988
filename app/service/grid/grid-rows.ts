import { type PhaseName, phaseNames } from "../../../core/index.ts";
import { type StoredRunLine, StoreFault, type StudyDatabase } from "../../store/index.ts";
import type { StudyContent } from "../study/study-content.ts";

/** All rows that there are, in the order of the study: the phases of its runs, one run after the other. */
export class GridRows {
  /** Runs that can be read. */
  readonly lines: readonly StoredRunLine[];
  /** As the content had them: others stand for another state of the study. */
  readonly source: readonly StoredRunLine[];
  readonly unread: number;
  readonly count: number;
  /** Of each row the place of its run among the lines. */
  readonly runs: Int32Array;
  /** Of each row its phase. */
  readonly phases: readonly PhaseName[];
  /** Of each run its first row; behind the last run the number of rows. */
  readonly firstRows: Int32Array;
  readonly #places: ReadonlyMap<number, number>;

  constructor(
    source: readonly StoredRunLine[],
    unread: ReadonlySet<number>,
    phasesOf: (run: number) => readonly PhaseName[],
  ) {
    this.source = source;
    this.unread = unread.size;
    this.lines = unread.size === 0 ? source : source.filter(({ run }) => !unread.has(run));
    const runs: number[] = [];
    const phases: PhaseName[] = [];
    this.firstRows = new Int32Array(this.lines.length + 1);
    this.lines.forEach(({ run }, place) => {
      this.firstRows[place] = phases.length;
      for (const phase of phasesOf(run)) {
        phases.push(phase);
        runs.push(place);
      }
    });
    this.firstRows[this.lines.length] = phases.length;
    this.runs = Int32Array.from(runs);
    this.phases = phases;
    this.count = phases.length;
    this.#places = new Map(this.lines.map(({ run }, place) => [run, place]));
  }

  /** Whether these are the rows of the study as it is now. */
  isOf(content: StudyContent): boolean {
    return this.source === content.lines() && this.unread === content.unread.size;
  }

  line(place: number): StoredRunLine {
    const line = this.lines[place];
    if (line === undefined) throw new RangeError(`there is no run ${place} of ${this.lines.length}`);
    return line;
  }

  /** Place of a run among the lines; null where it is not there. */
  placeOf(run: number): number | null {
    return this.#places.get(run) ?? null;
  }

  /** The row of a run's phase; null where there is none. */
  rowOf(run: number, phase: PhaseName): number | null {
    const place = this.#places.get(run);
    if (place === undefined) return null;
    for (let row = this.firstRows[place] ?? 0; row < (this.firstRows[place + 1] ?? 0); row += 1) {
      if (this.phases[row] === phase) return row;
    }
    return null;
  }
}

/** Past all items of runs. */
const largestItem = 1e12;
/** So many runs that were changed are asked for one by one; more all at once. */
const fewRuns = 50;

/** Phases of the runs, kept by the run's seal: an edit reads those of its run alone. */
export class PhasesOfRuns {
  #known = new Map<number, { readonly seal: string; readonly phases: readonly PhaseName[] }>();

  /** The rows of the study as it is now. */
  rows(content: StudyContent, database: StudyDatabase): GridRows {
    const lines = content.lines();
    const changed = lines.filter(({ run, seal }) => this.#known.get(run)?.seal !== seal && !content.unread.has(run));
    const read = changed.length === 0 ? new Map() : this.#read(content, database, changed);
    const known = new Map<number, { readonly seal: string; readonly phases: readonly PhaseName[] }>();
    for (const { run, seal } of lines) {
      const before = this.#known.get(run);
      known.set(run, before?.seal === seal ? before : { seal, phases: read.get(run) ?? [] });
    }
    this.#known = known;
    return new GridRows(lines, content.unread, (run) => known.get(run)?.phases ?? []);
  }

  #read(
    content: StudyContent,
    database: StudyDatabase,
    lines: readonly StoredRunLine[],
  ): ReadonlyMap<number, readonly PhaseName[]> {
    try {
      if (lines.length > fewRuns) return database.phaseNames(0, largestItem);
      return new Map(lines.flatMap(({ run }) => [...database.phaseNames(run, run)]));
    } catch (error) {
      if (!(error instanceof StoreFault) || error.code !== "damaged") throw error;
      // Of a damaged file what can be read is shown: run by run.
      return new Map(lines.map((line) => [line.run, phasesOfRun(content, line)]));
    }
  }
}

function phasesOfRun(content: StudyContent, line: StoredRunLine): readonly PhaseName[] {
  const run = content.analysed(line)?.results.run;
  return run === undefined ? [] : phaseNames.filter((name) => run.phases.some(({ phase }) => phase === name));
}
