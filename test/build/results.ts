import type { RunResults } from "../../core/analysis/run-results.ts";
import { parseKey, type QuantityKey } from "../../core/quantity/quantity-key.ts";
import { buildRun } from "./readings.ts";

/** The key that a text names. */
export function keyOf(text: string): QuantityKey {
  const key = parseKey(text);
  if (key === null) throw new Error(`no quantity ${text}`);
  return key;
}

/** Runs of a variant that came out with these values of one quantity, without the readings behind them. */
export function runsWith(
  variant: string,
  key: QuantityKey,
  values: readonly number[],
  more: { readonly blocks?: readonly string[]; readonly leftOut?: string } = {},
): RunResults[] {
  return values.map((value, index): RunResults => {
    const block = more.blocks?.[index % more.blocks.length];
    const run = buildRun({
      run: `${variant} ${index + 1}`,
      variant,
      phases: [],
      ...(block === undefined ? {} : { block }),
      ...(more.leftOut === undefined ? {} : { leftOut: more.leftOut }),
    });
    const none = { missing: [], notes: [] };
    return key.phase === null
      ? { run, phases: [], values: new Map([[key.quantity, value]]), ...none }
      : {
          run,
          phases: [{ phase: key.phase, values: new Map([[key.quantity, value]]), missing: [] }],
          values: new Map(),
          ...none,
        };
  });
}
