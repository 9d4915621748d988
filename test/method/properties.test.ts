import fc from "fast-check";
import { describe, it } from "vitest";
import { resultsOf, valuesOf } from "../build/expect-quantities.ts";
import type { PhaseSheet, RunSheet } from "../build/readings.ts";
import { expectNumber } from "../numbers.ts";

/** Relations that follow from the definitions, on random runs that a laboratory could have made. */
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const arbitraryPhase = (phase: PhaseSheet["phase"]) =>
  fc
    .record({
      minutes: between(8, 60),
      net: between(14_000, 21_000),
      wet: between(0, 30),
      consumed: between(200, 2000),
      charShare: between(0.001, 0.25),
      charNet: between(26_000, 33_000),
      air: between(0, 40),
      boiling: between(88, 100),
      water: between(1500, 8000),
      lostShare: between(0.005, 0.4),
      from: between(5, 40),
      missed: between(0, 2),
      co: between(1, 60),
    })
    .map((one): PhaseSheet => {
      const holding = phase === "simmer";
      return {
        phase,
        minutes: one.minutes,
        fuels: [{ before: one.consumed + 300, after: 300, wet: one.wet, net: one.net }],
        char: one.consumed * one.charShare,
        charAtStart: 0,
        charNet: one.charNet,
        air: one.air,
        boiling: one.boiling,
        pots: [
          {
            empty: 700,
            start: 700 + one.water,
            end: 700 + one.water * (1 - one.lostShare),
            from: holding ? one.boiling - 1 : one.from,
            to: one.boiling - one.missed,
          },
        ],
        co: one.co,
      };
    });

const arbitraryRun = fc
  .tuple(arbitraryPhase("cold-start"), arbitraryPhase("hot-start"), arbitraryPhase("simmer"))
  .map((phases): RunSheet => ({ run: "R", variant: "A", phases }));

const close = { relative: 1e-10 };

function read(values: Readonly<Record<string, number>>, name: string): number {
  const value = values[name];
  if (value === undefined) throw new Error(`no ${name}`);
  return value;
}

function netOf(phase: PhaseSheet): number {
  return phase.fuels[0]?.net ?? Number.NaN;
}

/** For every phase of a random run: its sheet and a function that reads its quantities. */
function forEachPhase(check: (sheet: PhaseSheet, of: (name: string) => number) => void): void {
  fc.assert(
    fc.property(arbitraryRun, (run) => {
      const results = resultsOf(run);
      for (const sheet of run.phases) {
        const values = valuesOf(results, sheet.phase);
        check(sheet, (name) => read(values, name));
      }
    }),
  );
}

describe("relations between the quantities of a phase", () => {
  it("efficiency times firepower times time is the heat gained", () => {
    forEachPhase((_, of) => {
      const joules = of("thermalEfficiency") * of("firepower") * 60 * of("duration");
      expectNumber(joules / 1000, of("heatGainedByWater"), close);
    });
  });

  it("burning rate times time is the fuel; fuel times its calorific value is the energy released", () => {
    forEachPhase((sheet, of) => {
      const fuel = of("fuelConsumedDryEquivalent");
      expectNumber(of("burningRate") * of("duration"), fuel, close);
      expectNumber(fuel * netOf(sheet), of("firepower") * 60 * of("duration"), close);
    });
  });

  it("cooking power over firepower is the efficiency, by either method", () => {
    forEachPhase((_, of) => {
      expectNumber(of("cookingPower") / of("firepower"), of("thermalEfficiency"), close);
      expectNumber(of("isoCookingPower") / of("isoFirepower"), of("isoEfficiencyWithoutChar"), close);
    });
  });

  it("specific fuel times water is the fuel; every energy is its fuel times the calorific value", () => {
    forEachPhase((sheet, of) => {
      const boiling = sheet.phase !== "simmer";
      const water = of(boiling ? "effectiveWaterBoiled" : "waterRemaining");
      expectNumber((of("specificFuelConsumption") * water) / 1000, of("fuelConsumedDryEquivalent"), close);
      expectNumber((of("specificFuelConsumption") * netOf(sheet)) / 1000, of("specificEnergyConsumption"), close);
      if (!boiling) {
        // MJ/(min L) * min * L = MJ
        const megajoules = of("lowPowerSpecificEnergyRate") * of("duration") * (water / 1000);
        expectNumber(megajoules * 1000, (of("fuelConsumedDryEquivalent") * netOf(sheet)) / 1000, close);
        return;
      }
      const corrected = of("specificFuelConsumptionCorrected");
      expectNumber((corrected * netOf(sheet)) / 1000, of("specificEnergyConsumptionCorrected"), close);
      expectNumber(of("timeToBoilCorrected") / of("timeToBoil"), corrected / of("specificFuelConsumption"), close);
    });
  });

  it("char formed raises the ISO efficiency where it is credited", () => {
    forEachPhase((sheet, of) => {
      const without = of("isoEfficiencyWithoutChar");
      const ratio = of("isoEfficiencyWithChar") / without;
      if (!(ratio > 1)) throw new Error(`${sheet.phase}: with char ${ratio} times that without`);
    });
  });

  it("emissions: rate times time, per energy times energy, per fuel times fuel all give back what was emitted", () => {
    forEachPhase((sheet, of) => {
      const emitted = sheet.co ?? Number.NaN;
      expectNumber(of("coRate") * of("duration"), emitted, close);
      expectNumber((of("coPerEnergyDelivered") * of("heatGainedByWater")) / 1000, emitted, close);
      expectNumber((of("coPerDryFuel") * of("fuelConsumedDryEquivalent")) / 1000, emitted, close);
      expectNumber((of("coRatePerLitre") * of("waterRemaining") * of("duration")) / 1000, emitted, close);
    });
  });
});

