import type { InstrumentRole } from "./reading.ts";
import type { ComponentSize, UncertaintyComponent } from "./settings.ts";

/** Instruments of which usual errors are known, for who knows nothing better yet. What they are and where the sizes are from: in the words. */
export type StartingValueName =
  | "benchBalance1g"
  | "benchBalance01g"
  | "hangingScale10g"
  | "thermocoupleK01"
  | "thermocoupleK1"
  | "pinMoistureMeter"
  | "ovenDry"
  | "clockSeconds"
  | "clockMinutes"
  | "phoneBarometer"
  | "altitudeFromMap"
  | "altitudeFromPhone"
  | "tableHydrogen";

/** Usual errors of an instrument, to begin with: each is taken over as a whole, and edited then. */
export interface StartingValue {
  readonly name: StartingValueName;
  /** What such an instrument is used for. */
  readonly roles: readonly InstrumentRole[];
  /** In the unit of the roles. */
  readonly components: readonly UncertaintyComponent[];
}

const component = (
  name: string,
  distribution: UncertaintyComponent["distribution"],
  size: ComponentSize,
  kind: UncertaintyComponent["kind"],
): UncertaintyComponent => ({ name, distribution, size, kind, degreesOfFreedom: null });

/** One digit of a display: half of it to either side, anew at each reading (JCGM 100:2008, F.2.2.1). */
const resolution = (digit: number) => component("resolution", "rectangular", { halfWidth: digit / 2 }, "independent");
const gain = (relativeHalfWidth: number) => component("gain", "rectangular", { relativeHalfWidth }, "shared");
const offset = (name: string, halfWidth: number) => component(name, "rectangular", { halfWidth }, "shared");
const normal = (name: string, standardUncertainty: number, kind: UncertaintyComponent["kind"]) =>
  component(name, "normal", { standardUncertainty }, kind);

const weighing = ["fuelBalance", "potBalance"] as const;

/**
 * An uncalibrated thermocouple of type K. The tolerance of class 2, 2.5 °C, is the most that its voltage may be off near boiling water. That
 * voltage is nought where the tip is as warm as the meter, so the error grows with the temperature: it is entered as a gain, 2.5 °C of
 * 100 °C, since an offset would cancel in every rise of temperature. The meter's own error is an offset.
 */
const thermocouple = (digit: number) => [resolution(digit), gain(0.025), offset("meter and its junction", 1)];

/**
 * For balances: the maximum permissible errors in service of OIML R 76-1, twice those on verification, as a share of the load from the
 * lightest load on that each names (the table is in test/readings/starting-values.test.ts). An offset is left out: it cancels.
 *
 * No values for carbon monoxide and particles: what a hood, a sampler and a filter make of them has no common size.
 */
export const startingValues: readonly StartingValue[] = [
  { name: "benchBalance1g", roles: weighing, components: [resolution(1), gain(0.002)] },
  { name: "benchBalance01g", roles: weighing, components: [resolution(0.1), gain(0.001)] },
  { name: "hangingScale10g", roles: weighing, components: [resolution(10), gain(0.005)] },
  { name: "thermocoupleK01", roles: ["thermometer"], components: thermocouple(0.1) },
  { name: "thermocoupleK1", roles: ["thermometer"], components: thermocouple(1) },
  {
    name: "pinMoistureMeter",
    roles: ["moistureMeter"],
    components: [
      resolution(0.1),
      normal("from piece to piece", 1, "independent"),
      normal("species and temperature", 2, "shared"),
    ],
  },
  {
    name: "ovenDry",
    roles: ["moistureMeter"],
    components: [normal("from specimen to lot", 0.5, "independent"), offset("drying", 0.3)],
  },
  {
    name: "clockSeconds",
    roles: ["clock"],
    components: [resolution(1), component("moment", "rectangular", { halfWidth: 3 }, "independent")],
  },
  { name: "clockMinutes", roles: ["clock"], components: [resolution(60)] },
  { name: "phoneBarometer", roles: ["barometer"], components: [resolution(0.01), offset("offset", 0.2)] },
  {
    name: "altitudeFromMap",
    roles: ["altitude"],
    components: [
      component("terrain model", "normal", { expandedUncertainty: 16, coverageFactor: 1.645 }, "shared"),
      normal("air pressure off the standard atmosphere", 50, "shared"),
    ],
  },
  {
    name: "altitudeFromPhone",
    roles: ["altitude"],
    components: [
      normal("satellite fix", 15, "shared"),
      normal("air pressure off the standard atmosphere", 50, "shared"),
    ],
  },
  {
    name: "tableHydrogen",
    roles: ["hydrogen"],
    components: [component("table value", "rectangular", { halfWidth: 0.5 }, "shared")],
  },
];

/** kJ/kg: how far the char's assumed calorific value may be off, as a standard uncertainty. Common practice, no source. */
export const assumedCharUncertainty = 1500;

/** The assumed value of the char's net calorific value with its error; where both are from: in the words. */
export const assumedCharComponents: readonly UncertaintyComponent[] = [
  normal("assumed value", assumedCharUncertainty, "shared"),
];
