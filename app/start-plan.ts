import type { Words } from "../core/index.ts";

/** What a start has to go by. */
export interface StartFacts {
  readonly browserWanted: boolean;
  readonly display: boolean;
  readonly runtimePresent: boolean;
  readonly failedLately: boolean;
  readonly retryWanted: boolean;
}

type Reason = keyof Pick<Words["hosts"], "browserWanted" | "noDisplay" | "runtimeFailedBefore">;

export type StartPlan =
  | { readonly open: "desktop" }
  | { readonly open: "fetch then desktop" }
  | { readonly open: "browser"; readonly because: Reason };

/** Which host a start opens. Decides, and does nothing. */
export function planStart(facts: StartFacts): StartPlan {
  if (facts.browserWanted) return { open: "browser", because: "browserWanted" };
  if (!facts.display) return { open: "browser", because: "noDisplay" };
  if (facts.runtimePresent) return { open: "desktop" };
  if (facts.failedLately && !facts.retryWanted) return { open: "browser", because: "runtimeFailedBefore" };
  return { open: "fetch then desktop" };
}

/** The command that opens an address in the system's own browser, or null where none should be opened. */
export function openCommand(
  platform: string,
  environment: Readonly<Record<string, string | undefined>>,
  display: boolean,
): { readonly command: string; readonly before: readonly string[] } | null {
  if (environment.CI || !display) return null;
  if (platform === "darwin") return { command: "open", before: [] };
  // Not `start`: that is a word of the shell, which would read the address's characters as its own.
  if (platform === "win32") return { command: "rundll32", before: ["url.dll,FileProtocolHandler"] };
  return { command: "xdg-open", before: [] };
}
