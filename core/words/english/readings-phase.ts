/** What cannot be within one phase. Numbers come formatted, in the units of the readings file. */
export const phaseProblems = {
  endBeforeStart: () => "The phase ends before it starts. Correct the dates and times.",
  noTimePassed: () => "Start and end are the same, so no time passed. Correct one of them.",
  tooLong: ({ hours, pastMidnight }: { hours: string; pastMidnight: boolean }) =>
    `From start to end are ${hours} hours, and no phase lasts more than 12.${
      pastMidnight ? " (An end before the start was taken to be past midnight.)" : ""
    } Correct one of the two.`,
  boiledOutside: () => "The time of boiling (boiled_at) is not between the start and the end of the phase. Correct it.",
  fuelGained: ({ before, after }: { before: string; after: string }) =>
    `There is more fuel after the phase (${after} g) than before it (${before} g). Were the two swapped? Wood that was added is entered as a further fuel (fuel2).`,
  charLighterThanContainer: ({ container, withContainer }: { container: string; withContainer: string }) =>
    `The container with char (${withContainer} g) is lighter than the empty one (${container} g). Were the two swapped? If the container was taken off already, this is net char (char_g).`,
  charEnergy: ({ char, charEnergy, fuelEnergy }: { char: string; charEnergy: string; fuelEnergy: string }) =>
    `The char that formed (${char} g) would hold more energy than all the fuel that burned: ${charEnergy} kJ against ${fuelEnergy} kJ. Check the char's container, the fuel's weighings and moisture.`,
  potLighterThanEmpty: ({ withWater, empty }: { withWater: string; empty: string }) =>
    `The pot with water (${withWater} g) is lighter than the empty pot (${empty} g). Were the two swapped? Water without its pot is entered as the pot's water (water_start_g, water_end_g).`,
  potGained: ({ start, end, allowed }: { start: string; end: string; allowed: string }) =>
    `The pot is heavier at the end (${end} g) than at the start (${start} g), by more than the balance can explain (${allowed} g). Were the two swapped, or water added?`,
  waterCooled: ({ start, end }: { start: string; end: string }) =>
    `The water cooled from ${start} to ${end} °C while it was being brought to the boil. Were the two swapped?`,
  waterAboveBoiling: ({ temperature, boiling }: { temperature: string; boiling: string }) =>
    `Water at ${temperature} °C would be more than 5 K hotter than its boiling point, ${boiling} °C. Correct the temperature, the boiling point, the pressure or the altitude.`,
};
