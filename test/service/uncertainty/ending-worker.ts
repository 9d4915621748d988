/** A worker thread that ends in the middle of its first task. */
import { parentPort } from "node:worker_threads";

parentPort?.on("message", () => process.exit(3));
