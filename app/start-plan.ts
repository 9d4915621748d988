import { resolve } from "node:path";
import type { Words } from "../core/index.ts";
import { absolutePath } from "./host/study-path.ts";

const switches = ["--browser", "--no-open", "--retry-desktop"] as const;
type Switch = (typeof switches)[number];

/** What a start was told: its switches, and the one study to open, as a whole path. */
export type StartWish =
  | { readonly kind: "start"; readonly switches: ReadonlySet<Switch>; readonly study: string | null }
  | { readonly kind: "unknownOption"; readonly option: string }
  | { readonly kind: "notStudyFile"; readonly name: string }
  | { readonly kind: "oneStudyOnly" };

/** Reads the parameters of a start; `folder` is where they were written. What follows `--` is a name, however it begins. */
export function readParameters(parameters: readonly string[], folder: string, platform: string): StartWish {
  const given = new Set<Switch>();
  const names: string[] = [];
  let namesOnly = false;
  for (const parameter of parameters) {
    if (namesOnly || !parameter.startsWith("-")) names.push(parameter);
    else if (parameter === "--") namesOnly = true;
    else {
      const known = switches.find((one) => one === parameter);
      if (known === undefined) return { kind: "unknownOption", option: parameter };
      given.add(known);
    }
  }
  const [name] = names;
  if (names.length > 1) return { kind: "oneStudyOnly" };
  if (name === undefined) return { kind: "start", switches: given, study: null };
  const study = absolutePath(name, folder, platform);
  return study === null ? { kind: "notStudyFile", name } : { kind: "start", switches: given, study };
}

/** The folder in which the command was written: npm runs a script in the project's own folder, and says where it was called. */
export function writtenIn(current: string, environment: Readonly<Record<string, string | undefined>>): string {
  const called = environment.npm_lifecycle_event === undefined ? undefined : environment.INIT_CWD;
  return resolve(current, called ?? "");
}

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

/**
 * The command that opens an address in the system's own browser, or null where none should be opened. Other users may read the address,
 * token and all, from the list of processes until the token is used: on Linux it lets in nobody but a program of the same user
 * (app/server/peer.ts), on Windows nobody else can read it, and on macOS `open` is gone in a moment. Not by a page in a file that
 * forwards: packaged browsers (snap, flatpak) may not read the folders that are the user's own, and the guard would have to take a
 * page that is opened from elsewhere.
 */
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
