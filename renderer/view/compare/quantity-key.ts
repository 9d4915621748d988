/** "cold-start.thermalEfficiency" → "cold-start"; null for a quantity of the whole run. */
export function phaseOfKey(key: string): string | null {
  const point = key.indexOf(".");
  return point < 0 ? null : key.slice(0, point);
}

/** "cold-start.thermalEfficiency" → "thermalEfficiency". */
export function quantityOfKey(key: string): string {
  return key.slice(key.indexOf(".") + 1);
}
