/** A sum this small is what rounding leaves of errors that cancel, as a balance's gain does in a ratio of two masses. */
const leastFourths = 1e-15;

/** The effective degrees of freedom for Welch and Satterthwaite's sum of (u_i/u)^4/nu_i: Infinity where there is none to speak of. */
export function freedomOf(fourths: number): number {
  return fourths < leastFourths ? Number.POSITIVE_INFINITY : 1 / fourths;
}
