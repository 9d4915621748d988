import { useSyncExternalStore } from "react";
import type { Refusal, RequestKind } from "../../app/contract/index.ts";
import { type Answer, ask, type NoAnswer, type RequestOf } from "../api.ts";

/** Whether the host answers. `attempt` counts how often somebody has asked to try again. */
export interface HostState {
  readonly trouble: NoAnswer["reason"] | null;
  readonly attempt: number;
}

let state: HostState = { trouble: null, attempt: 0 };
const listeners = new Set<() => void>();

function change(next: HostState): void {
  state = next;
  for (const listener of listeners) listener();
}

/** Asks the host and remembers whether it answered. */
export async function askHost<K extends RequestKind>(message: RequestOf<K>): Promise<Answer<K>> {
  const answer = await ask<K>(message);
  const trouble =
    !answer.ok && (answer.reason === "unreachable" || answer.reason === "shut-out") ? answer.reason : null;
  if (trouble !== state.trouble) change({ ...state, trouble });
  return answer;
}

export const isRefusal = (answer: Answer): answer is Refusal =>
  !answer.ok && (answer.reason === "refused" || answer.reason === "failed");

/** Whatever was waiting for the host asks again. */
export function tryAgain(): void {
  change({ ...state, attempt: state.attempt + 1 });
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

const current = () => state;

export function useHost(): HostState {
  return useSyncExternalStore(subscribe, current);
}
