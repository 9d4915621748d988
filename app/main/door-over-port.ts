import type { Door, Refusal, Reply } from "../contract/index.ts";

/** Either end of a channel between two processes: Electron's and Node's message ports both fit. */
export interface Port {
  postMessage(message: unknown): void;
  onMessage(listener: (message: unknown) => void): void;
}

/** The door as seen from another process: the same, except that a preview has to be waited for. */
export interface RemoteDoor {
  ask(message: unknown): Promise<Reply>;
  preview(id: string): Promise<ReturnType<Door["preview"]>>;
}

type Call = { readonly call: number } & ({ readonly ask: unknown } | { readonly preview: string });
type Answer = { readonly call: number; readonly value: unknown };

/** The service's end: carries out what arrives. `failed` is answered where the door, against its promise, throws. */
export function serveDoor(port: Port, door: Door, failed: Refusal): void {
  port.onMessage((message) => {
    const call = message as Call;
    const answer = (value: unknown) => port.postMessage({ call: call.call, value } satisfies Answer);
    if ("preview" in call) answer(door.preview(call.preview));
    else
      door
        .ask(call.ask)
        .then(answer)
        .catch(() => answer(failed));
  });
}

/** The window's end. `lost` is to be called when the other process has ended: everything still waited for is answered. */
export function remoteDoor(port: Port, ended: Refusal): RemoteDoor & { lost(): void } {
  const waiting = new Map<number, { readonly done: (value: unknown) => void; readonly whenLost: unknown }>();
  let calls = 0;
  let isLost = false;
  port.onMessage((message) => {
    const { call, value } = message as Answer;
    waiting.get(call)?.done(value);
    waiting.delete(call);
  });
  const send = (what: { ask: unknown } | { preview: string }, whenLost: unknown): Promise<unknown> =>
    new Promise((done) => {
      if (isLost) {
        done(whenLost);
        return;
      }
      const call = ++calls;
      waiting.set(call, { done, whenLost });
      port.postMessage({ call, ...what } satisfies Call);
    });
  return {
    ask: (message) => send({ ask: message }, ended) as Promise<Reply>,
    preview: (id) => send({ preview: id }, null) as ReturnType<RemoteDoor["preview"]>,
    lost() {
      isLost = true;
      for (const { done, whenLost } of waiting.values()) done(whenLost);
      waiting.clear();
    },
  };
}
