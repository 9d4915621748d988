import type { Reading } from "../../core/index.ts";

/** A name as part of an identifier: letters, digits and hyphens stay, everything else is written as a code. */
export function safeName(name: string): string {
  return name.replaceAll(/[^A-Za-z0-9-]/g, (character, index: number) =>
    character === "_" && index > 0 ? character : `~${character.charCodeAt(0).toString(16)}~`,
  );
}

/**
 * Makes the readings of one run. What a pot, a container, the air or a moisture meter gave once stands in several rows of the
 * file: with one value in the phases of a run it is one reading, with one error, and gets one identifier.
 */
export interface RunReadings {
  /** A reading of its own. */
  own(phase: string, column: string, value: number): Reading;
  /** The reading that `what` has with this value in the run; the first phase that has it gives it its identifier. */
  shared(what: string, phase: string, column: string, value: number): Reading;
}

export function runReadings(runId: string): RunReadings {
  const known = new Map<string, Reading>();
  // Joined, not glued together: that makes one string at once, where pieces would be held until the first comparison.
  const own = (phase: string, column: string, value: number): Reading => ({
    id: [runId, phase, column].join("/"),
    value,
  });
  return {
    own,
    shared(what, phase, column, value) {
      const key = `${value} ${what}`;
      const before = known.get(key);
      if (before !== undefined) return before;
      const reading = own(phase, column, value);
      known.set(key, reading);
      return reading;
    },
  };
}
