import {
  charMasses,
  digitLess,
  digitMore,
  each,
  exchange,
  exchangedDigits,
  isNoticeable,
  masses,
  neighbourDigit,
  number,
  rowOf,
  runAtRandom,
  type SlipKind,
  shiftDate,
  shiftTime,
  slipped,
  temperatures,
} from "./slip-making.ts";

export const slipKinds: readonly SlipKind[] = [
  {
    name: "pots swapped: empty masses",
    make(rows, draw, { pots }) {
      if (pots < 2 || Math.abs(number(rows[0] ?? {}, "pot1_empty_g") - number(rows[0] ?? {}, "pot2_empty_g")) < 15)
        return null;
      return each(runAtRandom(rows, draw), (row) => exchange(row, "pot1_empty_g", "pot2_empty_g"));
    },
  },
  {
    name: "another pot: one empty mass all through",
    make: (rows, draw) => {
      const other = draw.pick([-1, 1]) * draw.whole(15, 120);
      return each(runAtRandom(rows, draw), (row) => {
        row.pot1_empty_g = String(number(row, "pot1_empty_g") + other);
      });
    },
  },
  {
    name: "missing tare: pot noted without its own mass",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, ["pot1_start_g"]);
      if (row === null) return null;
      const column = draw.pick(["pot1_start_g", "pot1_end_g"]);
      row[column] = String(number(row, column) - number(row, "pot1_empty_g"));
      return row.run ?? null;
    },
  },
  {
    name: "missing tare: both weighings of the pot",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, ["pot1_start_g"]);
      if (row === null) return null;
      for (const column of ["pot1_start_g", "pot1_end_g"]) {
        row[column] = String(number(row, column) - number(row, "pot1_empty_g"));
      }
      return row.run ?? null;
    },
  },
  {
    name: "char container forgotten",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, ["char_with_container_g"]);
      if (row === null) return null;
      if (draw.chance(0.5)) row.char_container_g = "0";
      else row.char_with_container_g = String(number(row, "char_with_container_g") + number(row, "char_container_g"));
      return row.run ?? null;
    },
  },
  {
    name: "kilograms for grams, one cell",
    make: (rows, draw) => slipped(rows, draw, masses, (text) => (Number(text) / 1000).toFixed(3)),
  },
  {
    name: "kilograms for grams, a whole row",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, []);
      if (row === null) return null;
      for (const column of Object.keys(row).filter((name) => name.endsWith("_g"))) {
        row[column] = (number(row, column) / 1000).toFixed(3);
      }
      return row.run ?? null;
    },
  },
  {
    name: "°F for °C",
    make: (rows, draw) => slipped(rows, draw, temperatures, (text) => (Number(text) * 1.8 + 32).toFixed(1)),
  },
  {
    name: "K for °C",
    make: (rows, draw) => slipped(rows, draw, temperatures, (text) => (Number(text) + 273.15).toFixed(1)),
  },
  {
    name: "dry basis for wet, one phase",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, ["moisture_wet_percent"]);
      if (row === null || number(row, "moisture_wet_percent") < 9) return null;
      const wet = number(row, "moisture_wet_percent");
      row.moisture_wet_percent = (wet / (1 - wet / 100)).toFixed(1);
      return row.run ?? null;
    },
  },
  {
    name: "dry basis for wet, a whole run",
    make: (rows, draw, { style }) => {
      const run = runAtRandom(rows, draw, ["moisture_wet_percent"]);
      const wet = number(run[0] ?? {}, "moisture_wet_percent");
      // Where each run has its own moisture, the basis makes less than the runs differ by.
      const isSteady = style.includes(" study ");
      if (!(wet >= 13) || !isSteady) return null;
      return each(run, (row) => {
        row.moisture_wet_percent = (wet / (1 - wet / 100)).toFixed(1);
      });
    },
  },
  {
    name: "column of the other basis",
    make: (rows, draw) => {
      const run = runAtRandom(rows, draw);
      const [from, to] = run[0]?.moisture_wet_percent === undefined ? ["dry", "wet"] : ["wet", "dry"];
      return each(run, (row) => {
        row[`moisture_${to}_percent`] = row[`moisture_${from}_percent`] ?? "";
        row[`moisture_${from}_percent`] = "";
      });
    },
  },
  {
    name: "moisture as a fraction",
    make: (rows, draw) => {
      const column = rows[0]?.moisture_wet_percent === undefined ? "moisture_dry_percent" : "moisture_wet_percent";
      return slipped(rows, draw, [column], (text) => (Number(text) / 100).toFixed(3));
    },
  },
  {
    name: "digits exchanged: wood",
    make: (rows, draw) => slipped(rows, draw, masses.slice(0, 2), exchangedDigits(draw)),
  },
  { name: "digits exchanged: pot", make: (rows, draw) => slipped(rows, draw, masses.slice(2), exchangedDigits(draw)) },
  { name: "digits exchanged: char", make: (rows, draw) => slipped(rows, draw, charMasses, exchangedDigits(draw)) },
  {
    name: "digits exchanged: temperature",
    make: (rows, draw) => slipped(rows, draw, temperatures, exchangedDigits(draw)),
  },
  {
    name: "a neighbouring key: wood, pot, char",
    make: (rows, draw) => slipped(rows, draw, [...masses, ...charMasses], neighbourDigit(draw)),
  },
  {
    name: "a digit too many",
    make: (rows, draw) => slipped(rows, draw, [...masses, ...charMasses, ...temperatures], digitMore(draw)),
  },
  {
    name: "a digit too few",
    make: (rows, draw) => slipped(rows, draw, [...masses, ...charMasses, ...temperatures], digitLess(draw)),
  },
  {
    name: "decimal point moved",
    make: (rows, draw) =>
      slipped(rows, draw, [...masses, ...charMasses, ...temperatures], (text) =>
        String(Number(text) * draw.pick([10, 0.1])),
      ),
  },
  {
    name: "hot start's wood carried over: both weighings",
    make: (rows, draw) => {
      const [cold, hot] = runAtRandom(rows, draw);
      if (cold === undefined || hot === undefined) return null;
      return each([hot], (row) => Object.assign(row, { fuel_start_g: cold.fuel_start_g, fuel_end_g: cold.fuel_end_g }));
    },
  },
  {
    name: "hot start's wood carried over: goes on, others weigh anew",
    make: (rows, draw, { weighsAnew }) => {
      const [cold, hot] = runAtRandom(rows, draw);
      if (!weighsAnew || cold === undefined || hot === undefined) return null;
      return each([hot], (row) => Object.assign(row, { fuel_start_g: cold.fuel_end_g }));
    },
  },
  {
    name: "hot start's wood is the cold start's before",
    make: (rows, draw, { weighsAnew }) => {
      const [cold, hot] = runAtRandom(rows, draw);
      if (!weighsAnew || cold === undefined || hot === undefined) return null;
      if (!isNoticeable(hot, "fuel_start_g", number(cold, "fuel_start_g"))) return null;
      return each([hot], (row) => Object.assign(row, { fuel_start_g: cold.fuel_start_g }));
    },
  },
  {
    name: "end before start",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, ["start", "end"]);
      if (row === null) return null;
      exchange(row, "start", "end");
      return row.run ?? null;
    },
  },
  {
    name: "hour wrong by one: start or end of a phase",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, ["start", "end"]);
      if (row === null) return null;
      const column = draw.pick(["start", "end"]);
      row[column] = shiftTime(row[column] ?? "", draw.pick([-60, 60]));
      return row.run ?? null;
    },
  },
  {
    name: "hour wrong by one: a whole phase",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, ["start", "end"], ["hot-start", "simmer"]);
      if (row === null) return null;
      const by = draw.pick([-60, 60]);
      return each([row], (one) =>
        Object.assign(one, { start: shiftTime(one.start ?? "", by), end: shiftTime(one.end ?? "", by) }),
      );
    },
  },
  {
    name: "hour wrong by twelve: a phase or a run",
    make: (rows, draw) => {
      const run = runAtRandom(rows, draw, ["start", "end"]);
      const some = draw.chance(0.5) ? run : run.slice(1, 2);
      return each(some, (one) =>
        Object.assign(one, { start: shiftTime(one.start ?? "", 720), end: shiftTime(one.end ?? "", 720) }),
      );
    },
  },
  {
    name: "date: another year",
    make: (rows, draw) => {
      const by = draw.pick([-1, 1, 10]);
      return shiftDate(rows, draw, (date) => `${Number(date.slice(0, 4)) + by}${date.slice(4)}`);
    },
  },
  {
    name: "date: another month",
    make: (rows, draw) => {
      const month = draw.pick(["01", "09", "11"]);
      return shiftDate(rows, draw, (date) => `${date.slice(0, 5)}${month}${date.slice(7)}`);
    },
  },
  {
    name: "a row copied from another run",
    make: (rows, draw) => {
      const [from, to] = [rowOf(rows, draw, []), rowOf(rows, draw, [])];
      if (from === null || to === null || from.run === to.run || from.phase !== to.phase) return null;
      const kept = ["run", "variant", "date", "order", "block", "operator", "start", "end"];
      for (const column of Object.keys(from)) if (!kept.includes(column)) to[column] = from[column] ?? "";
      // The later of the two is asked about.
      const runs = rows.map(({ run }) => run);
      return (runs.indexOf(from.run) < runs.indexOf(to.run) ? to.run : from.run) ?? null;
    },
  },
  {
    name: "weighings copied from another run",
    make: (rows, draw) => {
      const [from, to] = [rowOf(rows, draw, []), rowOf(rows, draw, [])];
      if (from === null || to === null || from.run === to.run || from.phase !== to.phase) return null;
      for (const column of ["fuel_start_g", "fuel_end_g", "pot1_start_g", "pot1_end_g"])
        to[column] = from[column] ?? "";
      const runs = rows.map(({ run }) => run);
      return (runs.indexOf(from.run) < runs.indexOf(to.run) ? to.run : from.run) ?? null;
    },
  },
  {
    name: "weighings of the two pots exchanged",
    make: (rows, draw, { pots }) => {
      const row = pots < 2 ? null : rowOf(rows, draw, ["pot2_start_g"]);
      if (row === null || !isNoticeable(row, "pot1_start_g", number(row, "pot2_start_g"))) return null;
      exchange(row, "pot1_start_g", "pot2_start_g");
      exchange(row, "pot1_end_g", "pot2_end_g");
      return row.run ?? null;
    },
  },
  {
    name: "neighbour's column: start and end exchanged",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, []);
      if (row === null) return null;
      const [one, other] = draw.pick([
        ["fuel_start_g", "fuel_end_g"],
        ["pot1_start_g", "pot1_end_g"],
        ["pot1_empty_g", "pot1_end_g"],
        ["char_container_g", "char_with_container_g"],
      ]);
      if (one === undefined || other === undefined || row[other] === undefined) return null;
      exchange(row, one, other);
      return row.run ?? null;
    },
  },
  {
    name: "wood left exchanged between two phases",
    make: (rows, draw) => {
      const [cold, hot, simmer] = runAtRandom(rows, draw);
      const [one, other] = draw.pick([
        [cold, hot],
        [hot, simmer],
      ]);
      if (one === undefined || other === undefined) return null;
      if (!isNoticeable(one, "fuel_end_g", number(other, "fuel_end_g"))) return null;
      if (!isNoticeable(other, "fuel_end_g", number(one, "fuel_end_g"))) return null;
      const [here, there] = [one.fuel_end_g ?? "", other.fuel_end_g ?? ""];
      Object.assign(one, { fuel_end_g: there });
      Object.assign(other, { fuel_end_g: here });
      return one.run ?? null;
    },
  },
  {
    name: "run given to the wrong variant",
    make: (rows, draw, { variants }) => {
      const run = runAtRandom(rows, draw);
      const other = draw.pick(variants);
      if (variants.length < 2 || run[0]?.variant === other) return null;
      return each(run, (row) => {
        row.variant = other;
      });
    },
  },
  {
    name: "wood weighed after adding some",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, []);
      if (row === null) return null;
      const more = Math.round((number(row, "fuel_start_g") - number(row, "fuel_end_g")) * draw.between(0.4, 0.9));
      row.fuel_end_g = String(number(row, "fuel_end_g") + more);
      return row.run ?? null;
    },
  },
  {
    name: "minutes wrong: a digit of the time",
    make: (rows, draw) => {
      const row = rowOf(rows, draw, ["start", "end"]);
      if (row === null) return null;
      const by = draw.pick([-30, -20, 20, 30]);
      row.end = shiftTime(row.end ?? "", by);
      return row.run ?? null;
    },
  },
];
