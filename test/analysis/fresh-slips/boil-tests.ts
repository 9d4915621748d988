import { Chance } from "./chance.ts";

/** One row of an invented readings file: a cell's text by its heading. */
export type Cells = Record<string, string>;

/** An invented file of good runs, and what the slips need to know of how it was made. */
export interface BoilTests {
  readonly rows: Cells[];
  readonly style: Style;
}

/**
 * The way a place works. Ranges are those of published boil tests of open fires, rocket, charcoal and built-in stoves, from memory; every
 * reading is made up for these tests by a model of its own, which shares nothing with the rules or with the other makers of test data.
 */
export interface Style {
  readonly name: string;
  readonly method: "wbt" | "iso";
  readonly stoves: readonly Stove[];
  readonly waterG: number;
  readonly secondPotG: number | null;
  readonly altitudeM: number;
  readonly balanceG: number;
  readonly thermometerC: number;
  readonly clock: "minutes" | "seconds" | "duration";
  readonly boiling: "measured" | "altitude";
  readonly char: "container" | "net" | "charcoal";
  readonly moisturePercent: number;
  readonly moistureScatter: number;
  readonly bundle: "weighed out" | "as it comes";
  readonly runsPerDay: number;
  readonly hasOrder: boolean;
  readonly potWeighedEachRun: boolean;
  readonly scatter: number;
  readonly givesCalorific: boolean;
}

/** A stove by what it does with 5 L of water. */
export interface Stove {
  readonly name: string;
  readonly efficiency: number;
  readonly powerKW: number;
  readonly charShare: number;
  readonly hotGain: number;
  readonly simmerLoss: number;
  readonly simmerPower: number;
}

const stoveKinds: readonly Stove[] = [
  {
    name: "three stones",
    efficiency: 0.17,
    powerKW: 8.5,
    charShare: 0.07,
    hotGain: 1.04,
    simmerLoss: 0.24,
    simmerPower: 0.55,
  },
  {
    name: "sheltered fire",
    efficiency: 0.21,
    powerKW: 7,
    charShare: 0.06,
    hotGain: 1.05,
    simmerLoss: 0.2,
    simmerPower: 0.5,
  },
  {
    name: "rocket elbow",
    efficiency: 0.31,
    powerKW: 4.6,
    charShare: 0.045,
    hotGain: 1.05,
    simmerLoss: 0.13,
    simmerPower: 0.42,
  },
  {
    name: "rocket with skirt",
    efficiency: 0.36,
    powerKW: 4.2,
    charShare: 0.05,
    hotGain: 1.04,
    simmerLoss: 0.15,
    simmerPower: 0.42,
  },
  {
    name: "brick plancha",
    efficiency: 0.15,
    powerKW: 9.5,
    charShare: 0.06,
    hotGain: 1.18,
    simmerLoss: 0.12,
    simmerPower: 0.5,
  },
  {
    name: "mud two-pot",
    efficiency: 0.19,
    powerKW: 8,
    charShare: 0.08,
    hotGain: 1.12,
    simmerLoss: 0.14,
    simmerPower: 0.5,
  },
];
const charcoalKinds: readonly Stove[] = [
  { name: "clay liner", efficiency: 0.3, powerKW: 3, charShare: 0, hotGain: 1.08, simmerLoss: 0.14, simmerPower: 0.5 },
  {
    name: "tin brazier",
    efficiency: 0.24,
    powerKW: 3.3,
    charShare: 0,
    hotGain: 1.05,
    simmerLoss: 0.2,
    simmerPower: 0.6,
  },
  {
    name: "small-grate brazier",
    efficiency: 0.27,
    powerKW: 2.9,
    charShare: 0,
    hotGain: 1.06,
    simmerLoss: 0.16,
    simmerPower: 0.55,
  },
];

/** A style drawn by chance. */
export function drawStyle(chance: Chance): Style {
  const iso = chance.isTrue(0.2);
  const isCharcoal = !iso && chance.isTrue(0.12);
  const kinds = [...(isCharcoal ? charcoalKinds : stoveKinds)].sort(() => chance.unit() - 0.5);
  const waterG = chance.isTrue(0.7) ? 5000 : 2500;
  return {
    name: `${iso ? "iso" : "wbt"}${isCharcoal ? ", charcoal" : ""}`,
    method: iso ? "iso" : "wbt",
    stoves: kinds.slice(0, isCharcoal ? chance.whole(2, 3) : chance.whole(2, 4)),
    waterG,
    secondPotG: chance.isTrue(0.3) ? chance.pick([2500, 2000]) : null,
    altitudeM: chance.pick([0, 40, 320, 850, 1190, 1600, 2100, 2500]),
    balanceG: chance.pick([1, 1, 1, 2, 5, 10]),
    thermometerC: chance.pick([0.1, 0.1, 0.5, 1]),
    clock: chance.pick(["minutes", "minutes", "seconds", "duration"]),
    boiling: chance.pick(["measured", "altitude"]),
    char: isCharcoal ? "charcoal" : chance.pick(["container", "container", "net"]),
    moisturePercent: isCharcoal ? chance.between(4, 7) : chance.between(6, 25),
    moistureScatter: chance.pick([0, 0.2, 0.6, 1]),
    bundle: chance.pick(["weighed out", "as it comes"]),
    runsPerDay: chance.whole(1, 4),
    hasOrder: chance.isTrue(0.5),
    potWeighedEachRun: chance.isTrue(0.5),
    scatter: chance.between(0.05, 0.13),
    givesCalorific: chance.isTrue(0.6),
  };
}

