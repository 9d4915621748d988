import type { MessagePort } from "node:worker_threads";
import { taskInSteps } from "./run-task.ts";
import { buffersIn, type FromWorker, type ToWorker } from "./worker-messages.ts";

/** Milliseconds between two reports of progress. */
const betweenReports = 50;

/** Does the tasks that come in over a port and answers each. */
export function answerTasks(port: MessagePort): void {
  const answer = (message: FromWorker, buffers: ArrayBuffer[] = []) => port.postMessage(message, buffers);
  port.on("message", ({ id, task, givenUp }: ToWorker) => {
    let trials = 0;
    let reported = performance.now();
    const steps = taskInSteps(task, (more) => {
      trials += more;
    });
    try {
      for (;;) {
        if (Atomics.load(givenUp, 0) !== 0) {
          answer({ id, kind: "givenUp" });
          return;
        }
        const { done, value } = steps.next();
        if (done === true) {
          answer({ id, kind: "done", result: value }, buffersIn(value));
          return;
        }
        const now = performance.now();
        if (now - reported < betweenReports) continue;
        reported = now;
        answer({ id, kind: "progress", trials });
      }
    } catch (error) {
      answer({ id, kind: "failed", message: error instanceof Error ? error.message : String(error) });
    }
  });
}
