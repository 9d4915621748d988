import { type Arithmetic, mean } from "../numeric/arithmetic.ts";
import type { PhaseQuantityName, RunQuantityName } from "../quantity/quantity-name.ts";
import { isoPhases, type Method, type PhaseName } from "../readings/phase.ts";
import {
  emissionPerDryFuel,
  emissionPerEnergyDelivered,
  emissionRate,
  emissionRatePerLitre,
} from "./formula/emission-rates.ts";
import { all, from, type Outcome, provided } from "./outcome.ts";
import type { PhaseInputs } from "./phase-inputs.ts";
import { ofPhase, type PhaseOutcomes } from "./wbt.ts";

interface EmissionNames {
  readonly perEnergyDelivered: PhaseQuantityName;
  readonly rate: PhaseQuantityName;
  readonly ratePerLitre: PhaseQuantityName;
  readonly perDryFuel: PhaseQuantityName;
}

const carbonMonoxide: EmissionNames = {
  perEnergyDelivered: "coPerEnergyDelivered",
  rate: "coRate",
  ratePerLitre: "coRatePerLitre",
  perDryFuel: "coPerDryFuel",
};
const particulateMatter: EmissionNames = {
  perEnergyDelivered: "pm25PerEnergyDelivered",
  rate: "pm25Rate",
  ratePerLitre: "pm25RatePerLitre",
  perDryFuel: "pm25PerDryFuel",
};

/**
 * Emissions of one phase, only where they were measured. "Delivered" is the heat gained by the water for a Water Boiling Test,
 * the useful energy for an ISO run. Dry fuel is the equivalent dry fuel consumed.
 */
export function emissionsOfPhase<N>(
  arithmetic: Arithmetic<N>,
  method: Method,
  inputs: PhaseInputs<N>,
  others: PhaseOutcomes<N>,
): PhaseOutcomes<N> {
  // Most runs measured none: nothing is made ready for them.
  if (!inputs.carbonMonoxide.given && !inputs.particulateMatter.given) return new Map();
  const { constant, multiply, nominal } = arithmetic;
  const positive = (value: N) => nominal(value) > 0;
  const of = (quantity: PhaseQuantityName): Outcome<N> => {
    const outcome = others.get(quantity);
    if (outcome === undefined) throw new RangeError(`no ${quantity}`);
    return outcome;
  };
  const delivered = from(
    [
      provided(of(method === "wbt" ? "heatGainedByWater" : "isoUsefulEnergy"), positive, {
        code: "noHeatGained",
      }),
    ],
    (kilojoules) => multiply(kilojoules, constant(1000)),
  );
  const water = provided(of("waterRemaining"), positive, { code: "noWaterLeft" });
  const fuel = provided(of("fuelConsumedDryEquivalent"), positive, { code: "noEnergyFromFuel" });
  const outcomes = new Map<PhaseQuantityName, Outcome<N>>();
  for (const [names, emitted] of [
    [carbonMonoxide, inputs.carbonMonoxide],
    [particulateMatter, inputs.particulateMatter],
  ] as const) {
    if (!emitted.given) continue;
    const mass = emitted.value;
    outcomes.set(
      names.perEnergyDelivered,
      from([delivered], (joules) => emissionPerEnergyDelivered(arithmetic, mass, joules)),
    );
    outcomes.set(
      names.rate,
      from([], () => emissionRate(arithmetic, mass, inputs.duration)),
    );
    outcomes.set(
      names.ratePerLitre,
      from([water], (grams) => emissionRatePerLitre(arithmetic, mass, inputs.duration, grams)),
    );
    outcomes.set(
      names.perDryFuel,
      from([fuel], (grams) => emissionPerDryFuel(arithmetic, mass, grams)),
    );
  }
  return outcomes;
}

/** Means of emissions per energy delivered over the high-power phases (WBT) or all levels (ISO), where any phase measured them. */
export function emissionsOfRun<N>(
  arithmetic: Arithmetic<N>,
  method: Method,
  phases: ReadonlyMap<PhaseName, PhaseOutcomes<N>>,
): Map<RunQuantityName, Outcome<N>> {
  const averaged: readonly PhaseName[] = method === "wbt" ? ["cold-start", "hot-start"] : isoPhases;
  const names: readonly [PhaseQuantityName, RunQuantityName][] =
    method === "wbt"
      ? [
          ["coPerEnergyDelivered", "highPowerCoPerEnergyDelivered"],
          ["pm25PerEnergyDelivered", "highPowerPm25PerEnergyDelivered"],
        ]
      : [
          ["coPerEnergyDelivered", "meanCoPerEnergyDelivered"],
          ["pm25PerEnergyDelivered", "meanPm25PerEnergyDelivered"],
        ];
  const outcomes = new Map<RunQuantityName, Outcome<N>>();
  for (const [ofPhases, ofRun] of names) {
    if (!averaged.some((phase) => phases.get(phase)?.has(ofPhases))) continue;
    const levels = averaged.map((phase): Outcome<N> => {
      const outcomes = phases.get(phase);
      if (outcomes === undefined || outcomes.has(ofPhases)) return ofPhase(phases, phase, ofPhases);
      const what = ofPhases === "coPerEnergyDelivered" ? "carbonMonoxide" : "particulateMatter";
      return { given: false, because: { code: "notMeasured", what }, phase };
    });
    outcomes.set(
      ofRun,
      from([all(levels)], (values) => mean(arithmetic, values)),
    );
  }
  return outcomes;
}
