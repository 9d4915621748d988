import type { UncertaintyComponent } from "./settings.ts";

/** A standard uncertainty in two parts: one in the unit of the reading, one as a fraction of it. */
export interface StandardUncertainty {
  readonly absolute: number;
  readonly relative: number;
}

/** A rectangular distribution of half-width a has the standard deviation a/√3, a triangular one a/√6 (JCGM 100:2008, 4.3.7, 4.3.9). */
const divisors = { rectangular: Math.sqrt(3), triangular: Math.sqrt(6), normal: 1 } as const;

/** The standard uncertainty of one component: a half-width by its distribution, an expanded uncertainty over its coverage factor (4.3.3). */
export function componentUncertainty({ size, distribution }: UncertaintyComponent): StandardUncertainty {
  if ("standardUncertainty" in size) return { absolute: size.standardUncertainty, relative: 0 };
  if ("relativeStandardUncertainty" in size) return { absolute: 0, relative: size.relativeStandardUncertainty };
  if ("halfWidth" in size) return { absolute: size.halfWidth / divisors[distribution], relative: 0 };
  if ("relativeHalfWidth" in size) return { absolute: 0, relative: size.relativeHalfWidth / divisors[distribution] };
  if ("expandedUncertainty" in size) return { absolute: size.expandedUncertainty / size.coverageFactor, relative: 0 };
  return { absolute: 0, relative: size.relativeExpandedUncertainty / size.coverageFactor };
}

/** Of one reading with all of these: their squares add up, as they are errors of their own (JCGM 100:2008, 5.1.2). */
export function combinedUncertainty(components: readonly UncertaintyComponent[]): StandardUncertainty {
  const parts = components.map(componentUncertainty);
  return {
    absolute: Math.hypot(...parts.map(({ absolute }) => absolute)),
    relative: Math.hypot(...parts.map(({ relative }) => relative)),
  };
}
