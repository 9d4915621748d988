import { Worker } from "node:worker_threads";
import { buffersIn, type FromWorker, type TaskResults, type ToWorker, type WorkerTask } from "./worker-messages.ts";

/** The worker thread ended before its task did. */
export class WorkerEnded extends Error {
  override readonly name = "WorkerEnded";
}

/** A task that was given up. */
export class TaskGivenUp extends Error {
  override readonly name = "TaskGivenUp";
}

interface Asked {
  readonly task: WorkerTask;
  readonly givenUp: Int32Array;
  readonly resolve: (result: TaskResults[WorkerTask["kind"]]) => void;
  readonly reject: (error: Error) => void;
  readonly onProgress: (trials: number) => void;
}

interface Member {
  readonly worker: Worker;
  running: (Asked & { readonly id: number }) | null;
  /** Ends the thread where nothing is asked of it for a while. */
  idle: NodeJS.Timeout | null;
}

/** A thread holds tens of megabytes: it is kept for the next question, not for ever. */
const idleMilliseconds = 10_000;

/**
 * Worker threads, one task each at a time; more tasks wait. Threads are started as they are needed, end when they have been idle for a
 * while, and keep the process from ending only while they are at something.
 */
export class WorkerPool {
  readonly most: number;
  readonly #file: URL;
  readonly #members = new Set<Member>();
  readonly #waiting: Asked[] = [];
  #lastId = 0;

  constructor(file: URL, most: number) {
    this.#file = file;
    this.most = most;
  }

  /** How many tasks would begin at once. */
  get free(): number {
    const running = [...this.#members].filter((member) => member.running !== null);
    return this.most - running.length - this.#waiting.length;
  }

  /** Has a task done; the trials in it are handed over. Rejects with {@link TaskGivenUp} after `givenUp` was set, and with {@link WorkerEnded} where the thread ends. */
  ask<K extends WorkerTask["kind"]>(
    task: Extract<WorkerTask, { kind: K }>,
    givenUp: Int32Array,
    onProgress: (trials: number) => void,
  ): Promise<TaskResults[K]> {
    const { promise, resolve, reject } = Promise.withResolvers<TaskResults[WorkerTask["kind"]]>();
    this.#waiting.push({ task, givenUp, resolve, reject, onProgress });
    this.#beginWaiting();
    return promise as Promise<TaskResults[K]>;
  }

  /** Ends all threads; what they were at is rejected. */
  async close(): Promise<void> {
    for (const { reject } of this.#waiting.splice(0)) reject(new TaskGivenUp());
    await Promise.all([...this.#members].map(({ worker }) => worker.terminate()));
  }

  #beginWaiting(): void {
    while (this.#waiting.length > 0) {
      const idle = [...this.#members].find(({ running }) => running === null);
      if (idle === undefined && this.#members.size >= this.most) return;
      const member = idle ?? this.#start();
      const asked = this.#waiting.shift() as Asked;
      if (member.idle !== null) clearTimeout(member.idle);
      this.#lastId += 1;
      const id = this.#lastId;
      member.running = { ...asked, id };
      member.worker.ref();
      member.worker.postMessage(
        { id, task: asked.task, givenUp: asked.givenUp } satisfies ToWorker,
        buffersIn(asked.task),
      );
    }
  }

  #start(): Member {
    // What a task makes is typed arrays; little else is young for long.
    const worker = new Worker(this.#file, { resourceLimits: { maxYoungGenerationSizeMb: 4 } });
    const member: Member = { worker, running: null, idle: null };
    this.#members.add(member);
    worker.on("message", (message: FromWorker) => this.#hear(member, message));
    let fault = "the worker thread ended";
    worker.on("error", (error: unknown) => {
      fault = error instanceof Error ? error.message : String(error);
    });
    worker.on("exit", () => {
      this.#members.delete(member);
      if (member.idle !== null) clearTimeout(member.idle);
      member.running?.reject(new WorkerEnded(fault));
      member.running = null;
      this.#beginWaiting();
    });
    return member;
  }

  #hear(member: Member, message: FromWorker): void {
    const { running } = member;
    if (running === null || running.id !== message.id) return;
    if (message.kind === "progress") {
      running.onProgress(message.trials);
      return;
    }
    member.running = null;
    member.worker.unref();
    member.idle = setTimeout(() => void member.worker.terminate(), idleMilliseconds).unref();
    if (message.kind === "done") running.resolve(message.result);
    else if (message.kind === "givenUp") running.reject(new TaskGivenUp());
    else running.reject(new Error(message.message));
    this.#beginWaiting();
  }
}
