import { netAsReceived } from "../fuel/calorific-value.ts";
import { type Arithmetic, mean } from "../numeric/arithmetic.ts";
import type { PhaseQuantityName, RunQuantityName } from "../quantity/quantity-name.ts";
import { isoPhases, type PhaseName } from "../readings/phase.ts";
import { latentHeat } from "../water/latent-heat.ts";
import { fuelEnergy } from "./formula/fuel-energy.ts";
import { isoEfficiencyWithChar, isoEfficiencyWithoutChar } from "./formula/iso-efficiency.ts";
import { isoUsefulEnergy } from "./formula/iso-useful-energy.ts";
import { meanPower } from "./formula/mean-power.ts";
import { all, from, type Outcome, provided } from "./outcome.ts";
import type { PhaseInputs } from "./phase-inputs.ts";
import { ofPhase, type PhaseOutcomes } from "./wbt.ts";

/** The quantities of one phase after ISO 19867-1:2018, composed of the named formulas. */
export function isoPhase<N>(arithmetic: Arithmetic<N>, phase: PhaseName, inputs: PhaseInputs<N>): PhaseOutcomes<N> {
  const { constant, divide, multiply, nominal, subtract } = arithmetic;
  const { pots, fuels, duration, charFormed, charNetCalorific } = inputs;
  const positive = (value: N) => nominal(value) > 0;

  const useful = from([inputs.boilingPoint], (boiling) =>
    isoUsefulEnergy(arithmetic, pots, arithmetic.through(latentHeat, boiling)),
  );
  const asReceived = fuels.map((fuel) =>
    from([fuel.netCalorific, fuel.moisture], (net, moisture) => netAsReceived(arithmetic, net, moisture)),
  );
  const energy = from([all(asReceived)], (values) => fuelEnergy(arithmetic, fuels, values));
  const fed = provided(energy, positive, { code: "noFuelEnergy" });
  const creditedChar = from([fed, charFormed], (fuel, char) => ({ fuel, char }));
  const credited = provided(
    creditedChar,
    ({ fuel, char }) => nominal(subtract(fuel, multiply(char, charNetCalorific))) > 0,
    { code: "noEnergyFromFuel" },
  );

  const outcomes = new Map<PhaseQuantityName, Outcome<N>>([
    ["isoUsefulEnergy", from([useful], (joules) => divide(joules, constant(1000)))],
    [
      "isoEfficiencyWithoutChar",
      from([useful, fed], (joules, fuel) => isoEfficiencyWithoutChar(arithmetic, joules, fuel)),
    ],
    [
      "isoEfficiencyWithChar",
      from([useful, credited], (joules, { fuel, char }) =>
        isoEfficiencyWithChar(arithmetic, joules, fuel, char, charNetCalorific),
      ),
    ],
    ["isoFirepower", from([energy], (joules) => meanPower(arithmetic, joules, duration))],
    ["isoCookingPower", from([useful], (joules) => meanPower(arithmetic, joules, duration))],
  ]);
  // The length of an ISO phase is fixed: only the moment it boiled tells the time to boil.
  if (phase === "high-power" || ((isoPhases as readonly string[]).includes(phase) && inputs.untilBoiled.given)) {
    outcomes.set("timeToBoil", inputs.untilBoiled);
  }
  return outcomes;
}

/**
 * Means over the three power levels of an ISO run. That the plain mean over high, medium and low power is what the targets of
 * ISO/TR 19867-3 rate is from memory; each level is given beside it.
 */
export function isoRun<N>(
  arithmetic: Arithmetic<N>,
  phases: ReadonlyMap<PhaseName, PhaseOutcomes<N>>,
): Map<RunQuantityName, Outcome<N>> {
  const levelMean = (quantity: PhaseQuantityName): Outcome<N> =>
    from([all(isoPhases.map((phase) => ofPhase(phases, phase, quantity)))], (values) => mean(arithmetic, values));
  return new Map<RunQuantityName, Outcome<N>>([
    ["meanIsoEfficiencyWithoutChar", levelMean("isoEfficiencyWithoutChar")],
    ["meanIsoEfficiencyWithChar", levelMean("isoEfficiencyWithChar")],
  ]);
}
