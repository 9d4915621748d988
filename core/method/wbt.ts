import { effectiveCalorificValue } from "../fuel/calorific-value.ts";
import { type Arithmetic, mean, sum } from "../numeric/arithmetic.ts";
import type { PhaseQuantityName, RunQuantityName } from "../quantity/quantity-name.ts";
import { isBoilingPhase, isHoldingPhase, type PhaseName } from "../readings/phase.ts";
import { burningRate } from "./formula/burning-rate.ts";
import { effectiveWaterBoiled } from "./formula/effective-water-boiled.ts";
import { equivalentDryFuel } from "./formula/equivalent-dry-fuel.ts";
import { fuelEnergy } from "./formula/fuel-energy.ts";
import { heatGainedByWater } from "./formula/heat-gained-by-water.ts";
import { lowPowerSpecificEnergyRate } from "./formula/low-power-specific-energy-rate.ts";
import { meanPower } from "./formula/mean-power.ts";
import { specificEnergyConsumption } from "./formula/specific-energy-consumption.ts";
import { specificFuelConsumption } from "./formula/specific-fuel-consumption.ts";
import { taskOfFiveLitres } from "./formula/task-of-five-litres.ts";
import { temperatureCorrected } from "./formula/temperature-corrected.ts";
import { thermalEfficiency } from "./formula/thermal-efficiency.ts";
import { all, from, given, missing, type Outcome, provided } from "./outcome.ts";
import type { PhaseInputs } from "./phase-inputs.ts";

export type PhaseOutcomes<N> = ReadonlyMap<PhaseQuantityName, Outcome<N>>;
export type RunOutcomes<N> = ReadonlyMap<RunQuantityName, Outcome<N>>;

/**
 * Every quantity of one phase under the Water Boiling Test protocol, version 4.2.3 (2014), composed of the named formulas.
 * Quantities of boiling phases (cold and hot start) and of holding phases (simmer) appear only there.
 */
export function wbtPhase<N>(
  arithmetic: Arithmetic<N>,
  phase: PhaseName,
  inputs: PhaseInputs<N>,
): Map<PhaseQuantityName, Outcome<N>> {
  const { subtract, multiply, nominal, constant, divide } = arithmetic;
  const { pots, fuels, duration, charFormed, airTemperature, boilingPoint } = inputs;
  const net = fuels[0].netCalorific;
  const positive = (value: N) => nominal(value) > 0;
  const kilojoules = (joules: N) => divide(joules, constant(1000));

  const effectiveValues = fuels.map((fuel) =>
    from([fuel.netCalorific, fuel.moisture, boilingPoint, airTemperature], (lhv, moisture, boiling, air) =>
      effectiveCalorificValue(arithmetic, lhv, moisture, boiling, air),
    ),
  );
  const energy = from([all(effectiveValues)], (values) => fuelEnergy(arithmetic, fuels, values));
  const dryFuel = from([energy, charFormed, net], (fuel, char, lhv) =>
    equivalentDryFuel(arithmetic, fuel, char, inputs.charNetCalorific, lhv),
  );
  const brought = provided(energy, positive, { code: "noFuelEnergy" });
  const burnt = provided(
    from([dryFuel, brought], (fuel) => fuel),
    positive,
    { code: "noEnergyFromFuel" },
  );
  const released = from([dryFuel, net], (fuel, lhv) => multiply(fuel, lhv));
  const remaining = sum(
    arithmetic,
    pots.map((pot) => pot.waterEnd),
  );
  const heat = heatGainedByWater(arithmetic, pots);

  const outcomes = new Map<PhaseQuantityName, Outcome<N>>([
    [
      "fuelConsumedMoist",
      given(
        sum(
          arithmetic,
          fuels.map((fuel) => fuel.consumed),
        ),
      ),
    ],
    ["charFormed", charFormed],
    ["effectiveCalorificValue", effectiveValues[0] ?? missing({ code: "noCalorific", fuel: null })],
    ["fuelConsumedDryEquivalent", dryFuel],
    [
      "waterEvaporated",
      given(
        sum(
          arithmetic,
          pots.map((pot) => pot.waterLost),
        ),
      ),
    ],
    ["waterRemaining", given(remaining)],
    ["heatGainedByWater", given(kilojoules(heat))],
    ["thermalEfficiency", from([burnt, net], (fuel, lhv) => thermalEfficiency(arithmetic, heat, fuel, lhv))],
    ["burningRate", from([dryFuel], (fuel) => burningRate(arithmetic, fuel, duration))],
    ["firepower", from([released], (joules) => meanPower(arithmetic, joules, duration))],
    ["cookingPower", given(meanPower(arithmetic, heat, duration))],
    ["duration", given(duration)],
  ]);

  const perLitre = (water: Outcome<N>) => {
    const specific = from([dryFuel, water], (fuel, mass) => specificFuelConsumption(arithmetic, fuel, mass));
    const specificEnergy = from([specific, net], (fuel, lhv) => specificEnergyConsumption(arithmetic, fuel, lhv));
    outcomes.set("specificFuelConsumption", specific);
    outcomes.set("specificEnergyConsumption", specificEnergy);
    return { specific, specificEnergy };
  };

  if (isBoilingPhase(phase)) {
    const belowBoiling = provided(
      boilingPoint,
      (boiling) => pots.every((pot) => nominal(pot.temperatureStart) < nominal(boiling)),
      { code: "startedAtBoiling" },
    );
    const boiled = from([belowBoiling], (boiling) => effectiveWaterBoiled(arithmetic, pots, boiling));
    const rise = provided(given(subtract(pots[0].temperatureEnd, pots[0].temperatureStart)), positive, {
      code: "noTemperatureRise",
    });
    const corrected = (value: Outcome<N>) =>
      from([value, rise], (number, kelvin) => temperatureCorrected(arithmetic, number, kelvin));
    const left = provided(boiled, () => nominal(remaining) > 0, { code: "noWaterLeft" });
    const { specific } = perLitre(provided(left, positive, { code: "noTemperatureRise" }));
    const specificCorrected = corrected(specific);
    outcomes.set("effectiveWaterBoiled", boiled);
    outcomes.set("timeToBoil", given(duration));
    outcomes.set("timeToBoilCorrected", corrected(given(duration)));
    outcomes.set("specificFuelConsumptionCorrected", specificCorrected);
    outcomes.set(
      "specificEnergyConsumptionCorrected",
      from([specificCorrected, net], (fuel, lhv) => specificEnergyConsumption(arithmetic, fuel, lhv)),
    );
  }
  if (isHoldingPhase(phase)) {
    const water = provided(given(remaining), positive, { code: "noWaterLeft" });
    perLitre(water);
    outcomes.set(
      "lowPowerSpecificEnergyRate",
      from([dryFuel, net, water], (fuel, lhv, mass) =>
        lowPowerSpecificEnergyRate(arithmetic, fuel, lhv, mass, duration),
      ),
    );
  }
  return outcomes;
}

