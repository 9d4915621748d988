import type { QuestionView } from "../../contract/index.ts";
import type { StoredRunLine } from "../../store/index.ts";
import { answersOf } from "../questions/answers.ts";
import type { AskedQuestion } from "../questions/asked-questions.ts";
import { questionView } from "../questions/index.ts";
import type { StudyOverview } from "../study/study-content.ts";
import type { StudySession } from "../study/study-session.ts";

/**
 * Of so many runs the questions are worked out anew whenever they are asked for; of more when another page needs them, or nobody has
 * edited for so many milliseconds.
 */
const smallStudy = 300;
const quiet = 10_000;

const none: readonly QuestionView[] = [];

/**
 * The open questions of each run. Those of a large study depend on all of its runs, and are worked out some time after an edit: until
 * then those of runs that were not changed stay, and answers count at once.
 */
export class AskedOfRuns {
  readonly #session: StudySession;
  #overview: StudyOverview | null = null;
  #byRun: ReadonlyMap<string, readonly AskedQuestion[]> = new Map();
  /** What each run held when that was found. */
  #seals: ReadonlyMap<number, string> = new Map();
  #answered: ReadonlyMap<string, unknown> = new Map();
  #lines: readonly StoredRunLine[] = [];
  #stamp = 0;
  #timer: NodeJS.Timeout | null = null;

  constructor(session: StudySession) {
    this.#session = session;
  }

  /** Goes up when the questions may be others. */
  get stamp(): number {
    return this.#stamp;
  }

  /** Waits for the questions where they are to be in the answer: of a small study, and those of a large one the first time. */
  async first(isLooking: boolean): Promise<void> {
    const { content } = this.#session;
    if (isLooking || content.overviewKnown !== null) return;
    if (content.lines().length <= smallStudy || this.#overview === null) await this.#session.asked();
  }

  /** Takes up what is known now. */
  update(isLooking: boolean): void {
    const { content } = this.#session;
    const lines = content.lines();
    if (content.overviewKnown === null && !isLooking) {
      if (lines.length <= smallStudy) content.overview();
      else this.#askSoon();
    }
    const { overviewKnown } = content;
    if (lines === this.#lines && (overviewKnown === null || overviewKnown === this.#overview)) return;
    this.#stamp += 1;
    this.#lines = lines;
    this.#answered = answersOf(content.head);
    if (overviewKnown === null || overviewKnown === this.#overview) return;
    this.#overview = overviewKnown;
    this.#seals = new Map(lines.map(({ run, seal }) => [run, seal]));
    const ofRuns = overviewKnown.asked.filter(({ runId }) => runId !== null);
    this.#byRun = Map.groupBy(ofRuns, ({ runId }) => runId ?? "");
  }

  #askSoon(): void {
    this.#session.lacksQuestions();
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#timer = null;
      this.#session.askAgain();
    }, quiet);
    this.#timer.unref();
  }

  /** Open questions about a run and its readings. */
  of({ run, seal }: StoredRunLine): readonly QuestionView[] {
    if (this.#seals.get(run) !== seal) return none;
    const asked = this.#byRun.get(String(run));
    if (asked === undefined) return none;
    return asked.flatMap(({ question }) => {
      const { id } = question;
      if (id !== undefined && this.#answered.has(id)) return [];
      return { ...questionView(question), answer: null };
    });
  }
}
