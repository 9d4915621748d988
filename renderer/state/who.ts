import { createContext, use, useSyncExternalStore } from "react";

/** Under which name this window writes; the last one of any window is proposed to the next. */
const place = "boilbench.who";
const listeners = new Set<() => void>();
/** Kept here too where the browser keeps nothing. */
let chosen: string | null = null;

function read(storage: () => Storage): string | null {
  try {
    return storage().getItem(place);
  } catch {
    return null;
  }
}

/** False where nothing can be kept: then the name lasts as long as the page. */
function write(storage: () => Storage, name: string): boolean {
  try {
    storage().setItem(place, name);
    return true;
  } catch {
    return false;
  }
}

const ofWindow = () => sessionStorage;
const ofMachine = () => localStorage;

export function whoIsWriting(): string | null {
  return read(ofWindow) ?? chosen;
}

/** The name that was used last on this machine. */
export function proposedWho(): string {
  return whoIsWriting() ?? read(ofMachine) ?? "";
}

export function chooseWho(name: string): void {
  chosen = write(ofWindow, name) ? null : name;
  write(ofMachine, name);
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function useWho(): string | null {
  return useSyncExternalStore(subscribe, whoIsWriting);
}

export interface AskWho {
  /** The name of who is writing; asks for it where none was picked. Null: it was not told. */
  readonly ask: () => Promise<string | null>;
  /** Asks for another name. */
  readonly change: () => Promise<string | null>;
}

export const AskWhoContext = createContext<AskWho>({
  ask: () => Promise.resolve(whoIsWriting()),
  change: () => Promise.resolve(whoIsWriting()),
});

export function useAskWho(): AskWho {
  return use(AskWhoContext);
}
