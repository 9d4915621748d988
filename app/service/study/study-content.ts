import {
  type AnalysedRun,
  type AnsweredQuestion,
  analyseRun,
  atOnce,
  BesideOthers,
  type InSteps,
  type Locale,
  type Question,
  type Run,
  type RunFacts,
  runResults,
  type Settings,
  studyQuestionsInSteps,
  studyResults,
} from "../../../core/index.ts";
import {
  type StoredHead,
  type StoredRun,
  type StoredRunLine,
  type StoredVariant,
  StoreFault,
  type StudyDatabase,
} from "../../store/index.ts";
import { runsOnBench } from "../bench/bench-record.ts";
import type { OpenStudy } from "../open-study.ts";
import { type AskedQuestions, askedQuestions, askedQuestionsInSteps } from "../questions/asked-questions.ts";
import { QuestionIds } from "../questions/question-id.ts";
import { coreRun } from "../stored/index.ts";
import { type RunDigest, RunDigests } from "./run-digest.ts";
import { settingsOf } from "./stored-settings.ts";
import { provenanceOf, readingQuestionsOf } from "./stored-study.ts";

/** So many runs at the beginning of a study stay at hand. */
const firstRuns = 170;

/** What is known of a run: its content by its seal and its variant. */
interface KnownRun {
  readonly seal: string;
  readonly variant: string;
  /** Little, and kept. */
  readonly facts: RunFacts;
  /** Much, and kept as long as somebody uses it or there is room. */
  readonly analysed: WeakRef<AnalysedRun>;
  readonly digest: RunDigest;
}

/** What the Study page needs of the runs: little for each, so that very many can be looked through. */
export interface StudyOverview extends AskedQuestions {
  readonly facts: readonly RunFacts[];
}

/**
 * What a study file holds, read as it is needed and kept by what it depends on: a run by its seal, its variant and the settings.
 * After an edit only what it touched is read and worked out anew.
 */
export class StudyContent {
  readonly #locale: Locale;
  #database: StudyDatabase;
  #head: StoredHead;
  #settings: Settings;
  #variants: ReadonlyMap<number, string>;
  #lines: readonly StoredRunLine[] | null = null;
  readonly #runs = new Map<number, KnownRun>();
  #facts: readonly RunFacts[] | null = null;
  #beside: BesideOthers | null = null;
  #overview: StudyOverview | null = null;
  #asking: Promise<void> | null = null;
  #open: OpenStudy | null = null;
  readonly #ids = new QuestionIds((line) => this.#runOf(line));
  readonly #digests = new RunDigests();
  #worked = 0;
  /** Kept, as they are what is shown first. */
  readonly #first = new Map<number, AnalysedRun>();
  /** Runs that could not be read: of a damaged file. */
  readonly unread = new Set<number>();

  constructor(database: StudyDatabase, locale: Locale) {
    this.#locale = locale;
    this.#database = database;
    this.#head = database.head();
    this.#settings = settingsOf(this.#head, locale);
    this.#variants = variantTexts(this.#head);
  }

  get head(): StoredHead {
    return this.#head;
  }

  get settings(): Settings {
    return this.#settings;
  }

  /** Another database stands for the same study: the file was read again. */
  replace(database: StudyDatabase): void {
    this.#database = database;
    this.changed(true);
  }

