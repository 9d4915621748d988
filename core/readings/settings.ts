import type { Method } from "./phase.ts";
import type { InstrumentRole } from "./reading.ts";

/** The size of one component of uncertainty, absolute or as a fraction of the reading. */
export type ComponentSize =
  | { readonly standardUncertainty: number }
  | { readonly relativeStandardUncertainty: number }
  | { readonly halfWidth: number }
  | { readonly relativeHalfWidth: number }
  | { readonly expandedUncertainty: number; readonly coverageFactor: number }
  | { readonly relativeExpandedUncertainty: number; readonly coverageFactor: number };

/** One source of error of an instrument or a value (JCGM 100:2008, 4.3). */
export interface UncertaintyComponent {
  readonly name: string;
  readonly distribution: "normal" | "rectangular" | "triangular";
  readonly size: ComponentSize;
  /** independent: new at each reading. shared: one draw for the whole study. */
  readonly kind: "independent" | "shared";
  /**
   * Of the standard uncertainty, where it came from few readings; null: known well. A normal component is drawn as a scaled t with them
   * (JCGM 101:2008, 6.4.9). With the other distributions they say how well the half-width is known (JCGM 100:2008, G.4.2): they count
   * in the effective degrees of freedom alone, and what is drawn stays rectangular or triangular.
   */
  readonly degreesOfFreedom: number | null;
}

/** A time in which a calibration of an instrument is in force, both days counted. */
export interface Calibration {
  /** ISO 8601 dates. `until` null: no end is named. */
  readonly from: string;
  readonly until: string | null;
  /** What the certificate is called: number, laboratory. */
  readonly certificate: string | null;
}

export interface Instrument {
  readonly components: readonly UncertaintyComponent[];
  /** Where the sizes of the components are from: a certificate, a standard, a table. */
  readonly source?: string;
  /** Absent: nothing is said about calibrations. */
  readonly calibrations?: readonly Calibration[];
}

/** A value with what is known of its error. Calorific values: kJ/kg dry. Hydrogen: per cent of the dry fuel. */
export interface ValueWithUncertainty {
  readonly value: number;
  readonly components: readonly UncertaintyComponent[];
}

/** Calorific value of a fuel by name: net, or gross with its hydrogen. */
export interface FuelSettings {
  readonly netCalorific: ValueWithUncertainty | null;
  readonly grossCalorific: ValueWithUncertainty | null;
  readonly hydrogenPercent: ValueWithUncertainty | null;
  /** Where the values are from. */
  readonly source?: string;
}

/** A pot that is used in the study. */
export interface PotSettings {
  readonly name: string;
  /** Empty and dry, without its lid, g. */
  readonly emptyMass: number;
  /** To the brim, L. */
  readonly volume: number | null;
}

/** Where the tests are made. It is offered where a run is recorded; a run's own rows say what holds for it. */
export interface PlaceSettings {
  readonly name: string | null;
  /** Above sea level, m. */
  readonly altitude: number | null;
  /** Air pressure as it usually is there, kPa, not reduced to sea level. */
  readonly pressure: number | null;
}

/** How distributions are propagated by drawing (JCGM 101:2008). */
export interface MonteCarloSettings {
  /** How often the study is drawn; with `adaptive` the most that is drawn. 0: no Monte Carlo, first order alone. */
  readonly trials: number;
  /** Of the generator: the same seed gives the same draws. */
  readonly seed: number;
  /** Stop as soon as the results are stable (JCGM 101:2008, 7.9). Absent: all trials are drawn. */
  readonly adaptive?: true;
}

/** What holds for the whole study. */
export interface Settings {
  readonly method: Method;
  /** 0 < confidence < 1. */
  readonly confidence: number;
  readonly fuels: ReadonlyMap<string, FuelSettings>;
  readonly charNetCalorific: ValueWithUncertainty;
  /** Where the char's value is from. */
  readonly charSource?: string;
  /** A role may name another role, whose instrument it shares. */
  readonly instruments: ReadonlyMap<InstrumentRole, Instrument | { readonly sameAs: InstrumentRole }>;
  readonly monteCarlo: MonteCarloSettings;
  /** Never two of one name. Absent: none is set up. */
  readonly pots?: readonly PotSettings[];
  readonly place?: PlaceSettings;
}

/** Net calorific value of char, kJ/kg, where nothing else is given. WBT 4.2.3's default, from memory. */
export const defaultCharNetCalorific = 29_500;

/** The settings of a study that says nothing. Confidence 0.95 for WBT; 0.90 for ISO (ISO 19867-1:2018, from memory). */
export function defaultSettings(method: Method = "wbt"): Settings {
  return {
    method,
    confidence: method === "iso" ? 0.9 : 0.95,
    fuels: new Map(),
    charNetCalorific: { value: defaultCharNetCalorific, components: [] },
    instruments: new Map(),
    monteCarlo: { trials: 200_000, seed: 1 },
  };
}
