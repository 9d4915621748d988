import { availableParallelism } from "node:os";
import {
  allOf,
  blockSize,
  type OutputTrials,
  ofOutputs,
  outputGroups,
  outputPlaces,
  partsOf,
  type RunModel,
  runModel,
  spreadOutputs,
  type TrialsPart,
  usualMargin,
} from "../../../core/index.ts";
import { requestFor, runTrialsOf } from "./run-task.ts";
import { trialsWorkerFile } from "./trials-worker-file.ts";
import type { RunTrials, RunTrialsRequest, TaskResults, WorkerTask } from "./worker-messages.ts";
import { TaskGivenUp, WorkerPool } from "./worker-pool.ts";

export interface TrialsOptions {
  /** Once it is aborted the work is given up: the promise is rejected with its reason at once, the workers are free within a block. */
  readonly signal?: AbortSignal;
  /** How many of the trials were drawn so far. */
  readonly onProgress?: (trials: number) => void;
}

/** One run's trials, from the question to the answer. */
interface Job {
  readonly request: RunTrialsRequest;
  readonly givenUp: Int32Array;
  readonly onProgress: (trials: number) => void;
  readonly resolve: (trials: RunTrials) => void;
  readonly reject: (error: unknown) => void;
}

/** Runs are given a worker each while several wait; the last one is divided among all that are free. More than this do not pay. */
const mostWorkers = 4;
/** Below this many trials a run is not worth dividing. */
const leastDivided = 50 * blockSize;

/**
 * Takes runs whose trials are wanted and has them drawn on worker threads. The results are the same, to the last bit, on any number of
 * workers. The adaptive procedure of one run stays on one worker, for its sequences follow each other.
 */
export class MonteCarloDesk {
  readonly #pool: WorkerPool;
  readonly #waiting: Job[] = [];
  #isCalled = false;

  constructor(workers: number = Math.min(mostWorkers, availableParallelism()), file: URL = trialsWorkerFile()) {
    this.#pool = new WorkerPool(file, workers);
  }

  /** The trials of one run. Ask for all runs of a study at once: they take turns. */
  run(request: RunTrialsRequest, { signal, onProgress }: TrialsOptions = {}): Promise<RunTrials> {
    const givenUp = new Int32Array(new SharedArrayBuffer(4));
    const { promise, resolve, reject } = Promise.withResolvers<RunTrials>();
    if (signal?.aborted === true) {
      reject(signal.reason);
      return promise;
    }
    const giveUp = () => {
      Atomics.store(givenUp, 0, 1);
      reject(signal?.reason);
    };
    signal?.addEventListener("abort", giveUp, { once: true });
    this.#waiting.push({ request, givenUp, onProgress: onProgress ?? (() => {}), resolve, reject });
    this.#callNext();
    return promise.finally(() => signal?.removeEventListener("abort", giveUp));
  }

  /** Ends the workers; what they were at is rejected. */
  async close(): Promise<void> {
    for (const { reject } of this.#waiting.splice(0)) reject(new TaskGivenUp());
    await this.#pool.close();
  }

  /** After what is asked for in this turn has been heard, so that it is known whether a run is alone. */
  #callNext(): void {
    if (this.#isCalled) return;
    this.#isCalled = true;
    queueMicrotask(() => {
      this.#isCalled = false;
      while (this.#pool.free > 0) {
        const job = this.#waiting.shift();
        if (job === undefined) return;
        if (Atomics.load(job.givenUp, 0) !== 0) continue;
        this.#do(job)
          .then(job.resolve, job.reject)
          .finally(() => this.#callNext());
      }
    });
  }

  async #do(job: Job): Promise<RunTrials> {
    const { request, givenUp, onProgress } = job;
    const workers = this.#waiting.length === 0 ? this.#pool.free : 1;
    const isDivided = workers > 1 && request.adaptiveDigits === null && request.trials >= leastDivided;
    return isDivided ? this.#divided(job, workers) : this.#pool.ask({ kind: "whole", request }, givenUp, onProgress);
  }

  async #divided(job: Job, workers: number): Promise<RunTrials> {
    const { request } = job;
    const model = runModel(request.run, request.settings);
    const trials = requestFor(model, request);
    const groups = outputGroups(model, trials);
    const outputs: OutputTrials[] = [];
    for (const [turn, positions] of groups.entries()) {
      const told = (drawn: number) => job.onProgress((turn * request.trials + drawn) / groups.length);
      const found = await this.#dividedGroup({ ...job, onProgress: told }, workers, positions, model);
      for (const [index, position] of positions.entries()) outputs[position] = found[index] as OutputTrials;
    }
    return runTrialsOf(model, { trials: request.trials, seed: request.seed, outputs }, null);
  }

  async #dividedGroup(
    { request, givenUp, onProgress }: Job,
    workers: number,
    positions: readonly number[],
    whole: RunModel,
  ): Promise<OutputTrials[]> {
    const { model, request: trials } = ofOutputs(whole, requestFor(whole, request), positions);
    for (let margin = usualMargin; ; margin *= 4) {
      const stretches = divide(request.trials, workers);
      const drawn = stretches.map(() => 0);
      const parts: TrialsPart[] = await this.#together(
        stretches.map((stretch) => ({ kind: "stretch", request, stretch: { ...stretch, margin }, positions })),
        givenUp,
        (index, more) => {
          drawn[index] = more;
          onProgress(drawn.reduce((sum, one) => sum + one, 0));
        },
      );
      const places = Array.from({ length: outputPlaces(model).varying }, (_, place) => place);
      const shares = divide(places.length * blockSize, workers).map(({ from, to }) =>
        places.slice(from / blockSize, to / blockSize),
      );
      const summaries = await this.#together(
        shares.map((share) => ({
          kind: "summarise",
          confidence: request.confidence,
          outputs: share.map((place) => partsOf(parts, place)),
        })),
        givenUp,
        () => {},
      );
      const outputs = allOf(spreadOutputs(model, trials, summaries.flat()));
      if (outputs !== null) return outputs;
    }
  }

  /** Does several tasks side by side. Where one fails the others are given up. */
  async #together<K extends WorkerTask["kind"]>(
    tasks: readonly Extract<WorkerTask, { kind: K }>[],
    givenUp: Int32Array,
    onProgress: (index: number, trials: number) => void,
  ): Promise<TaskResults[K][]> {
    try {
      return await Promise.all(
        tasks.map((task, index) => this.#pool.ask<K>(task, givenUp, (trials) => onProgress(index, trials))),
      );
    } catch (error) {
      Atomics.store(givenUp, 0, 1);
      throw error;
    }
  }
}

/** Stretches of whole blocks, as equal as may be, that follow each other from 0 to `trials`. */
export function divide(trials: number, parts: number): { from: number; to: number }[] {
  const blocks = Math.ceil(trials / blockSize);
  const bounds = Array.from({ length: parts + 1 }, (_, part) => Math.floor((part * blocks) / parts) * blockSize);
  return bounds
    .slice(1)
    .map((to, part) => ({ from: bounds[part] as number, to: Math.min(to, trials) }))
    .filter(({ from, to }) => to > from);
}
