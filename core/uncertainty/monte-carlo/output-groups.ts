import type { Model } from "../model.ts";
import { keptFraction, type TrialsRequest, usualMargin } from "./run-trials.ts";
import { outputPlaces } from "./used-steps.ts";

/** Bytes of single values that are kept at once. */
const mostKept = 130e6;

/**
 * Positions of a model's outputs in groups, each with its turn of all trials, so that what is kept of them stays within bounds however many
 * trials there are. Draws are the same in each turn. One group, for all that is usual: a million trials of a hundred outputs at 95 %.
 */
export function outputGroups(model: Model, request: TrialsRequest): readonly (readonly number[])[] {
  const { places, varying } = outputPlaces(model);
  const bytes = Math.min(1, 2 * keptFraction(request, usualMargin)) * request.trials * Float64Array.BYTES_PER_ELEMENT;
  const inGroup = Math.max(1, Math.floor(mostKept / bytes));
  const groups = Array.from({ length: Math.max(1, Math.ceil(varying / inGroup)) }, (): number[] => []);
  for (const [position, place] of places.entries()) groups[Math.max(0, Math.floor(place / inGroup))]?.push(position);
  return groups;
}

/** A model and a request of some of its outputs alone, in the order of their positions. */
export function ofOutputs(
  model: Model,
  request: TrialsRequest,
  positions: readonly number[],
): { readonly model: Model; readonly request: TrialsRequest } {
  const { ranges } = request;
  const outputs = positions.map((position) => model.outputs[position] as Model["outputs"][number]);
  const chosen =
    ranges === undefined ? {} : { ranges: positions.map((at) => ranges[at] ?? { lower: null, upper: null }) };
  return { model: { ...model, outputs }, request: { ...request, ...chosen } };
}