const to = (value: number, step: number): string => {
  const places = step < 1 ? 1 : 0;
  return (Math.round(value / step) * step).toFixed(places);
};

function clockText(seconds: number, style: Style): string {
  const rounded = style.clock === "seconds" ? Math.round(seconds) : Math.round(seconds / 60) * 60;
  const two = (n: number) => String(n).padStart(2, "0");
  const [h, m, s] = [Math.floor(rounded / 3600) % 24, Math.floor(rounded / 60) % 60, rounded % 60];
  return style.clock === "seconds" ? `${two(h)}:${two(m)}:${two(s)}` : `${two(h)}:${two(m)}`;
}

function dateText(day: number): string {
  return new Date(Date.UTC(2024, 1, 5) + day * 86_400_000).toISOString().slice(0, 10);
}

interface Pot {
  emptyG: number;
  waterG: number;
}

/** A file of so many good runs in one style. */
export function boilTests(seed: number, runCount: number, given?: Partial<Style>): BoilTests {
  const chance = new Chance(seed);
  const style = { ...drawStyle(chance), ...given };
  const variants = runCount < 6 ? style.stoves.slice(0, runCount < 3 ? 1 : chance.whole(1, 2)) : style.stoves;
  const pots: Pot[] = [{ emptyG: chance.between(450, 1400), waterG: style.waterG }];
  if (style.secondPotG !== null) pots.push({ emptyG: chance.between(350, 1200), waterG: style.secondPotG });
  const boilingC = 100 - style.altitudeM / 300 + chance.normal(0.1);
  const containerG = chance.between(180, 900);
  const bundleG = chance.between(1.25, 1.8);
  const bundles = new Map<string, number>();
  const rows: Cells[] = [];
  const plan = Array.from({ length: runCount }, (_, index) => variants[index % variants.length]);
  let day = chance.whole(0, 200);
  let now = 0;
  let dayFactor = 1;
  let dayMoisture = style.moisturePercent;
  for (const [index, stove] of plan.entries()) {
    if (stove === undefined) continue;
    if (index % style.runsPerDay === 0) {
      day += chance.pick([1, 1, 1, 2, 3]);
      now = chance.between(7, 9.5) * 3600;
      dayFactor = chance.factor(style.scatter / 3);
      dayMoisture = style.moisturePercent + chance.normal(style.moistureScatter);
    } else now += chance.between(10, 70) * 60;
    const runFactor = chance.factor(style.scatter * 0.6);
    const moisture = dayMoisture + (style.moistureScatter > 0.5 ? chance.normal(0.3) : 0);
    const airC = chance.between(17, 27);
    const waterC = airC - chance.between(0, 4);
    const empties = pots.map((pot) => pot.emptyG + (style.potWeighedEachRun ? chance.normal(1) : 0));
    const waters: number[] = [];
    let hotChar = 0;
    const phases =
      style.method === "wbt" ? ["cold-start", "hot-start", "simmer"] : ["high-power", "medium-power", "low-power"];
    for (const phase of phases) {
      const isSimmer = phase === "simmer";
      const level = phase === "medium-power" ? 0.65 : phase === "low-power" ? 0.4 : isSimmer ? stove.simmerPower : 1;
      const size = Math.sqrt(style.waterG / 5000);
      let efficiency = stove.efficiency * dayFactor * runFactor * chance.factor(style.scatter * 0.7);
      if (phase === "hot-start") efficiency *= stove.hotGain;
      const powerKW = stove.powerKW * level * size * chance.factor(style.scatter);
      const cells: Cells = {
        run: style.hasOrder ? `T${index + 1}` : `${stove.name.slice(0, 3)}-${String(index + 1).padStart(2, "0")}`,
        variant: stove.name,
        phase,
      };
      cells.date = dateText(day);
      if (style.hasOrder) cells.order = String(index + 1);
      let useful = 0;
      let minutes = isSimmer ? 45 : 0;
      for (const [which, pot] of pots.entries()) {
        const begin = isSimmer
          ? (waters[which] ?? 0) - chance.between(0, 12)
          : pot.waterG + chance.normal(pot.waterG * 0.004);
        const gentle = which === 0 ? 1 : chance.between(0.5, 0.75);
        const startC = isSimmer
          ? boilingC - chance.between(0.2, 1.5) * (which === 0 ? 1 : 8)
          : waterC + chance.normal(0.5);
        let endC = isSimmer ? boilingC - chance.between(0.3, 3.2) : boilingC + chance.normal(0.15);
        if (which > 0) endC = isSimmer ? startC - chance.between(0, 4) : startC + (boilingC - startC) * gentle;
        const lostShare = isSimmer
          ? stove.simmerLoss * chance.factor(style.scatter * 1.3) * (which === 0 ? 1 : 0.4)
          : chance.between(0.012, 0.035) * (which === 0 ? 1 : 0.4) * (style.method === "iso" ? 2 : 1);
        const end = begin * (1 - lostShare);
        const warmed = 4.186 * begin * (endC - startC) + 2260 * (begin - end);
        useful += Math.max(0, warmed);
        waters[which] = end;
        const n = which + 1;
        const empty = empties[which] ?? 0;
        cells[`pot${n}_empty_g`] = to(empty, style.balanceG);
        cells[`pot${n}_start_g`] = to(empty + begin, style.balanceG);
        cells[`pot${n}_end_g`] = to(empty + end, style.balanceG);
        cells[`pot${n}_start_C`] = to(startC, style.thermometerC);
        cells[`pot${n}_end_C`] = to(Math.min(endC, boilingC + 0.4), style.thermometerC);
      }
      const calorific = style.char === "charcoal" ? 28_500 : 18_300;
      let released: number;
      if (isSimmer) {
        // what it gives off the simmering water must go through the pot
        const least = useful / Math.min(0.48, efficiency * 1.35);
        released = least * chance.factor(style.scatter);
      } else {
        released = useful / efficiency;
        minutes = released / 1000 / powerKW / 60;
        if (style.method === "iso" && minutes < 30) minutes = 30 + chance.between(0, 3);
      }
      const wet = 1 - moisture / 100;
      const perGram = wet * calorific - (moisture / 100) * 2450;
      const share = stove.charShare * chance.factor(style.scatter * 1.2);
      const fuelG = released / (perGram - share * wet * 29_500);
      const charNow = share * wet * fuelG;
      const step = style.balanceG;
      const key = `${stove.name} ${phase}`;
      let bundle = bundles.get(key) ?? Math.ceil((fuelG * bundleG) / 500) * 500;
      bundles.set(key, bundle);
      while (bundle < fuelG + 40) bundle += 500;
      const begin = style.bundle === "weighed out" ? bundle + chance.normal(8) : fuelG + chance.between(60, 700) * size;
      cells.fuel = style.char === "charcoal" ? "charcoal" : "wood";
      if (style.givesCalorific) cells.net_calorific_kJ_per_kg = String(calorific);
      cells.fuel_start_g = to(begin, step);
      cells.fuel_end_g = to(begin - fuelG, step);
      cells.moisture_wet_percent = moisture.toFixed(1);
      const charStart = isSimmer ? hotChar : 0;
      const charEnd = charNow + charStart * (isSimmer ? chance.between(0.5, 0.9) : 0);
      if (style.char === "container") {
        cells.char_container_g = to(containerG, step);
        cells.char_with_container_g = to(containerG + charEnd, step);
      } else cells.char_g = to(charEnd, step);
      if (phase === "hot-start") hotChar = Number(to(containerG + charEnd, step)) - Number(to(containerG, step));
      cells.char_at_start_g = isSimmer
        ? style.char === "container"
          ? String(hotChar)
          : (rows.at(-1)?.char_g ?? "")
        : "";
      cells.air_C = to(airC, style.thermometerC);
      if (style.boiling === "measured") cells.boiling_C = to(boilingC, style.thermometerC);
      else cells.altitude_m = String(style.altitudeM);
      if (style.clock === "duration") cells.duration_min = isSimmer ? "45" : to(minutes, 1);
      else {
        cells.start = clockText(now, style);
        const simmerOff = isSimmer && style.clock === "seconds" ? chance.between(-15, 20) : 0;
        now += minutes * 60 + simmerOff;
        if (isSimmer && style.clock === "minutes") now = Math.round((now - 2700) / 60) * 60 + 2700;
        cells.end = clockText(now, style);
      }
      now += (phase === "cold-start" || style.method === "iso" ? chance.between(4, 20) : chance.between(2, 6)) * 60;
      if (style.clock === "minutes") now = Math.round(now / 60) * 60;
      rows.push(cells);
    }
  }
  return { rows, style };
}
