import { compensatedSum } from "../numeric/compensated-sum.ts";
import { type Moments, moments } from "./moments.ts";

/** Moments of one of several groups, its mean to twice the digits: differences of means keep theirs beside a large common offset. */
export interface GroupMoments extends Moments {
  /** True mean of the values minus `mean`, which is rounded; 0 for an empty group. */
  readonly meanRest: number;
}

/** Moments of each group; a RangeError for a value that is not finite. */
export function groupMoments(groups: readonly (readonly number[])[]): GroupMoments[] {
  return groups.map((values) => {
    const all = moments(values);
    const { n, mean } = all;
    if (mean === null) return { ...all, meanRest: 0 };
    return { ...all, meanRest: compensatedSum(values.map((value) => value - mean)) / n };
  });
}

/** Second group's mean minus the first's; both must have one. */
export function meanDifference(first: GroupMoments, second: GroupMoments): number {
  return (second.mean ?? 0) - (first.mean ?? 0) + (second.meanRest - first.meanRest);
}
