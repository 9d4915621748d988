import { formatFixed, type Locale, type Settings, statesErrors, wordsFor } from "../../../core/index.ts";
import type { MonteCarloView } from "../../contract/index.ts";
import type { StudySession } from "../study/study-session.ts";
import { drawnResult } from "./drawn-result.ts";
import { MonteCarloDesk, type TrialsOptions } from "./monte-carlo-desk.ts";
import { type AskedResult, type FoundResult, resultOfRun } from "./result-of-run.ts";
import { trialsRequest } from "./trials-request.ts";
import type { RunTrials, RunTrialsRequest } from "./worker-messages.ts";

/** So many runs of a study stay known; little is kept of each. */
const checksKept = 60;

/** What draws a run's trials: the service's workers, unless a test brings another. */
export interface Draws {
  run(request: RunTrialsRequest, options: TrialsOptions): Promise<RunTrials>;
  close(): Promise<void>;
}

/** A run that is drawn, or was; of which content, under which settings. */
interface Check {
  readonly seal: string;
  readonly settings: Settings;
  readonly abort: AbortController;
  drawn: number;
  result: RunTrials | null;
  hasFailed: boolean;
}

/**
 * Checks of runs by Monte Carlo, on demand. A run is drawn once for all of its quantities and for all windows; what came of it is kept as
 * long as the run and the settings are the same. Nobody waits for it: it is told how far it is.
 */
export class RunChecks {
  readonly #locale: Locale;
  readonly #makeDraws: () => Draws;
  #draws: Draws | null = null;
  readonly #ofSessions = new WeakMap<StudySession, Map<number, Check>>();
  #isClosed = false;

  constructor(locale: Locale, makeDraws: () => Draws = () => new MonteCarloDesk()) {
    this.#locale = locale;
    this.#makeDraws = makeDraws;
  }

  show(session: StudySession, asked: AskedResult): MonteCarloView {
    const found = resultOfRun(session, asked, this.#locale);
    return this.#view(session, found, this.#known(session, found));
  }

  start(session: StudySession, asked: AskedResult): MonteCarloView {
    const found = resultOfRun(session, asked, this.#locale);
    const known = this.#known(session, found);
    if (known !== null && !known.hasFailed) return this.#view(session, found, known);
    if (this.#whyNot(session.content.settings) !== null) return this.#view(session, found, null);
    return this.#view(session, found, this.#begin(session, found));
  }

  cancel(session: StudySession, asked: AskedResult): MonteCarloView {
    const found = resultOfRun(session, asked, this.#locale);
    const known = this.#known(session, found);
    if (known !== null && known.result === null) this.#drop(session, found.line.run, known);
    return this.#view(session, found, this.#known(session, found));
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    await this.#draws?.close();
  }

  /** What is known of a run as it is now; what is known of it as it was is given up. */
  #known(session: StudySession, { line }: FoundResult): Check | null {
    const known = this.#ofSessions.get(session)?.get(line.run);
    if (known === undefined) return null;
    if (known.seal === line.seal && known.settings === session.content.settings) return known;
    this.#drop(session, line.run, known);
    return null;
  }

  #drop(session: StudySession, run: number, check: Check): void {
    check.abort.abort(new Error("the run is not wanted any more"));
    const checks = this.#ofSessions.get(session);
    if (checks?.get(run) === check) checks.delete(run);
  }

  #begin(session: StudySession, { line, run }: FoundResult): Check {
    const { settings } = session.content;
    const check: Check = {
      ...{ seal: line.seal, settings, abort: new AbortController() },
      ...{ drawn: 0, result: null, hasFailed: false },
    };
    const checks = this.#ofSessions.get(session) ?? new Map<number, Check>();
    this.#ofSessions.set(session, checks);
    checks.delete(line.run);
    checks.set(line.run, check);
    for (const [oldest, one] of checks) {
      if (checks.size <= checksKept) break;
      this.#drop(session, oldest, one);
    }
    if (this.#isClosed) return check;
    this.#draws ??= this.#makeDraws();
    this.#draws
      .run(trialsRequest(run, settings), {
        signal: check.abort.signal,
        onProgress: (drawn) => {
          check.drawn = drawn;
        },
      })
      .then(
        (result) => {
          check.result = result;
        },
        (error: unknown) => {
          if (check.abort.signal.aborted || this.#isClosed) return;
          check.hasFailed = true;
          console.error(error);
        },
      );
    return check;
  }

  /** Why nothing can be drawn; null where it can. */
  #whyNot(settings: Settings): string | null {
    const words = wordsFor(this.#locale).screens.uncertainty;
    if (!statesErrors(settings)) return words.noErrors;
    return settings.monteCarlo.trials === 0 ? words.noTrials : null;
  }

  #view({ content }: StudySession, found: FoundResult, check: Check | null): MonteCarloView {
    const { screens, uncertainty } = wordsFor(this.#locale);
    const { settings } = content;
    const { trials, seed } = settings.monteCarlo;
    if (check === null) {
      const text = uncertainty.trials(formatFixed(trials, 0, this.#locale), seed);
      return { state: "none", trials: text, because: this.#whyNot(settings) };
    }
    if (check.hasFailed) return { state: "failed", message: screens.uncertainty.failed };
    if (check.result === null) return { state: "running", share: Math.min(1, check.drawn / trials) };
    return { state: "done", result: drawnResult(found, settings, check.result, this.#locale) };
  }
}