describe("relations between a run and its phases", () => {
  it("means lie halfway, the task is five times the litre's, the turn-down ratio is that of the powers", () => {
    fc.assert(
      fc.property(arbitraryRun, (sheet) => {
        const results = resultsOf(sheet);
        const of = (phase: PhaseSheet["phase"] | "run", name: string) => read(valuesOf(results, phase), name);
        const both = (name: string) => (of("cold-start", name) + of("hot-start", name)) / 2;
        expectNumber(of("run", "highPowerThermalEfficiency"), both("thermalEfficiency"), close);
        expectNumber(of("run", "highPowerCoPerEnergyDelivered"), both("coPerEnergyDelivered"), close);
        const litre = both("specificFuelConsumptionCorrected") + of("simmer", "specificFuelConsumption");
        expectNumber(of("run", "taskFuel5L") / 5, litre, close);
        const energy = both("specificEnergyConsumptionCorrected") + of("simmer", "specificEnergyConsumption");
        expectNumber(of("run", "taskEnergy5L") / 5, energy, close);
        expectNumber(of("run", "taskTime"), both("timeToBoilCorrected") + of("simmer", "duration"), close);
        const powers = of("hot-start", "firepower") / of("simmer", "firepower");
        expectNumber(of("run", "turnDownRatio"), powers, close);
      }),
    );
  });

  it("an ISO run's means are those of its three levels", () => {
    const levels = ["high-power", "medium-power", "low-power"] as const;
    const arbitrary = fc.tuple(arbitraryPhase(levels[0]), arbitraryPhase(levels[1]), arbitraryPhase(levels[2]));
    fc.assert(
      fc.property(arbitrary, (phases) => {
        const results = resultsOf({ run: "R", variant: "A", phases });
        const meanOf = (name: string) =>
          levels.reduce((total, level) => total + read(valuesOf(results, level), name), 0) / 3;
        const run = valuesOf(results, "run");
        expectNumber(run.meanIsoEfficiencyWithoutChar, meanOf("isoEfficiencyWithoutChar"), close);
        expectNumber(run.meanIsoEfficiencyWithChar, meanOf("isoEfficiencyWithChar"), close);
        expectNumber(run.meanCoPerEnergyDelivered, meanOf("coPerEnergyDelivered"), close);
      }),
    );
  });
});

/** The same phase with every mass (not the emissions) times a factor, and every time times another. */
function scaled(sheet: PhaseSheet, mass: number, time: number): PhaseSheet {
  return {
    ...sheet,
    minutes: (sheet.minutes ?? 0) * time,
    fuels: sheet.fuels.map((fuel) => ({ ...fuel, before: fuel.before * mass, after: fuel.after * mass })),
    char: typeof sheet.char === "number" ? sheet.char * mass : 0,
    pots: sheet.pots.map((pot) =>
      "empty" in pot
        ? { ...pot, empty: pot.empty * mass, start: pot.start * mass, end: pot.end * mass }
        : { ...pot, waterStart: pot.waterStart * mass, waterEnd: pot.waterEnd * mass },
    ),
  };
}

describe("scaling a run", () => {
  const scaling = fc.tuple(arbitraryRun, between(0.3, 3), between(0.3, 3));
  /** Power of the mass's factor, and of the time's, with which each quantity goes. */
  const powers: Readonly<Record<string, readonly [number, number]>> = {
    thermalEfficiency: [0, 0],
    isoEfficiencyWithChar: [0, 0],
    isoEfficiencyWithoutChar: [0, 0],
    specificFuelConsumption: [0, 0],
    specificEnergyConsumption: [0, 0],
    effectiveCalorificValue: [0, 0],
    fuelConsumedMoist: [1, 0],
    fuelConsumedDryEquivalent: [1, 0],
    charFormed: [1, 0],
    waterEvaporated: [1, 0],
    waterRemaining: [1, 0],
    heatGainedByWater: [1, 0],
    isoUsefulEnergy: [1, 0],
    duration: [0, 1],
    burningRate: [1, -1],
    firepower: [1, -1],
    cookingPower: [1, -1],
    isoFirepower: [1, -1],
    isoCookingPower: [1, -1],
    coRate: [0, -1],
    coPerEnergyDelivered: [-1, 0],
    coPerDryFuel: [-1, 0],
    coRatePerLitre: [-1, -1],
  };

  it("moves each quantity as its dimension says: efficiencies and consumption per litre stay", () => {
    fc.assert(
      fc.property(scaling, ([run, mass, time]) => {
        const before = resultsOf(run);
        const after = resultsOf({ ...run, phases: run.phases.map((phase) => scaled(phase, mass, time)) });
        for (const { phase } of run.phases) {
          const [one, other] = [valuesOf(before, phase), valuesOf(after, phase)];
          for (const [name, [ofMass, ofTime]] of Object.entries(powers)) {
            const expected = read(one, name) * mass ** ofMass * time ** ofTime;
            expectNumber(read(other, name), expected, { relative: 1e-9 });
          }
        }
        const [one, other] = [valuesOf(before, "run"), valuesOf(after, "run")];
        for (const name of ["taskFuel5L", "taskEnergy5L", "highPowerThermalEfficiency", "turnDownRatio"]) {
          expectNumber(read(other, name), read(one, name), { relative: 1e-9 });
        }
        expectNumber(read(other, "taskTime"), read(one, "taskTime") * time, { relative: 1e-9 });
      }),
    );
  });
});
