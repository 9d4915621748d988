const phases = new Map([
  ["cold-start", "cold start"],
  ["hot-start", "hot start"],
  ["simmer", "simmer"],
  ["high-power", "high power"],
  ["medium-power", "medium power"],
  ["low-power", "low power"],
]);

/** Headings of the readings file that are told in full; fuels and pots by number are put together below. */
const readingNames = new Map([
  ["date", "date"],
  ["start", "start"],
  ["end", "end"],
  ["duration_min", "duration, min"],
  ["boiled_at", "boiled at"],
  ["fuel", "fuel"],
  ["fuel_start_g", "fuel before, g"],
  ["fuel_end_g", "fuel after, g"],
  ["moisture_wet_percent", "moisture, wet basis, %"],
  ["moisture_dry_percent", "moisture, dry basis, %"],
  ["net_calorific_kJ_per_kg", "net calorific value, kJ/kg"],
  ["gross_calorific_kJ_per_kg", "gross calorific value, kJ/kg"],
  ["hydrogen_percent", "hydrogen, %"],
  ["char_container_g", "char container, g"],
  ["char_with_container_g", "container with char, g"],
  ["char_g", "char, g"],
  ["char_at_start_g", "char at start, g"],
  ["char_net_calorific_kJ_per_kg", "char net calorific value, kJ/kg"],
  ["air_C", "air, °C"],
  ["boiling_C", "boiling point, °C"],
  ["pressure_kPa", "pressure, kPa"],
  ["altitude_m", "altitude, m"],
  ["co_g", "carbon monoxide, g"],
  ["pm25_mg", "fine particles, mg"],
  ["lid", "lid"],
  ["wind", "wind"],
  ["humidity_percent", "humidity, %"],
  ["fuel_size_mm", "fuel size, mm"],
  ["deviation", "deviation"],
  ["note", "note"],
]);

const potReadings = new Map([
  ["empty_g", "empty, g"],
  ["start_g", "with water, start, g"],
  ["end_g", "with water, end, g"],
  ["water_start_g", "water, start, g"],
  ["water_end_g", "water, end, g"],
  ["start_C", "water, start, °C"],
  ["end_C", "water, end, °C"],
]);

/** "pot1_start_g" → "pot 1 with water, start, g"; a heading that is not ours stays as it is. */
export function readingName(heading: string): string {
  const known = readingNames.get(heading);
  if (known !== undefined) return known;
  const pot = /^pot([1-4])_(.+)$/.exec(heading);
  const potReading = potReadings.get(pot?.[2] ?? "");
  if (pot !== null && potReading !== undefined) return `pot ${pot[1]} ${potReading}`;
  const fuel = /^fuel([2-4])(?:_(.+))?$/.exec(heading);
  if (fuel !== null) {
    if (fuel[2] === undefined) return `fuel ${fuel[1]}`;
    const ofFuel = readingNames.get(
      fuel[2].startsWith("start") || fuel[2].startsWith("end") ? `fuel_${fuel[2]}` : fuel[2],
    );
    if (ofFuel !== undefined) return `fuel ${fuel[1]}: ${ofFuel.replace(/^fuel /, "")}`;
  }
  return heading;
}

/** "cold-start" → "cold start". */
export const phaseName = (phase: string) => phases.get(phase) ?? phase;