  /** The file was changed; `head`: more than runs. True where no run is known any more, as the settings are others. */
  changed(head: boolean): boolean {
    this.#lines = null;
    this.#facts = null;
    this.#overview = null;
    this.#open = null;
    if (!head) return false;
    const before = this.#settings;
    this.#head = this.#database.head();
    this.#variants = variantTexts(this.#head);
    const settings = settingsOf(this.#head, this.#locale);
    // Equal settings stay the same ones, so that what was worked out under them stays known.
    if (JSON.stringify(plain(settings)) === JSON.stringify(plain(before))) return false;
    this.#settings = settings;
    this.#runs.clear();
    return true;
  }

  lines(): readonly StoredRunLine[] {
    this.#lines ??= this.#database.runLines();
    return this.#lines;
  }

  /** A run as it stands in the file now, beside how it is kept there; null where there is none of that number. */
  run(item: number): { readonly stored: StoredRun; readonly run: Run } | null {
    let stored: StoredRun;
    try {
      stored = this.#database.run(item);
    } catch (error) {
      if (error instanceof StoreFault && error.code === "refused") return null;
      throw error;
    }
    return { stored, run: coreRun(stored, item, this.#variantOf(stored.variant)) };
  }

  #variantOf(item: number): StoredVariant {
    const variant = this.#head.variants.get(item);
    if (variant === undefined) throw new Error(`the study has no variant ${item}`);
    return variant;
  }

  #known({ run: item, seal, variant: variantItem }: StoredRunLine): KnownRun | null {
    const known = this.#runs.get(item);
    return known?.seal === seal && known.variant === this.#variants.get(variantItem) ? known : null;
  }

  /** A run as it stands in the file, which has been read before. */
  #runOf(line: StoredRunLine): Run {
    const known = this.#known(line)?.analysed.deref()?.results.run;
    return known ?? coreRun(this.#database.run(line.run), line.run, this.#variantOf(line.variant));
  }

  #analyse({ run: item, seal, variant: variantItem }: StoredRunLine): AnalysedRun {
    const stored = this.#database.run(item);
    const run = coreRun(stored, item, this.#variantOf(variantItem));
    const known = this.#runs.get(item);
    if (known?.seal === seal && known.variant === this.#variants.get(variantItem)) {
      // Only what was let go is worked out again.
      const again = { results: runResults(run, this.#settings, this.#locale), facts: known.facts };
      this.#runs.set(item, { ...known, analysed: new WeakRef(again) });
      return again;
    }
    const analysed = analyseRun(run, this.#settings, this.#locale);
    const variant = this.#variants.get(variantItem) ?? "";
    const digest = this.#digests.of(stored, analysed.results);
    this.#runs.set(item, { seal, variant, facts: analysed.facts, analysed: new WeakRef(analysed), digest });
    this.#worked += 1;
    return analysed;
  }

  /** The same; null, and noted down, where the run cannot be read: of a damaged file what can be read is shown. */
  #analyseIfWhole(line: StoredRunLine): AnalysedRun | null {
    if (this.unread.has(line.run)) return null;
    try {
      return this.#analyse(line);
    } catch (error) {
      if (!(error instanceof StoreFault) || error.code !== "damaged") throw error;
      this.unread.add(line.run);
      return null;
    }
  }

  /** A run of the study, worked out; null where it cannot be read. */
  analysed(line: StoredRunLine): AnalysedRun | null {
    return this.#known(line)?.analysed.deref() ?? this.#analyseIfWhole(line);
  }

  /** A run of the study as it stands, not worked out; null where it cannot be read. */
  readRun(line: StoredRunLine): Run | null {
    if (this.unread.has(line.run)) return null;
    try {
      return this.#runOf(line);
    } catch (error) {
      if (!(error instanceof StoreFault) || error.code !== "damaged") throw error;
      this.unread.add(line.run);
      return null;
    }
  }

  /** What stands in the run's rows, in little; null where it has not been worked out as it is now. */
  digest(line: StoredRunLine): RunDigest | null {
    return this.#known(line)?.digest ?? null;
  }

  /** Goes up with every run that is worked out. */
  get worked(): number {
    return this.#worked;
  }

  /** The overview where it is known as things are now. */
  get overviewKnown(): StudyOverview | null {
    return this.#overview;
  }

  /** How many runs have not been worked out as they are now. */
  unknown(): number {
    return this.lines().reduce((count, line) => count + (this.#known(line) === null ? 1 : 0), 0);
  }

  /** Reads and works out the runs one after the other; after each, the share that is done. An edit makes it begin anew. */
  *look(): Generator<number, void> {
    for (let lines = this.lines(), index = 0; index < lines.length; index++) {
      const line = lines[index];
      if (line !== undefined && this.#known(line) === null) {
        const analysed = this.#analyseIfWhole(line);
        if (index < firstRuns && analysed !== null) this.#first.set(index, analysed);
      }
      yield (index + 1) / lines.length;
      if (this.lines() === lines) continue;
      lines = this.lines();
      index = -1;
    }
  }

  #readingQuestions(lines: readonly StoredRunLine[]): Question[] {
    const names = new Map(lines.map(({ run, name }) => [run, name]));
    return readingQuestionsOf(this.#head, (run) => names.get(run));
  }

  /** What questions and overview need of each run, in the order of the study. */
  facts(): readonly RunFacts[] {
    if (this.#facts === null) {
      const onBench = runsOnBench(this.#head);
      this.#facts = this.lines().flatMap((line): readonly RunFacts[] => {
        const facts = this.#known(line)?.facts ?? this.#analyseIfWhole(line)?.facts;
        if (facts === undefined) return [];
        return [onBench.has(line.run) ? { ...facts, onBench: true } : facts];
      });
    }
    return this.#facts;
  }

  /** What there is to know without the runs' results. */
  overview(): StudyOverview {
    if (this.#overview !== null) return this.#overview;
    this.#overview = atOnce(this.#overviewInSteps());
    return this.#overview;
  }

  /** Asks all questions in slices of so many milliseconds, with pauses in between; what is edited in a pause is in them. */
  async ask(milliseconds: number, pause: () => Promise<void>): Promise<void> {
    // Whoever asks meanwhile waits for the same.
    this.#asking ??= this.#askInSlices(milliseconds, pause).finally(() => {
      this.#asking = null;
    });
    return this.#asking;
  }

  async #askInSlices(milliseconds: number, pause: () => Promise<void>): Promise<void> {
    while (this.#overview === null) {
      const lines = this.lines();
      // Runs that are not known are worked out one by one first.
      const looks = this.look();
      let steps: InSteps<StudyOverview> | null = null;
      for (let slice = performance.now(); this.#lines === lines && this.#overview === null; ) {
        if (steps === null) {
          if (looks.next().done === true) steps = this.#overviewInSteps();
        } else {
          const { done, value } = steps.next();
          if (done === true) this.#overview = value;
        }
        if (performance.now() - slice < milliseconds) continue;
        await pause();
        slice = performance.now();
      }
    }
  }

  *#overviewInSteps(): InSteps<StudyOverview> {
    const [facts, lines] = [this.facts(), this.lines()];
    const read = this.#readingQuestions(lines);
    const questions = yield* studyQuestionsInSteps(facts, this.#settings, this.#locale, read);
    return { facts, ...(yield* askedQuestionsInSteps(questions, this.#ids, this.#head, lines)) };
  }

  /**
   * Questions about one run, open and answered. Of a run that is being made they are worked out beside what is known of the
   * others, unless those of the whole study are there already.
   */
  questionsOf(run: Pick<Run, "id" | "name">): readonly (Question | AnsweredQuestion)[] {
    const facts = this.facts();
    const own = facts.find(({ id }) => id === run.id);
    if (own?.onBench !== true || this.#overview !== null) {
      return this.overview().asked.flatMap(({ question, runId }) => (runId === run.id ? [question] : []));
    }
    const others = facts.filter(({ onBench }) => onBench !== true);
    if (this.#beside?.isOf(others) !== true) this.#beside = new BesideOthers(others);
    const read = this.#readingQuestions(this.lines()).filter((question) => question.run === own.name);
    const questions = this.#beside.questionsOf(own, this.#settings, read, this.#locale);
    const all = { runQuestions: new Map([[own.id, questions]]), questions: [], answered: [] };
    return askedQuestions(all, this.#ids, this.#head, this.lines()).asked.map(({ question }) => question);
  }

  /** The same, with pauses after slices of so many milliseconds; what is edited in a pause is in it. */
  async openInSlices(milliseconds: number, pause: () => Promise<void>): Promise<OpenStudy> {
    // Held, as what is known of a run is let go when there is no room.
    let held = new Map<string, AnalysedRun>();
    for (let slice = performance.now(); ; ) {
      const lines = this.lines();
      const before = held;
      held = new Map();
      for (const line of lines) {
        const known = this.#known(line)?.analysed.deref() ?? this.#analyseIfWhole(line);
        if (known !== null) held.set(line.seal, known);
        if (performance.now() - slice < milliseconds) continue;
        await pause();
        slice = performance.now();
        if (this.lines() !== lines) break;
      }
      before.clear();
      if (this.lines() !== lines) continue;
      await this.ask(milliseconds, pause);
      if (this.lines() === lines) return this.open();
    }
  }

  /** The whole study, worked out. */
  open(): OpenStudy {
    if (this.#open !== null) return this.#open;
    const lines = this.lines();
    const analysed = lines.flatMap((line) => this.#known(line)?.analysed.deref() ?? this.#analyseIfWhole(line) ?? []);
    const study = {
      name: this.#head.name,
      settings: this.#settings,
      runs: analysed.map(({ results }) => results.run),
    };
    const results = studyResults(study, this.#locale, analysed, this.overview());
    this.#open = { results, provenance: provenanceOf(this.#head) };
    return this.#open;
  }
}

function variantTexts(head: StoredHead): ReadonlyMap<number, string> {
  return new Map(
    [...head.variants].map(([item, { name, levels }]) => [item, JSON.stringify([name, [...levels].toSorted()])]),
  );
}

/** Settings with their maps as lists, to compare them by. */
function plain(settings: Settings): unknown {
  return { ...settings, fuels: [...settings.fuels], instruments: [...settings.instruments] };
}
