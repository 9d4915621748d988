import type { Go, Route } from "../../state/route.ts";

/** One run, step by step. */
export function BenchScreen(_props: { route: Route; go: Go }) {
  return null;
}
