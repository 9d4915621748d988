"""Monte Carlo of one three-phase run with numpy: what `uncertainty.ts` puts beside the program's own. Reads JSON, prints JSON.

The readings' errors: a rectangle for each reading of balance, thermometer and clock, and one common normal error each for the balance's
gain, the thermometer's offset, the moisture meter, the fuel's and the char's calorific value. Formulas as in the program's methods.
"""

import json
import sys
import time

import numpy as np

given = json.load(sys.stdin)
trials = given["trials"]
phases = given["phases"]
errors = given["errors"]
numbers = np.random.default_rng(given["seed"])

results = {}
kept = trials - int(given["confidence"] * trials + 0.5)


def take(name, values):
    """Mean, standard deviation, symmetric and shortest interval: the tails alone are put in order."""
    parted = np.partition(values, (kept - 1, trials - kept))
    low = np.sort(parted[:kept])
    high = np.sort(parted[trials - kept :])
    rank = (kept + 1) // 2 - 1
    shortest = int(np.argmin(high - low))
    results[name] = (
        values.mean(),
        values.std(ddof=1),
        low[rank],
        high[rank],
        low[shortest],
        high[shortest],
    )
    return values


def read(half_width, value, shared):
    """A reading: its value, the rectangle of its resolution, and the instrument's common error."""
    found = numbers.uniform(value - half_width, value + half_width, trials)
    found += shared
    return found


def latent_heat(temperature):
    """The program's own values at Chebyshev points, as a polynomial: over this range good to rounding."""
    heat = given["latentHeat"]
    place = (temperature - heat["centre"]) / heat["halfWidth"]
    degree = len(heat["points"]) - 1
    powers = np.polynomial.chebyshev.cheb2poly(np.polynomial.chebyshev.chebfit(heat["points"], heat["values"], degree))
    total = np.full(trials, powers[-1])
    for power in powers[-2::-1]:
        total *= place
        total += power
    return total


def study():
    gain = numbers.normal(0, errors["gain"], trials)
    offset = numbers.normal(0, errors["offset"], trials)
    moisture = numbers.normal(given["moisture"], errors["moisture"], trials)
    moisture /= 100
    net = numbers.normal(given["netCalorific"], errors["netCalorific"], trials)
    char_net = numbers.normal(given["charNetCalorific"], errors["charNetCalorific"], trials)

    def weigh(value):
        return read(errors["mass"], value, value * gain)

    def temperature(value):
        return read(errors["temperature"], value, offset)

    def clock(value):
        return numbers.uniform(value - errors["time"], value + errors["time"], trials)

    air = temperature(given["air"])
    boiling = temperature(given["boiling"])
    empty = weigh(given["empty"])
    container = weigh(given["container"])
    per_water = 4.186 * (boiling - air) + 2257
    dry_part = net * (1 - moisture)
    effective = dry_part - moisture * per_water
    received = dry_part - given["latentHeatAsReceived"] * moisture
    heat_of_steam = latent_heat(boiling)
    of_phase = {}

    for phase, row in phases.items():
        name = phase + "."
        fuel = weigh(row["fuelStart"]) - weigh(row["fuelEnd"])
        start_temperature = temperature(row["temperatureStart"])
        rise = temperature(row["temperatureEnd"]) - start_temperature
        pot_start = weigh(row["potStart"])
        pot_end = weigh(row["potEnd"])
        char = weigh(row["char"]) - container
        if row["charAtStart"] is not None:
            # A net value: two weighings, whose difference has the gain.
            char -= weigh(row["charAtStart"]) - read(errors["mass"], 0, 0)
        duration = clock(row["end"]) - clock(row["start"])

        take(name + "fuelConsumedMoist", fuel)
        take(name + "charFormed", char)
        take(name + "effectiveCalorificValue", effective) if phase == "cold-start" else None
        char_energy = char * char_net
        dry_energy = fuel * effective - char_energy
        dry = take(name + "fuelConsumedDryEquivalent", dry_energy / net)
        lost = take(name + "waterEvaporated", pot_start - pot_end)
        water = pot_start - empty
        remaining = take(name + "waterRemaining", pot_end - empty)
        warming = water * rise
        heat = 4.186 * warming + 2260 * lost
        take(name + "heatGainedByWater", heat / 1000)
        released = dry * net
        efficiency = take(name + "thermalEfficiency", heat / released)
        seconds = 60 * duration
        take(name + "burningRate", dry / duration)
        power = take(name + "firepower", released / seconds)
        take(name + "cookingPower", heat / seconds)
        take(name + "duration", duration)
        boiled = remaining
        if phase != "simmer":
            boiled = take(name + "effectiveWaterBoiled", remaining * rise / (boiling - start_temperature))
        specific = take(name + "specificFuelConsumption", 1000 * dry / boiled)
        specific_energy = take(name + "specificEnergyConsumption", specific * net / 1000)
        if phase == "simmer":
            take(name + "lowPowerSpecificEnergyRate", released / (1000 * remaining * duration))
            of_phase[phase] = (specific, specific_energy, duration, power)
        else:
            correction = 75 / rise
            time_corrected = take(name + "timeToBoilCorrected", duration * correction)
            fuel_corrected = take(name + "specificFuelConsumptionCorrected", specific * correction)
            energy_corrected = take(name + "specificEnergyConsumptionCorrected", fuel_corrected * net / 1000)
            of_phase[phase] = (fuel_corrected, energy_corrected, time_corrected, power, efficiency)
        useful = 4.18 * warming + heat_of_steam * lost
        fed = fuel * received
        take(name + "isoUsefulEnergy", useful / 1000)
        take(name + "isoEfficiencyWithoutChar", useful / fed)
        take(name + "isoEfficiencyWithChar", useful / (fed - char_energy))
        take(name + "isoFirepower", fed / seconds)
        take(name + "isoCookingPower", useful / seconds)

    cold, hot, simmer = of_phase["cold-start"], of_phase["hot-start"], of_phase["simmer"]
    take("taskFuel5L", 5 * ((cold[0] + hot[0]) / 2 + simmer[0]))
    take("taskEnergy5L", 5 * ((cold[1] + hot[1]) / 2 + simmer[1]))
    take("taskTime", (cold[2] + hot[2]) / 2 + simmer[2])
    take("highPowerThermalEfficiency", (cold[4] + hot[4]) / 2)
    take("turnDownRatio", hot[3] / simmer[3])


times = []
for _ in range(given["rounds"]):
    results.clear()
    start = time.perf_counter()
    study()
    times.append((time.perf_counter() - start) * 1000)
json.dump({"numpy": np.__version__, "times": times, "results": results}, sys.stdout)
