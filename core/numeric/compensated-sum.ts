/**
 * Sum of a list with the rounding error of every addition carried along, so that the result is right to about the last digit
 * whatever the order and size of the terms. Zero for an empty list.
 *
 * Domain: finite terms whose sum does not overflow.
 *
 * Source: A. Neumaier, Rundungsfehleranalyse einiger Verfahren zur Summation endlicher Summen, ZAMM 54, 39 (1974).
 */
export function compensatedSum(terms: Iterable<number>): number {
  let total = 0;
  let lost = 0;
  for (const term of terms) {
    const next = total + term;
    lost += Math.abs(total) >= Math.abs(term) ? total - next + term : term - next + total;
    total = next;
  }
  return total + lost;
}
