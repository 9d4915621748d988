import type { Door, Refusal, Reply } from "../contract/index.ts";

/** Either end of a channel between two processes: Electron's and Node's message ports both fit. */
export interface Port {
  postMessage(message: unknown): void;
  onMessage(listener: (message: unknown) => void): void;
}

/** The door as seen from another process: the same, except that a preview has to be waited for. */
export interface RemoteDoor extends Omit<Door, "preview"> {
  preview(id: string): Promise<ReturnType<Door["preview"]>>;
}

/** What is called, beside what it is called with: whatever a page sends lies within `with`, and can name no other call. */
type Call = { readonly call: number } & (
  | { readonly what: "ask"; readonly with: unknown }
  | { readonly what: "preview" | "openFile"; readonly with: string }
  | { readonly what: "close" }
);
type Answer = { readonly call: number; readonly value: unknown };

async function carryOut(call: Call, door: Door): Promise<unknown> {
  switch (call.what) {
    case "ask":
      return door.ask(call.with);
    case "preview":
      return door.preview(call.with);
    case "openFile":
      return door.openFile(call.with);
    case "close":
      return door.close();
  }
}

/** The service's end: carries out what arrives. `failed` is answered where the door, against its promise, throws. */
export function serveDoor(port: Port, door: Door, failed: Refusal): void {
  port.onMessage((message) => {
    const call = message as Call;
    const answer = (value: unknown) => port.postMessage({ call: call.call, value } satisfies Answer);
    carryOut(call, door)
      .then(answer)
      .catch(() => answer(call.what === "preview" ? null : failed));
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
  const send = (what: { what: Call["what"]; with?: unknown }, whenLost: unknown): Promise<unknown> =>
    new Promise((done) => {
      if (isLost) {
        done(whenLost);
        return;
      }
      const call = ++calls;
      waiting.set(call, { done, whenLost });
      port.postMessage({ call, ...what });
    });
  return {
    ask: (message) => send({ what: "ask", with: message }, ended) as Promise<Reply>,
    preview: (id) => send({ what: "preview", with: id }, null) as ReturnType<RemoteDoor["preview"]>,
    openFile: (path) => send({ what: "openFile", with: path }, ended) as ReturnType<Door["openFile"]>,
    close: async () => void (await send({ what: "close" }, undefined)),
    lost() {
      isLost = true;
      for (const { done, whenLost } of waiting.values()) done(whenLost);
      waiting.clear();
    },
  };
}
