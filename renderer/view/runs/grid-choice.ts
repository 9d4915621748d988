import type { GridChoice } from "../../../app/contract/index.ts";
import type { Method, PhaseName } from "../../../core/index.ts";
import type { Route } from "../../state/route.ts";

export const onlyNames = ["all", "counting", "leftOut", "questions"] as const;

/** The longest text that rows are looked through for. */
const findLimit = 200;

const methods: Readonly<Record<PhaseName, Method>> = {
  "cold-start": "wbt",
  "hot-start": "wbt",
  simmer: "wbt",
  "high-power": "iso",
  "medium-power": "iso",
  "low-power": "iso",
};
const phaseNames = Object.keys(methods) as PhaseName[];

export const phasesOf = (method: Method): PhaseName[] => phaseNames.filter((phase) => methods[phase] === method);

export const phaseNamed = (name: string | null): PhaseName | null => phaseNames.find((phase) => phase === name) ?? null;

/** Which rows the address asks for; what it does not know is passed over. */
export function choiceOfRoute(route: Route): GridChoice {
  return {
    sort: route.sort === null ? null : { column: route.sort, falling: route.falling === "yes" },
    find: (route.find ?? "").slice(0, findLimit),
    variant: route.ofVariant,
    phase: phaseNamed(route.ofPhase),
    only: onlyNames.find((name) => name === route.only) ?? "all",
  };
}

export const noFilter: Partial<Route> = { find: null, ofVariant: null, ofPhase: null, only: null };

export const isFiltered = ({ find, variant, phase, only }: GridChoice): boolean =>
  find !== "" || variant !== null || phase !== null || only !== "all";
