import * as v from "valibot";
import { type InstrumentRole, type ReadingDomainName, readingDomainFault } from "../../core/index.ts";
import { readDate } from "./read-time.ts";

/** All roles, in the order in which a settings file is written. */
export const instrumentRoles = [
  "fuelBalance",
  "potBalance",
  "thermometer",
  "moistureMeter",
  "clock",
  "barometer",
  "altitude",
  "hydrogen",
  "co",
  "pm25",
] as const satisfies readonly InstrumentRole[];

/** Names of a component's size; the first three are absolute, the others fractions of the reading. */
export const sizeNames = [
  "standardUncertainty",
  "halfWidth",
  "expandedUncertainty",
  "relativeStandardUncertainty",
  "relativeHalfWidth",
  "relativeExpandedUncertainty",
] as const;

/**
 * What is wrong, as a code that is put into words later. Every schema below gives one in place of the library's own English.
 */
export type SettingsFault =
  | "notAText"
  | "notANumber"
  | "notPositive"
  | "notAFraction"
  | "confidence"
  | "hydrogen"
  | "calorificValue"
  | "trials"
  | "adaptive"
  | "seed"
  | "notAnObject"
  | "notAnArray"
  | "method"
  | "distribution"
  | "kind"
  | "date"
  | "emptyMass"
  | "volume"
  | "altitude"
  | "pressure";

const fault = (code: SettingsFault) => code;

const finite = v.pipe(v.number(fault("notANumber")), v.finite(fault("notANumber")));
/** Far from any error of an instrument, and from where squares and quotients of it leave a computer's numbers. */
const [leastPositive, greatestPositive] = [1e-9, 1e9];
const positive = v.pipe(
  finite,
  v.check((value) => value >= leastPositive && value <= greatestPositive, fault("notPositive")),
);
const fraction = v.pipe(
  finite,
  v.check((value) => value > 0 && value < 1, fault("notAFraction")),
);
const whole = (from: number, to: number, code: SettingsFault) =>
  v.pipe(
    v.number(fault(code)),
    v.check((value) => Number.isSafeInteger(value) && value >= from && value <= to, fault(code)),
  );

export const methodSchema = v.picklist(["wbt", "iso"], fault("method"));
export const confidenceSchema = v.pipe(
  v.number(fault("confidence")),
  // Below one half is the chance of error, not the confidence.
  v.check((value) => value >= 0.5 && value < 1, fault("confidence")),
);
/** 0: no Monte Carlo. */
export const trialsSchema = whole(0, 10_000_000, "trials");
export const adaptiveSchema = v.boolean(fault("adaptive"));
export const seedSchema = whole(0, Number.MAX_SAFE_INTEGER, "seed");
export const positiveSchema = positive;
export const fractionSchema = fraction;
/** kJ/kg, within the limits of the readings. */
export const calorificSchema = v.pipe(
  finite,
  v.check((value) => readingDomainFault("calorificValue", value) === null, fault("calorificValue")),
);
export const hydrogenSchema = v.pipe(
  v.number(fault("hydrogen")),
  // 0.06 for 6 %: no fuel has so little.
  v.check(
    (value) => readingDomainFault("hydrogen", value) === null && (value === 0 || value >= 0.2),
    fault("hydrogen"),
  ),
);

/** A text that says something. */
export const textSchema = v.pipe(
  v.string(fault("notAText")),
  v.check((text) => text.trim() !== "", fault("notAText")),
);
/** A day, ISO 8601, from 1900 on. */
export const dateSchema = v.pipe(
  v.string(fault("date")),
  v.check((text) => text.length === 10 && readDate(text) !== null, fault("date")),
);
const within = (domain: ReadingDomainName, code: SettingsFault) =>
  v.pipe(
    v.number(fault(code)),
    v.check((value) => Number.isFinite(value) && readingDomainFault(domain, value) === null, fault(code)),
  );
/** g */
export const emptyMassSchema = within("positiveMass", "emptyMass");
/** L; nothing that is put on a stove holds more than a cubic metre. */
export const volumeSchema = v.pipe(
  v.number(fault("volume")),
  v.check((value) => value > 0 && value <= 1000, fault("volume")),
);
/** m */
export const altitudeSchema = within("altitude", "altitude");
/** kPa */
export const pressureSchema = within("pressure", "pressure");

/** One component, key by key; which sizes go together is checked by the reader. */
export const componentEntries = {
  name: textSchema,
  distribution: v.picklist(["normal", "rectangular", "triangular"], fault("distribution")),
  kind: v.picklist(["independent", "shared"], fault("kind")),
  degreesOfFreedom: positive,
  standardUncertainty: positive,
  halfWidth: positive,
  expandedUncertainty: positive,
  relativeStandardUncertainty: fraction,
  relativeHalfWidth: fraction,
  relativeExpandedUncertainty: fraction,
  coverageFactor: positive,
};
