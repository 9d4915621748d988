import type { LaidBand } from "./sheet-band.ts";
import { sheetPage } from "./sheet-measures.ts";

type Sides = readonly (readonly LaidBand[])[];

/**
 * Which bands stand on which side. The bands of a phase stand together, unless a side is saved by letting one begin at the
 * foot of a side and go on overleaf.
 *
 * @param first where bands begin on the first side, in points from the top
 * @param further the same on every other side
 */
export function sidesOf(bands: readonly LaidBand[], first: number, further: number): Sides {
  const together = partsOf(bands);
  const held = fill(together, first, further);
  const loose = fill(
    bands.map((band) => [band]),
    first,
    further,
  );
  return loose.length < held.length ? loose : held;
}

/** Neighbours of one part; one that is higher than any side is taken apart. */
function partsOf(bands: readonly LaidBand[]): LaidBand[][] {
  const parts: LaidBand[][] = [];
  for (const band of bands) {
    const last = parts.at(-1);
    if (last?.[0]?.part === band.part && heightOf([...last, band]) < sheetPage.bottom - 2 * sheetPage.top)
      last.push(band);
    else parts.push([band]);
  }
  return parts;
}

const heightOf = (bands: readonly LaidBand[]) => bands.reduce((sum, { height }) => sum + height, 0);

function fill(groups: readonly (readonly LaidBand[])[], first: number, further: number): Sides {
  const sides: LaidBand[][] = [[]];
  let y = first;
  for (const group of groups) {
    const height = heightOf(group);
    if (y + height > sheetPage.bottom && (sides.length === 1 || sides.at(-1)?.length !== 0)) {
      sides.push([]);
      y = further;
    }
    sides.at(-1)?.push(...group);
    y += height;
  }
  return sides;
}
