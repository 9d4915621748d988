import type { Settings } from "./settings.ts";

/** True where the settings state any error of an instrument, fuel or char. */
export function statesErrors(settings: Settings): boolean {
  const values = [...settings.fuels.values()].flatMap((fuel) => [
    fuel.netCalorific,
    fuel.grossCalorific,
    fuel.hydrogenPercent,
  ]);
  return (
    [...settings.instruments.values()].some((one) => "sameAs" in one || one.components.length > 0) ||
    settings.charNetCalorific.components.length > 0 ||
    values.some((value) => value !== null && value.components.length > 0)
  );
}
