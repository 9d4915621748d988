/** What a single number may be, by the kind of reading it is. Units as in the readings file. */
export type ReadingDomainName =
  | "mass"
  | "positiveMass"
  | "moistureWet"
  | "moistureDry"
  | "airTemperature"
  | "waterTemperature"
  | "boilingPoint"
  | "pressure"
  | "altitude"
  | "calorificValue"
  | "hydrogen"
  | "duration"
  | "anyNumber";

export type ReadingDomainRule =
  | "negative-mass"
  | "mass-too-large"
  | "not-positive"
  | "calorific-value-out-of-range"
  | "moisture-out-of-range"
  | "temperature-out-of-range"
  | "pressure-out-of-range"
  | "altitude-out-of-range"
  | "hydrogen-out-of-range"
  | "duration-not-positive"
  | "duration-too-long";

/** Longest phase that is believed, minutes. */
export const longestPhaseMinutes = 720;

interface Limit {
  readonly rule: ReadingDomainRule;
  /** Smallest value; excluded itself where `above` is true. */
  readonly minimum?: number;
  readonly above?: boolean;
  /** Largest value; excluded itself where `below` is true. */
  readonly maximum?: number;
  readonly below?: boolean;
}

const mass: readonly Limit[] = [
  { rule: "negative-mass", minimum: 0 },
  // A tonne.
  { rule: "mass-too-large", maximum: 1_000_000 },
];

/**
 * The limits. Each is wide enough for every laboratory and kitchen: a value beyond it is a slip of the pen or another unit.
 * Boiling point, pressure and altitude span the places where people cook (5100 m: about 83 °C) with room to spare. Calorific
 * values, kJ/kg dry, span what burns: dung and husks have 12 000 to 15 000, hydrogen 141 800 (gross; from memory).
 */
const limits: Readonly<Record<ReadingDomainName, readonly Limit[]>> = {
  mass,
  positiveMass: [...mass, { rule: "not-positive", minimum: 0, above: true }],
  moistureWet: [{ rule: "moisture-out-of-range", minimum: 0, maximum: 100, below: true }],
  moistureDry: [{ rule: "moisture-out-of-range", minimum: 0, maximum: 1000 }],
  airTemperature: [{ rule: "temperature-out-of-range", minimum: -40, maximum: 60 }],
  waterTemperature: [{ rule: "temperature-out-of-range", minimum: -5, maximum: 110 }],
  boilingPoint: [{ rule: "temperature-out-of-range", minimum: 60, maximum: 105 }],
  pressure: [{ rule: "pressure-out-of-range", minimum: 30, maximum: 110 }],
  altitude: [{ rule: "altitude-out-of-range", minimum: -500, maximum: 9000 }],
  calorificValue: [
    { rule: "not-positive", minimum: 0, above: true },
    { rule: "calorific-value-out-of-range", minimum: 5000, maximum: 150_000 },
  ],
  hydrogen: [{ rule: "hydrogen-out-of-range", minimum: 0, maximum: 20 }],
  duration: [
    { rule: "duration-not-positive", minimum: 0, above: true },
    { rule: "duration-too-long", maximum: longestPhaseMinutes },
  ],
  anyNumber: [],
};

export interface ReadingDomainFault {
  readonly rule: ReadingDomainRule;
  readonly minimum: number | null;
  readonly maximum: number | null;
}

/** What is wrong with one number by itself; null where nothing is. A value that is no number has no fault here. */
export function readingDomainFault(domain: ReadingDomainName, value: number): ReadingDomainFault | null {
  for (const limit of limits[domain]) {
    const { minimum, maximum } = limit;
    const tooSmall = minimum !== undefined && (limit.above ? value <= minimum : value < minimum);
    const tooLarge = maximum !== undefined && (limit.below ? value >= maximum : value > maximum);
    if (tooSmall || tooLarge) return { rule: limit.rule, minimum: minimum ?? null, maximum: maximum ?? null };
  }
  return null;
}