/** A quantity of one phase of a run, or that the phase (or the quantity in it) is missing. */
export function ofPhase<N>(
  phases: ReadonlyMap<PhaseName, PhaseOutcomes<N>>,
  phase: PhaseName,
  quantity: PhaseQuantityName,
): Outcome<N> {
  const outcomes = phases.get(phase);
  if (outcomes === undefined) return missing({ code: "noPhase", phase });
  const outcome = outcomes.get(quantity);
  if (outcome === undefined) throw new RangeError(`${phase} has no ${quantity}`);
  return outcome.given || outcome.phase !== null ? outcome : missing(outcome.because, phase);
}

/**
 * The quantities of a whole run under the Water Boiling Test, from its phases: turn-down ratio (of the hot start's firepower
 * over the simmer's; the choice of the hot start is from memory), high-power efficiency, and the 5-litre task.
 */
export function wbtRun<N>(
  arithmetic: Arithmetic<N>,
  phases: ReadonlyMap<PhaseName, PhaseOutcomes<N>>,
): Map<RunQuantityName, Outcome<N>> {
  const { add, divide, nominal } = arithmetic;
  const of = (phase: PhaseName, quantity: PhaseQuantityName) => ofPhase(phases, phase, quantity);
  const boilingMean = (quantity: PhaseQuantityName) =>
    from([of("cold-start", quantity), of("hot-start", quantity)], (cold, hot) => mean(arithmetic, [cold, hot]));
  const task = (boiling: PhaseQuantityName, holding: PhaseQuantityName) =>
    from([of("cold-start", boiling), of("hot-start", boiling), of("simmer", holding)], (cold, hot, simmer) =>
      taskOfFiveLitres(arithmetic, cold, hot, simmer),
    );
  const simmerPower = provided(of("simmer", "firepower"), (power) => nominal(power) > 0, { code: "noFirepower" });
  return new Map<RunQuantityName, Outcome<N>>([
    ["taskFuel5L", task("specificFuelConsumptionCorrected", "specificFuelConsumption")],
    ["taskEnergy5L", task("specificEnergyConsumptionCorrected", "specificEnergyConsumption")],
    [
      "taskTime",
      from([boilingMean("timeToBoilCorrected"), of("simmer", "duration")], (boiling, simmer) => add(boiling, simmer)),
    ],
    ["highPowerThermalEfficiency", boilingMean("thermalEfficiency")],
    ["turnDownRatio", from([of("hot-start", "firepower"), simmerPower], (hot, simmer) => divide(hot, simmer))],
  ]);
}
