import { studentTCritical } from "../statistics/distribution/student-t.ts";

/**
 * Half-width of the interval about a value: U = t(nu) u, in the unit of u.
 *
 * @param confidence 0 < confidence < 1
 * Source: JCGM 100:2008, 6.2.1, G.4.1 (t at the effective degrees of freedom as coverage factor).
 */
export function expandedUncertainty(
  {
    standardUncertainty,
    degreesOfFreedom,
  }: { readonly standardUncertainty: number; readonly degreesOfFreedom: number },
  confidence: number,
): number {
  return standardUncertainty === 0 ? 0 : studentTCritical(confidence, degreesOfFreedom) * standardUncertainty;
}
