import fc from "fast-check";
import {
  defaultSettings,
  type FuelEntry,
  type FuelSettings,
  type Instrument,
  type InstrumentRole,
  type Phase,
  type PhaseName,
  type PhaseTiming,
  type Reading,
  type Run,
  type Settings,
  type Study,
  type UncertaintyComponent,
  type ValueWithUncertainty,
} from "../../core/index.ts";
import { isoPhases, wbtPhases } from "../../core/readings/phase.ts";

/** Texts that have broken files before: formulas, apostrophes, line breaks, quotation marks, names of object properties. */
const awkwardTexts = [
  "=1+1",
  "+49",
  "-5",
  "@cmd",
  "'",
  "''quoted",
  "\ttab",
  "\rreturn",
  " blank in front",
  "two\nlines",
  "two\r\nlines",
  "lone\rreturn",
  'say "hot"',
  '"',
  "a;b,c",
  "__proto__",
  "constructor",
  "<script>alert(1)</script>",
  "\u202eright to left",
  "日本語 🔥",
  "NaN",
  "1,5",
];

/** What a file can hold in a text cell: not empty, no blanks at its end. */
export const cellText = fc.oneof(
  fc.constantFrom(...awkwardTexts),
  fc
    .string({ unit: "grapheme", minLength: 1, maxLength: 10 })
    .filter((text) => text === text.trimEnd() && text !== "" && !text.includes("\0")),
);

const number = (min: number, max: number) =>
  fc.oneof(
    fc.double({ min, max, noNaN: true, noDefaultInfinity: true }).map((value) => value + 0),
    fc.integer({ min: Math.ceil(min), max: Math.floor(max) }),
  );
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null });
const milliseconds = (from: number, to: number) => fc.integer({ min: from * 60_000, max: to * 60_000 });

/** One phase in plain values, from which readings with their identities are made. */
const plainPhase = fc.record({
  timing: fc.oneof(
    fc.record({
      written: fc.constantFrom("time", "dateTime", "utcDateTime"),
      gap: milliseconds(0, 1000),
      // Up to just under the limit of 12 hours.
      length: fc.oneof(milliseconds(1, 719), fc.integer({ min: 1, max: 999 })),
      boiled: maybe(fc.double({ min: 0, max: 1, noNaN: true })),
    }),
    fc.record({ minutes: number(0.001, 720) }),
  ),
  fuels: fc.array(
    fc.record({
      fuel: cellText,
      burned: number(50, 2000),
      left: number(0, 2000),
      moisture: fc.record({ basis: fc.constantFrom("wet" as const, "dry" as const), percent: number(0, 45) }),
      calorific: maybe(
        fc.oneof(
          fc.record({ kind: fc.constant("net" as const), value: number(10_000, 25_000) }),
          fc.record({
            kind: fc.constant("gross" as const),
            value: number(15_000, 25_000),
            hydrogen: maybe(number(0, 8)),
          }),
        ),
      ),
    }),
    { minLength: 1, maxLength: 4 },
  ),
  fuelIsNamed: fc.boolean(),
  char: maybe(fc.record({ container: maybe(number(0, 400)), mass: number(0, 5) })),
  charAtStart: maybe(number(0, 100)),
  charCalorific: maybe(number(20_000, 33_000)),
  air: maybe(number(-40, 60)),
  boiling: maybe(number(90, 105)),
  pressure: maybe(number(80, 110)),
  altitude: maybe(number(-500, 2000)),
  pots: fc.array(
    fc.record({
      empty: maybe(number(1, 3000)),
      water: number(25, 8000),
      lost: fc.double({ min: 0, max: 1, noNaN: true }),
      cold: number(-5, 40),
      hot: number(40, 95),
    }),
    { minLength: 1, maxLength: 4 },
  ),
  co: maybe(number(0, 100)),
  pm25: maybe(number(0, 5000)),
  lid: maybe(cellText),
  wind: maybe(cellText),
  humidity: maybe(cellText),
  size: maybe(cellText),
  deviation: maybe(cellText),
  note: maybe(cellText),
  others: fc.subarray(["smell", "Wetter (Notiz)", "=cmd", "__proto__", "logger, channel 1"]),
  other: cellText,
});
type PlainPhase = typeof plainPhase extends fc.Arbitrary<infer T> ? T : never;

