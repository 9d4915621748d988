import { seededGenerator } from "../../../core/numeric/seeded-generator.ts";

/** A row of a readings file: heading and cell. */
export type Row = Record<string, string>;

export interface GoodStudy {
  readonly rows: readonly Row[];
  /** How it was measured, for a message. */
  readonly style: string;
  readonly pots: number;
  readonly weighsAnew: boolean;
  readonly hasChar: boolean;
  readonly isBareTime: boolean;
  readonly variants: readonly string[];
}

export interface Draw {
  normal(mean: number, deviation: number): number;
  between(low: number, high: number): number;
  whole(low: number, high: number): number;
  pick<T>(items: readonly T[]): T;
  chance(share: number): boolean;
}

export function drawFrom(seed: number): Draw {
  const generator = seededGenerator(seed);
  const between = (low: number, high: number) => low + (high - low) * generator.uniform();
  const whole = (low: number, high: number) => Math.floor(between(low, high + 1));
  return {
    // Fires have a bad day now and then, but no fire is ten standard deviations off.
    normal: (mean, deviation) => mean + deviation * Math.max(-3.2, Math.min(3.2, generator.normal())),
    between,
    whole,
    pick: <T>(items: readonly T[]): T => items[whole(0, items.length - 1)] as T,
    chance: (share) => generator.uniform() < share,
  };
}

