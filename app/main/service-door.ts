import { join } from "node:path";
import { type UtilityProcess, utilityProcess } from "electron";
import type { Refusal } from "../contract/index.ts";
import { type RemoteDoor, remoteDoor } from "./door-over-port.ts";

/**
 * The service in a process of its own, so that neither window nor main process waits for an analysis. Where that process ends, what
 * was asked of it is answered as failed, and the next question starts a new one.
 */
export function startService(serviceName: string, ended: Refusal): RemoteDoor & { stop(): void } {
  let stopped = false;
  let current: UtilityProcess | null = null;
  let door: (RemoteDoor & { lost(): void }) | null = null;

  const running = (): RemoteDoor => {
    if (door !== null) return door;
    const child = utilityProcess.fork(join(import.meta.dirname, "service-process.js"), [], { serviceName });
    const remote = remoteDoor(
      {
        postMessage: (message) => child.postMessage(message),
        onMessage: (listener) => child.on("message", listener),
      },
      ended,
    );
    child.once("exit", () => {
      if (current === child) {
        current = null;
        door = null;
      }
      remote.lost();
    });
    current = child;
    door = remote;
    return remote;
  };

  // At once, so that it is ready by the time the page asks.
  running();
  return {
    ask: async (message) => (stopped ? ended : running().ask(message)),
    preview: async (id) => (stopped ? null : running().preview(id)),
    openFile: async (path) => (stopped ? ended : running().openFile(path)),
    // A process that has ended has nothing open: none is started to be closed.
    close: async () => door?.close(),
    stop() {
      stopped = true;
      current?.kill();
    },
  };
}