const plainRun = fc.record({
  variant: cellText,
  iso: fc.boolean(),
  has: fc.subarray([0, 1, 2], { minLength: 1 }),
  phases: fc.tuple(plainPhase, plainPhase, plainPhase),
  sameAir: fc.boolean(),
  firstStart: fc.integer({ min: 0, max: 86_399_999 }),
  date: fc.integer({ min: 0, max: 40_000 }).map((day) => new Date(day * 86_400_000).toISOString().slice(0, 10)),
  dated: fc.boolean(),
  order: maybe(number(-5, 500)),
  block: maybe(cellText),
  operator: maybe(cellText),
  // A reason is at least a word: "-" or "no" is refused.
  leftOut: maybe(cellText.map((text) => `smoke ${text}`)),
  factors: fc.subarray(["skirt", "Gap width", "__proto__", "=x"]),
  level: cellText,
});
type PlainRun = typeof plainRun extends fc.Arbitrary<infer T> ? T : never;

/** Makes one run. One value of one thing in a run is one reading, as the layout has it. */
function makeRun(name: string, plain: PlainRun, index: number): Run {
  let count = 0;
  const known = new Map<string, Reading>();
  const own = (value: number): Reading => {
    count += 1;
    return { id: `r${index}.${count}`, value };
  };
  const shared = (what: string, value: number): Reading => {
    const reading = known.get(`${what} ${value}`) ?? own(value);
    known.set(`${what} ${value}`, reading);
    return reading;
  };
  const maybeShared = (what: string, value: number | null) => (value === null ? null : shared(what, value));
  const maybeOwn = (value: number | null) => (value === null ? null : own(value));
  const has = plain.has.toSorted();
  const needsDate = ({ timing }: PlainPhase) => "written" in timing && timing.written !== "time";
  const isDated = plain.dated || has.some((at) => needsDate(plain.phases[at as 0]));

  let clock = plain.firstStart;
  let isFirst = true;
  const makeTiming = ({ timing }: PlainPhase, name: PhaseName): { timing: PhaseTiming; boiledAt: Reading | null } => {
    if ("minutes" in timing) return { timing: { kind: "duration", minutes: own(timing.minutes) }, boiledAt: null };
    const start = isFirst ? clock : clock + timing.gap;
    isFirst = false;
    const end = start + timing.length;
    clock = end;
    const boiledAt =
      timing.boiled === null || !name.endsWith("power")
        ? null
        : own(Math.round(start + timing.boiled * timing.length) / 60_000);
    const written = timing.written as "time" | "dateTime" | "utcDateTime";
    return { timing: { kind: "clock", start: own(start / 60_000), end: own(end / 60_000), written }, boiledAt };
  };
  const makeFuels = ({ fuels, fuelIsNamed }: PlainPhase): FuelEntry[] => {
    const entries: FuelEntry[] = [];
    for (const [at, plainFuel] of fuels.entries()) {
      const { burned, left, moisture, calorific } = plainFuel;
      const fuel = at === 0 && !fuelIsNamed ? null : plainFuel.fuel;
      const key = fuel === null ? "unnamed" : `named ${fuel}`;
      const same = entries.find((entry) => entry.fuel === fuel && entry.calorific !== null);
      entries.push({
        fuel,
        massBefore: own(burned + left),
        massAfter: own(left),
        moisture: { basis: moisture.basis, percent: shared(`moisture ${moisture.basis} ${key}`, moisture.percent) },
        calorific:
          calorific === null
            ? (same?.calorific ?? null)
            : calorific.kind === "net"
              ? { kind: "net", value: shared(`net ${key}`, calorific.value) }
              : {
                  kind: "gross",
                  value: shared(`gross ${key}`, calorific.value),
                  hydrogenPercent: maybeShared(`hydrogen ${key}`, calorific.hydrogen),
                },
      });
    }
    return entries;
  };
  const phases: Phase[] = has.map((at) => {
    const phase = plain.phases[at as 0];
    const name = (plain.iso ? isoPhases : wbtPhases)[at as 0];
    const { timing, boiledAt } = makeTiming(phase, name);
    const { char } = phase;
    const air = plain.sameAir ? plain.phases[0].air : phase.air;
    return {
      id: `${index}/${name}`,
      phase: name,
      timing,
      boiledAt,
      fuels: makeFuels(phase),
      char:
        char === null
          ? null
          : char.container === null
            ? { kind: "net", mass: own(char.mass) }
            : {
                kind: "weighed",
                container: shared("container", char.container),
                withContainer: own(char.container + char.mass),
              },
      charAtStart: maybeOwn(phase.charAtStart),
      charCalorific: maybeShared("char calorific", phase.charCalorific),
      airTemperature: maybeShared("air", air),
      boilingPoint: {
        measured: maybeShared("boiling", phase.boiling),
        pressure: maybeShared("pressure", phase.pressure),
        altitude: maybeShared("altitude", phase.altitude),
      },
      pots: phase.pots.map(({ empty, water, lost, cold, hot }, position) => ({
        pot: (position + 1) as 1,
        masses:
          empty === null
            ? { kind: "net", waterStart: own(water), waterEnd: own(water * lost) }
            : {
                kind: "weighed",
                empty: shared(`pot ${position}`, empty),
                start: own(empty + water),
                end: own(empty + water * lost),
              },
        temperatureStart: own(cold),
        temperatureEnd: own(hot),
      })),
      carbonMonoxide: maybeOwn(phase.co),
      particulateMatter: maybeOwn(phase.pm25),
      conditions: {
        lid: phase.lid,
        wind: phase.wind,
        humidityPercent: phase.humidity,
        fuelSizeMillimetres: phase.size,
        deviation: phase.deviation,
        note: phase.note,
        others: phase.others.map((heading) => ({ heading, text: phase.other })),
      },
      sourceRow: null,
    };
  });
  return {
    id: String(index),
    name,
    variant: plain.variant,
    method: plain.iso ? "iso" : "wbt",
    date: isDated ? plain.date : null,
    order: plain.order,
    block: plain.block,
    operator: plain.operator,
    factors: new Map(plain.factors.map((factor) => [factor, plain.level])),
    leftOut: plain.leftOut,
    phases,
  };
}

