import { type Locale, planRuns, wordsFor } from "../../core/index.ts";
import type { PlanView, Request } from "../contract/index.ts";

/** A plan of runs: numbers, and lines for people. */
export function planView(asked: Extract<Request, { kind: "plan.runs" }>, locale: Locale): PlanView {
  const { kind: _, ...request } = asked;
  const { numbers, sentences } = planRuns(request, locale);
  const words = wordsFor(locale).planning;
  const order = numbers.runOrder?.map(({ order, block, variant }) => words.orderLine(order, block, variant)) ?? [];
  return {
    numbers,
    lines: [...sentences, ...numbers.notes, ...(order.length === 0 ? [] : [words.orderHeading, ...order])],
  };
}
