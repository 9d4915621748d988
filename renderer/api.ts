import type { Reply, Request, RequestKind } from "../app/contract/index.ts";

/** What the desktop window puts in the page; absent in a browser. */
declare global {
  interface Window {
    readonly boilbench?: {
      readonly ask: (message: unknown) => Promise<Reply>;
      readonly onStep?: (listener: (way: "undo" | "redo") => void) => void;
    };
  }
}

export type RequestOf<K extends RequestKind> = Extract<Request, { kind: K }>;

/** The host did not answer (`unreachable`), or does not know this page (`shut-out`). The page has the words for both. */
export interface NoAnswer {
  readonly ok: false;
  readonly reason: "unreachable" | "shut-out";
}

export type Answer<K extends RequestKind = RequestKind> = Reply<K> | NoAnswer;

let token: string | null = null;

/**
 * Takes the one-time token out of the address and its history, and leaves the study that stood with it. To be called before
 * anything reads the address.
 */
export function takeEntrance(): void {
  const found = /^#token=([^&]+)(?:&study=([^&]+))?$/.exec(location.hash);
  if (found === null) return;
  const [, given = "", study] = found;
  token = decodeURIComponent(given);
  const address = location.pathname + location.search;
  history.replaceState(null, "", study === undefined ? address : `${address}#/study?study=${study}`);
}

/** Exchanges the token of the address for the host's cookie. */
async function enter(): Promise<void> {
  takeEntrance();
  if (token === null) return;
  await post("/enter", { token });
  token = null;
}

let entered: Promise<void> | null = null;

function post(path: string, body: unknown): Promise<Response> {
  return fetch(path, {
    method: "POST",
    credentials: "same-origin",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });
}

async function askOverHttp(message: Request): Promise<Answer> {
  try {
    entered ??= enter();
    await entered;
  } catch {
    // What was entered for did not arrive: the question itself tells whether the host is there.
  }
  try {
    const response = await post("/ask", message);
    if (response.status === 401 || response.status === 403) return { ok: false, reason: "shut-out" };
    return (await response.json()) as Reply;
  } catch {
    return { ok: false, reason: "unreachable" };
  }
}

/** Asks the host; never throws. This file alone knows that there is more than one kind of host. */
export async function ask<K extends RequestKind>(message: RequestOf<K>): Promise<Answer<K>> {
  const bridge = window.boilbench;
  if (bridge === undefined) return (await askOverHttp(message)) as Answer<K>;
  try {
    return (await bridge.ask(message)) as Reply<K>;
  } catch {
    return { ok: false, reason: "unreachable" };
  }
}

/** Hears the menu's undo and redo, in the desktop window; a browser has none. */
export function onMenuStep(listener: (way: "undo" | "redo") => void): void {
  window.boilbench?.onStep?.(listener);
}
