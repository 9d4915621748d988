/** A worker thread that runs trials: one task at a time, block by block, so that it can be given up between two blocks. */
import { parentPort } from "node:worker_threads";
import { answerTasks } from "./answer-tasks.ts";

if (parentPort !== null) answerTasks(parentPort);
