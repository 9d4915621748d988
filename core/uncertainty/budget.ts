import type { InstrumentRole } from "../readings/reading.ts";
import type { Settings } from "../readings/settings.ts";
import type { Run } from "../readings/study.ts";
import type { Combined } from "./combined.ts";
import type { ErrorOwner, ErrorSource } from "./error-source.ts";
import { firstOrder } from "./first-order.ts";
import { runModel } from "./run-model.ts";

/** What a part of an uncertainty comes from: an instrument, a value of the settings, or what differs from run to run. */
export type BudgetOwner = ErrorOwner | { readonly kind: "scatter" } | { readonly kind: "readings" };

/** One component within a budget's row. */
export interface BudgetComponent {
  /** As the settings call it. */
  readonly name: string;
  readonly isShared: boolean;
  readonly standardUncertainty: number;
  /** Of the result's variance, 0 to 1. */
  readonly share: number;
}

/** One instrument's (or other owner's) part of an uncertainty. */
export interface BudgetRow {
  readonly owner: BudgetOwner;
  /** What the result's standard uncertainty would be with this part alone, in the result's unit. */
  readonly standardUncertainty: number;
  /** Of the result's variance, 0 to 1; those of all rows add up to 1. */
  readonly share: number;
  /** What the result's standard uncertainty would become if this part were halved. */
  readonly whenHalved: number;
  /** The largest first. */
  readonly components: readonly BudgetComponent[];
}

/** What an uncertainty is made of, the largest part first. */
export interface Budget {
  readonly value: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
  readonly rows: readonly BudgetRow[];
  /** Instruments of whose errors nothing is stated: their readings count as exact, and are not included. */
  readonly exactRoles: readonly InstrumentRole[];
}

interface Part {
  readonly owner: BudgetOwner;
  readonly name: string;
  readonly isShared: boolean;
  readonly variance: number;
}

/**
 * The budget of one quantity of one run.
 *
 * @param key text of the quantity's key
 * @returns null where the run has no value of it
 * Source: JCGM 100:2008, 5.1.3 (components u_i(y) of the combined uncertainty), 7.2.7 and H.1.7 (budgets).
 */
export function runBudget(run: Run, settings: Settings, key: string): Budget | null {
  const model = runModel(run, settings);
  const at = model.keys.indexOf(key);
  const output = model.outputs[at];
  if (output === undefined) return null;
  const [result] = firstOrder({ ...model, outputs: [output] });
  if (result === undefined) return null;
  const { value, standardUncertainty, degreesOfFreedom, contributions } = result;
  const parts = model.sources.map(({ owner, component, isShared }, index): Part => {
    return { owner, name: component, isShared, variance: (contributions[index] as number) ** 2 };
  });
  const rows = budgetRows(parts, standardUncertainty);
  return { value, standardUncertainty, degreesOfFreedom, rows, exactRoles: model.exactRoles };
}

/** The budget of a mean or a difference: scatter between runs beside the errors that the runs share. */
export function combinedBudget(value: number, combined: Combined, exactRoles: readonly InstrumentRole[] = []): Budget {
  const { standardUncertainty, degreesOfFreedom, shared, scatterUncertainty, independentUncertainty } = combined;
  const parts: Part[] = [
    { owner: { kind: "scatter" }, name: "", isShared: false, variance: scatterUncertainty ** 2 },
    { owner: { kind: "readings" }, name: "", isShared: false, variance: independentUncertainty ** 2 },
    ...shared.map(({ source, contribution }): Part => {
      return { owner: source.owner, name: source.component, isShared: true, variance: contribution ** 2 };
    }),
  ];
  return { value, standardUncertainty, degreesOfFreedom, rows: budgetRows(parts, standardUncertainty), exactRoles };
}

/** Less than this of the variance is what rounding leaves of errors that cancel, as a balance's gain does in a ratio of two masses. */
const leastShare = 1e-20;

function budgetRows(parts: readonly Part[], standardUncertainty: number): BudgetRow[] {
  const total = standardUncertainty ** 2;
  const byOwner = Map.groupBy(
    parts.filter(({ variance }) => variance > leastShare * total),
    ({ owner }) => ownerText(owner),
  );
  return [...byOwner.values()]
    .map((ofOwner): BudgetRow => {
      const [{ owner }] = ofOwner as [Part];
      const variance = sum(ofOwner);
      const components = [...Map.groupBy(ofOwner, ({ name, isShared }) => `${isShared}/${name}`).values()]
        .map((same): BudgetComponent => {
          const [{ name, isShared }] = same as [Part];
          return { name, isShared, standardUncertainty: Math.sqrt(sum(same)), share: sum(same) / total };
        })
        .toSorted((one, other) => other.share - one.share);
      // Half the uncertainty is a quarter of the variance.
      const whenHalved = Math.sqrt(Math.max(0, total - 0.75 * variance));
      const own = Math.sqrt(variance);
      return { owner, standardUncertainty: own, share: variance / total, whenHalved, components };
    })
    .toSorted((one, other) => other.share - one.share);
}

function sum(parts: readonly Part[]): number {
  return parts.reduce((total, { variance }) => total + variance, 0);
}

/** A text that names an owner: equal for the same one. */
export function ownerText(owner: BudgetOwner | ErrorSource["owner"]): string {
  switch (owner.kind) {
    case "instrument":
      return `instrument:${owner.role}`;
    case "setting":
      return `setting:${owner.setting}`;
    case "scatter":
    case "readings":
      return owner.kind;
  }
}