const clock = (minutes: number) =>
  `${String(Math.floor(minutes / 60) % 24).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
const dateText = (day: number) => new Date(Date.UTC(2025, 3, 7) + day * 86_400_000).toISOString().slice(0, 10);

/** What a laboratory keeps the same through a study: its place, its instruments, its habits. */
function laboratory(draw: Draw) {
  const altitude = draw.whole(0, 30) * 100;
  return {
    volume: draw.pick([5000, 5000, 2500]),
    altitude,
    boiling: 100 - altitude / 300,
    balance: draw.pick([1, 1, 1, 0.1, 2]),
    thermometer: draw.pick([0.1, 0.1, 0.5]),
    pots: draw.pick([1, 1, 1, 2]),
    wood: draw.pick(["anew", "anew", "anew", "goesOn", "bundle"] as const),
    char: draw.pick(["all", "all", "notHot", "net"] as const),
    time: draw.pick(["bare", "bare", "dated", "duration"] as const),
    boilingGiven: draw.pick(["measured", "altitude", "both"] as const),
    moisture: draw.pick(["day", "day", "run", "study"] as const),
    basis: draw.pick(["wet", "wet", "dry"] as const),
    tare: draw.pick(["kept", "kept", "daily"] as const),
    hasBlocks: draw.chance(0.5),
    hasOrder: draw.chance(0.7),
    hasOperator: draw.chance(0.6),
    hasDate: draw.chance(0.85),
    empties: [draw.whole(380, 1250), draw.whole(300, 1100)],
    container: draw.whole(90, 520),
    bundle: draw.pick([600, 800, 1000]),
    woodScatter: draw.between(0.03, 0.12),
    waterScatter: draw.between(0.0006, 0.004),
    efficiencyScatter: draw.between(0.02, 0.06),
    powerScatter: draw.between(0.02, 0.08),
    dayScatter: draw.between(0, 0.03),
    pause: [draw.between(3, 14), draw.between(1, 5)],
    simmerLoss: draw.between(0, 12),
    usualMoisture: draw.between(7, 19),
    air: draw.between(12, 31),
    water: draw.between(14, 26),
  };
}

/** A study in which nothing is wrong, of 5 to 12 runs a variant or as many as are asked for. */
export function goodStudy(seed: number, manyRuns?: number): GoodStudy {
  const draw = drawFrom(seed);
  const lab = laboratory(draw);
  const grams = (value: number) => (Math.round(value / lab.balance) * lab.balance).toFixed(lab.balance < 1 ? 1 : 0);
  const celsius = (value: number) => (Math.round(value / lab.thermometer) * lab.thermometer).toFixed(1);
  const variantCount = draw.whole(1, 4);
  const fewRuns = draw.whole(5, 12);
  const runsEach = manyRuns ?? fewRuns;
  const first = draw.between(0.13, 0.3);
  const variants = Array.from({ length: variantCount }, (_, index) => ({
    name: `stove ${String.fromCharCode(65 + index)}`,
    efficiency: first * (1 + index * draw.between(0.02, 0.16)),
    power: draw.between(3200, 7500),
    char: draw.between(0.05, 0.12),
  }));
  const rows: Row[] = [];
  let order = 0;
  let day = 0;
  const perDay = variantCount > 1 ? variantCount : draw.whole(1, 4);
  const queue = Array.from({ length: runsEach }, () => variants).flat();
  while (order < queue.length) {
    const today = {
      moisture: draw.normal(lab.usualMoisture, 0.7),
      air: draw.normal(lab.air, 2),
      water: draw.normal(lab.water, 0.8),
      effect: Math.exp(draw.normal(0, lab.dayScatter)),
      empties: lab.empties.map((empty) => (lab.tare === "daily" ? draw.normal(empty, 0.8) : empty)),
    };
    let minute = draw.whole(7 * 60, 9 * 60);
    const made = queue.slice(order, order + perDay);
    for (const variant of shuffled(made, draw)) {
      order += 1;
      const run = oneRun({ draw, lab, today, variant, minute, order, day, grams, celsius });
      rows.push(...run.rows);
      minute = run.end + draw.whole(10, 50);
    }
    day += draw.pick([1, 1, 1, 2, 4]);
  }
  const style = `${lab.wood} ${lab.char} ${lab.time} ${lab.moisture} ${lab.tare} pots ${lab.pots} of ${lab.volume}, ${variantCount} x ${runsEach}`;
  const hasChar = lab.char === "all";
  const names = variants.map(({ name }) => name);
  const isBareTime = lab.time === "bare";
  return { rows, style, pots: lab.pots, weighsAnew: lab.wood === "anew", hasChar, isBareTime, variants: names };
}

function shuffled<T>(items: readonly T[], draw: Draw): T[] {
  const left = [...items];
  const order: T[] = [];
  while (left.length > 0) order.push(...left.splice(draw.whole(0, left.length - 1), 1));
  return order;
}

interface Making {
  readonly draw: Draw;
  readonly lab: ReturnType<typeof laboratory>;
  readonly today: { moisture: number; air: number; water: number; effect: number; empties: readonly number[] };
  readonly variant: { name: string; efficiency: number; power: number; char: number };
  readonly minute: number;
  readonly order: number;
  readonly day: number;
  grams(value: number): string;
  celsius(value: number): string;
}

const netCalorific = 18_100;

function oneRun(making: Making): { rows: Row[]; end: number } {
  const { draw, lab, today, variant, order, day, grams, celsius } = making;
  const ownMoisture =
    lab.moisture === "study"
      ? lab.usualMoisture
      : lab.moisture === "run"
        ? draw.normal(today.moisture, 0.3)
        : today.moisture;
  const wet = Math.round(ownMoisture * 10) / 10;
  const written = lab.basis === "wet" ? wet : wet / (1 - wet / 100);
  const efficiency = variant.efficiency * today.effect * Math.exp(draw.normal(0, lab.efficiencyScatter));
  const power = variant.power * Math.exp(draw.normal(0, lab.powerScatter));
  const energyOf = netCalorific * (1 - wet / 100) - (wet / 100) * (4.186 * (lab.boiling - today.air) + 2257);
  const measured = celsius(draw.normal(lab.boiling, 0.08));
  let minute = making.minute;
  let woodLeft = lab.bundle * 6;
  const rows: Row[] = [];
  let hotChar = 0;
  let potsAfter: number[] = [];
  for (const phase of ["cold-start", "hot-start", "simmer"] as const) {
    const simmer = phase === "simmer";
    const share = [1, 0.42];
    const length = simmer ? draw.pick([45, 45, 45, 46, 44]) : 0;
    const waters = Array.from({ length: lab.pots }, (_, index) =>
      simmer ? (potsAfter[index] ?? 0) : lab.volume * (1 + draw.normal(0, lab.waterScatter)),
    );
    const from = waters.map(() => draw.normal(today.water, 0.3));
    const to = waters.map((_, index) =>
      index > 0
        ? draw.normal(lab.boiling - 22, 3)
        : draw.normal(lab.boiling - (simmer ? 1.5 : 0.1), simmer ? 0.5 : 0.12),
    );
    const lost = waters.map((water, index) => {
      const part = simmer
        ? ((variant.power * 0.45 * length * 60 * efficiency) / 2260) * Math.exp(draw.normal(0, 0.06))
        : water * 0.035 * Math.exp(draw.normal(0, 0.1));
      return part * (share[index] ?? 1) * (index > 0 ? 0.5 : 1);
    });
    const start = simmer
      ? waters.map((_, index) => (index > 0 ? (to[index] ?? 0) - 2 : draw.normal(lab.boiling - 1, 0.4)))
      : from;
    const heat = waters.reduce(
      (sum, water, index) =>
        sum + 4.186 * water * (simmer ? 0 : (to[index] ?? 0) - (start[index] ?? 0)) + 2260 * (lost[index] ?? 0),
      0,
    );
    const energy = heat / (efficiency * (phase === "cold-start" ? 0.96 : 1.02));
    const own = simmer ? 0 : power * (phase === "cold-start" ? 1 : 1.06);
    const minutes = simmer ? length : Math.max(6, Math.round(energy / own / 60));
    const wood = energy / energyOf;
    const char = (wood * variant.char + (simmer ? hotChar * 0.6 : 0)) * Math.exp(draw.normal(0, 0.09));
    const burnt = wood + (char * 29_000 * 0.5) / energyOf;
    const before =
      lab.wood === "goesOn"
        ? woodLeft
        : lab.wood === "bundle"
          ? lab.bundle * Math.ceil((burnt * 1.15) / lab.bundle)
          : lab.bundle * Math.ceil((burnt * 1.4) / lab.bundle) * Math.exp(draw.normal(0, lab.woodScatter));
    const row: Row = { run: `T${String(order).padStart(2, "0")}`, variant: variant.name, phase };
    if (lab.hasDate || lab.time === "dated") row.date = dateText(day);
    if (lab.hasOrder) row.order = String(order);
    if (lab.hasBlocks) row.block = `day ${dateText(day).slice(5)}`;
    if (lab.hasOperator) row.operator = day % 3 === 0 ? "operator 2" : "operator 1";
    const stamp = (at: number) =>
      lab.time === "dated" ? `${dateText(day + Math.floor(at / 1440))}T${clock(at)}` : clock(at);
    if (lab.time === "duration") row.duration_min = String(minutes);
    else Object.assign(row, { start: stamp(minute), end: stamp(minute + minutes) });
    const beforeText = grams(before);
    row.fuel = "acacia";
    row.fuel_start_g = beforeText;
    row.fuel_end_g = grams(Number(beforeText) - burnt);
    woodLeft = lab.wood === "goesOn" && Number(row.fuel_end_g) < 1800 ? lab.bundle * 6 : Number(row.fuel_end_g);
    row[`moisture_${lab.basis}_percent`] = written.toFixed(1);
    row.net_calorific_kJ_per_kg = String(netCalorific);
    const charText = grams(char);
    if (lab.char === "net") row.char_g = charText;
    else if (lab.char === "all" || phase !== "hot-start") {
      row.char_container_g = grams(lab.container);
      row.char_with_container_g = grams(Number(grams(lab.container)) + Number(charText));
    }
    if (phase === "hot-start") hotChar = char;
    if (simmer && lab.char !== "notHot") row.char_at_start_g = grams(hotChar);
    row.air_C = celsius(draw.normal(today.air, 0.5));
    if (lab.boilingGiven !== "altitude") row.boiling_C = measured;
    if (lab.boilingGiven !== "measured") row.altitude_m = String(lab.altitude);
    for (const [index, water] of waters.entries()) {
      const pot = `pot${index + 1}`;
      const empty = grams(today.empties[index] ?? 0);
      row[`${pot}_empty_g`] = empty;
      row[`${pot}_start_g`] = grams(Number(empty) + water);
      row[`${pot}_end_g`] = grams(Number(row[`${pot}_start_g`]) - (lost[index] ?? 0));
      row[`${pot}_start_C`] = celsius(start[index] ?? 0);
      row[`${pot}_end_C`] = celsius(Math.max(start[index] ?? 0, to[index] ?? 0) - (simmer ? 0.5 : 0));
    }
    potsAfter = waters.map(
      (water, index) => water - (lost[index] ?? 0) - Math.abs(draw.normal(lab.simmerLoss, lab.simmerLoss / 4)),
    );
    rows.push(row);
    const pause = phase === "cold-start" ? lab.pause[0] : lab.pause[1];
    minute += minutes + Math.max(1, Math.round(draw.normal(pause ?? 5, (pause ?? 5) / 5)));
  }
  return { rows, end: minute };
}