const positive = number(0.001, 1000).filter((value) => value > 0);
const fraction = fc.double({ min: 1e-6, max: 0.5, noNaN: true });
const size = fc.oneof(
  fc.record({ standardUncertainty: positive }),
  fc.record({ relativeStandardUncertainty: fraction }),
  fc.record({ expandedUncertainty: positive, coverageFactor: positive }),
  fc.record({ relativeExpandedUncertainty: fraction, coverageFactor: positive }),
);
const boundedSize = fc.oneof(size, fc.record({ halfWidth: positive }), fc.record({ relativeHalfWidth: fraction }));
const componentName = fc.oneof(fc.constantFrom("gain", "__proto__"), cellText).filter((name) => name.trim() !== "");
const component: fc.Arbitrary<UncertaintyComponent> = fc
  .oneof(
    fc.record({ distribution: fc.constant("normal" as const), size }),
    fc.record({ distribution: fc.constantFrom("rectangular" as const, "triangular" as const), size: boundedSize }),
  )
  .chain((shape) =>
    fc.record({
      name: componentName,
      distribution: fc.constant(shape.distribution),
      size: fc.constant(shape.size),
      kind: fc.constantFrom("independent" as const, "shared" as const),
      degreesOfFreedom: maybe(positive),
    }),
  );
