import { useCallback, useSyncExternalStore } from "react";
import type { ComparisonChoice, SetUpSubject } from "../../app/contract/index.ts";

/** Pages of a study, each with a divider. */
export const screenNames = ["study", "bench", "runs", "import", "compare", "report"] as const;
/** Those, and the list of studies. */
const allScreens = [...screenNames, "studies"] as const;
export type ScreenName = (typeof allScreens)[number];

/** Where the page is. All of it stands in the address, so that back, forward and reload keep it. */
export interface Route {
  readonly screen: ScreenName;
  /** The open study, as the host named it; null until it is known. */
  readonly study: string | null;
  readonly quantity: string | null;
  readonly variant: string | null;
  readonly baseline: string | null;
  readonly show: "readings" | null;
  readonly phase: string | null;
  readonly sort: string | null;
  readonly falling: "yes" | null;
  readonly run: string | null;
  readonly column: string | null;
  readonly import: string | null;
  /** The run on the Bench, by its item; and the step that is looked at. */
  readonly bench: string | null;
  readonly step: string | null;
  /** Which rows of Runs are shown: in whose cells a text occurs, of a variant, of a phase, those that count or have questions. */
  readonly find: string | null;
  readonly ofVariant: string | null;
  readonly ofPhase: string | null;
  readonly only: string | null;
  /** The part of the set-up that is to be open. */
  readonly setUp: SetUpSubject | null;
}

const start: Route = {
  screen: "study",
  study: null,
  quantity: null,
  variant: null,
  baseline: null,
  show: null,
  phase: null,
  sort: null,
  falling: null,
  run: null,
  column: null,
  import: null,
  bench: null,
  step: null,
  find: null,
  ofVariant: null,
  ofPhase: null,
  only: null,
  setUp: null,
};

/** Reads an address; what it does not know is passed over. */
export function routeOf(hash: string): Route {
  const [path = "", query = ""] = hash.replace(/^#\/?/, "").split("?");
  const parameters = new URLSearchParams(query);
  const text = (key: string) => parameters.get(key);
  return {
    screen: allScreens.find((name) => name === path) ?? start.screen,
    study: /^[\w-]{1,64}$/.test(text("study") ?? "") ? text("study") : null,
    quantity: text("quantity"),
    variant: text("variant"),
    baseline: text("baseline"),
    show: text("show") === "readings" ? "readings" : null,
    phase: text("phase"),
    sort: text("sort"),
    falling: text("falling") === "yes" ? "yes" : null,
    run: text("run"),
    column: text("column"),
    import: text("import"),
    bench: /^\d{1,15}$/.test(text("bench") ?? "") ? text("bench") : null,
    step: text("step"),
    find: text("find"),
    ofVariant: text("ofVariant"),
    ofPhase: text("ofPhase"),
    only: text("only"),
    setUp: /^[A-Za-z]{1,20}$/.test(text("setUp") ?? "") ? (text("setUp") as SetUpSubject) : null,
  };
}

/** Writes an address, leaving out what is not set. */
export function addressOf(route: Route): string {
  const parameters = new URLSearchParams();
  for (const [key, value] of Object.entries(route)) {
    if (key !== "screen" && value !== null) parameters.set(key, value);
  }
  const query = parameters.toString();
  return `#/${route.screen}${query === "" ? "" : `?${query}`}`;
}

/** The address of another screen that keeps what was chosen; a cell that was pointed at is forgotten. */
export function addressOfScreen(route: Route, screen: ScreenName): string {
  return addressOf({ ...route, screen, run: null, column: null, setUp: null });
}

/** The address of a part of the set-up. */
export function addressOfSetUp(route: Route, part: SetUpSubject): string {
  return addressOf({ ...route, screen: "study", setUp: part, run: null, column: null });
}

/** The address of a run on the Bench, at the step where it is. */
export function addressOfRun(route: Route, run: string): string {
  return addressOf({ ...route, screen: "bench", bench: run, step: null, run: null, column: null });
}

/** What is compared, as the contract asks for it. */
export function choiceOf(route: Route): ComparisonChoice {
  return { quantity: route.quantity, variant: route.variant, baseline: route.baseline };
}

function subscribe(listener: () => void): () => void {
  window.addEventListener("hashchange", listener);
  window.addEventListener("popstate", listener);
  return () => {
    window.removeEventListener("hashchange", listener);
    window.removeEventListener("popstate", listener);
  };
}

const currentHash = () => location.hash;

/** `replace`: no new step for the back button. */
export type Go = (change: Partial<Route>, replace?: "replace") => void;

/** The route, and how to change it. */
export function useRoute(): readonly [Route, Go] {
  const hash = useSyncExternalStore(subscribe, currentHash);
  const go = useCallback<Go>((change, replace) => {
    const address = addressOf({ ...routeOf(location.hash), ...change });
    if (address === location.hash) return;
    if (replace === "replace") history.replaceState(null, "", address);
    else history.pushState(null, "", address);
    window.dispatchEvent(new PopStateEvent("popstate"));
  }, []);
  return [routeOf(hash), go];
}

/** Forgets all choices: they were made in another study. */
export const noChoices: Partial<Route> = start;
