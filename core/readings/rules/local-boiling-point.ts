import { waterAtAltitude, waterAtPressure } from "../../water/water-properties.ts";
import type { BoilingPointReadings } from "../phase.ts";

/** Local boiling point, °C: as measured, else from pressure, else from altitude; null where none is known. */
export function localBoilingPoint(readings: BoilingPointReadings): number | null {
  if (readings.measured !== null) return readings.measured.value;
  const water =
    readings.pressure !== null
      ? waterAtPressure(readings.pressure.value)
      : readings.altitude !== null
        ? waterAtAltitude(readings.altitude.value)
        : null;
  return water?.ok ? water.boilingPoint : null;
}