const components = fc.array(component, { maxLength: 3 });
const value = (min: number, max: number): fc.Arbitrary<ValueWithUncertainty> =>
  fc.record({ value: number(min, max), components });
const fuelSettings: fc.Arbitrary<FuelSettings> = fc.oneof(
  fc.record({
    netCalorific: value(10_000, 25_000),
    grossCalorific: fc.constant(null),
    hydrogenPercent: maybe(value(1, 20)),
  }),
  fc.record({
    netCalorific: fc.constant(null),
    grossCalorific: value(15_000, 25_000),
    hydrogenPercent: maybe(value(1, 8)),
  }),
);
const roles: readonly InstrumentRole[] = ["fuelBalance", "thermometer", "clock", "co", "pm25", "hydrogen"];

/** Settings as a file can hold them; a role may share another's instrument. */
export const settings: fc.Arbitrary<Settings> = fc
  .record({
    method: fc.constantFrom("wbt" as const, "iso" as const),
    confidence: fc.double({ min: 0.5, max: 0.999, noNaN: true }),
    fuels: fc.array(fc.tuple(cellText, fuelSettings), { maxLength: 3 }),
    charNetCalorific: value(20_000, 33_000),
    instruments: fc.array(fc.tuple(fc.constantFrom(...roles), components), { maxLength: 4 }),
    sharedPotBalance: fc.boolean(),
    trials: fc.integer({ min: 0, max: 10_000_000 }),
    seed: fc.maxSafeNat(),
    isAdaptive: fc.boolean(),
    source: fc.option(cellText, { nil: undefined }),
  })
  .map((plain) => {
    const instruments = new Map<InstrumentRole, Instrument | { readonly sameAs: InstrumentRole }>(
      plain.instruments.map(([role, components]) => [
        role,
        { components, ...(plain.source === undefined ? {} : { source: plain.source }) },
      ]),
    );
    if (plain.sharedPotBalance && instruments.has("fuelBalance"))
      instruments.set("potBalance", { sameAs: "fuelBalance" });
    return {
      method: plain.method,
      confidence: plain.confidence,
      fuels: new Map(plain.fuels),
      charNetCalorific: plain.charNetCalorific,
      ...(plain.source === undefined ? {} : { charSource: plain.source }),
      instruments,
      monteCarlo: { trials: plain.trials, seed: plain.seed, ...(plain.isAdaptive ? { adaptive: true as const } : {}) },
    };
  });

/** Studies as files can hold them. */
export const study: fc.Arbitrary<Study> = fc
  .record({
    names: fc.uniqueArray(cellText, { minLength: 1, maxLength: 4 }),
    runs: fc.array(plainRun, { minLength: 4, maxLength: 4 }),
  })
  .map(({ names, runs }) => ({
    name: "study",
    settings: defaultSettings(),
    runs: names.map((name, index) => makeRun(name, runs[index] as PlainRun, index)),
  }));

/** A study with identifiers numbered by first appearance and without source rows: equal where readings are shared alike. */
export function withoutNames(runs: readonly Run[]): unknown {
  const numbers = new Map<string, number>();
  const plain = (input: unknown): unknown => {
    if (input instanceof Map) return new Map([...input].map(([key, inner]) => [key, plain(inner)]));
    if (Array.isArray(input)) return input.map(plain);
    if (typeof input !== "object" || input === null) return input;
    return Object.fromEntries(
      Object.entries(input).map(([key, inner]) => {
        if (key === "sourceRow") return [key, null];
        // Which of two unknown columns stands first has no meaning.
        if (key === "others" && Array.isArray(inner)) {
          return [key, inner.toSorted((left, right) => (left.heading < right.heading ? -1 : 1))];
        }
        if (key !== "id" || typeof inner !== "string") return [key, plain(inner)];
        if (!numbers.has(inner)) numbers.set(inner, numbers.size);
        return [key, numbers.get(inner)];
      }),
    );
  };
  return plain(runs);
}
