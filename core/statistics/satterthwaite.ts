/**
 * Degrees of freedom of a sum of two variances that were estimated separately.
 *
 *     nu = (u + v)^2 / (u^2/nuU + v^2/nuV) = 1 / (w^2/nuU + (1 - w)^2/nuV)  with w = u/(u + v)
 *
 * @param firstShare w, the first variance's share of the sum, 0 to 1
 * @param firstDegreesOfFreedom nuU, above 0
 * @param secondDegreesOfFreedom nuV, above 0
 *
 * Sources: F. E. Satterthwaite, Biometrics Bull. 2, 110 (1946); B. L. Welch, Biometrika 34, 28 (1947).
 */
export function satterthwaiteDegreesOfFreedom(
  firstShare: number,
  firstDegreesOfFreedom: number,
  secondDegreesOfFreedom: number,
): number {
  const secondShare = 1 - firstShare;
  return 1 / (firstShare ** 2 / firstDegreesOfFreedom + secondShare ** 2 / secondDegreesOfFreedom);
}
