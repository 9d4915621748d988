import type { Arithmetic } from "../numeric/arithmetic.ts";
import { type PowerTerm, powerSum, powerSumDerivative } from "../numeric/power-sum.ts";

/** Specific gas constant of water that IAPWS-IF97 is fitted with, kJ/(kg K) (IAPWS R7-97(2012), equation 1). */
export const GAS_CONSTANT = 0.461526;

/** One term n * x^I * y^J of a dimensionless Gibbs energy: x goes by pressure, y by temperature. */
export type GibbsTerm = readonly [pressureExponent: number, temperatureExponent: number, coefficient: number];

/** The terms that share a power of x, each as coefficient and exponent of y. */
interface SlopeGroup {
  readonly pressureExponent: number;
  readonly terms: readonly PowerTerm[];
}

/** The derivative by y of a sum of terms, sorted by the power of x. */
export type TemperatureSlope = readonly SlopeGroup[];

/** Differentiates by y; terms that do not hold y drop out. Done once for each table, not once for each evaluation. */
export function temperatureSlope(terms: readonly GibbsTerm[]): TemperatureSlope {
  const groups = new Map<number, PowerTerm[]>();
  for (const [pressureExponent, temperatureExponent, coefficient] of terms) {
    if (temperatureExponent === 0) continue;
    const group = groups.get(pressureExponent) ?? [];
    groups.set(pressureExponent, [...group, [coefficient, temperatureExponent]]);
  }
  return [...groups].map(([pressureExponent, group]) => ({ pressureExponent, terms: powerSumDerivative(group) }));
}

/** Value of the derivative at x and y. Domain: y not zero. */
export function evaluateSlope<N>(a: Arithmetic<N>, slope: TemperatureSlope, x: N, y: N): N {
  return slope.reduce<N>(
    (total, { pressureExponent, terms }) =>
      a.add(total, a.multiply(a.power(x, pressureExponent), powerSum(a, terms, y))),
    a.constant(0),
  );
}
