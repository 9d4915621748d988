/** Throws a RangeError unless degrees of freedom are above 0; fractions and Infinity are allowed. */
export function requireDegreesOfFreedom(degreesOfFreedom: number): void {
  if (!(degreesOfFreedom > 0))
    throw new RangeError(`Degrees of freedom are ${degreesOfFreedom}: they must be above 0.`);
}
