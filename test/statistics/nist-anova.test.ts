import { describe, expect, it } from "vitest";
import { anova } from "../../core/statistics/anova.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";
import { severalGroups } from "./several-groups.ts";

/**
 * The sets SmLs01 to SmLs09 of NIST StRD, which follow a rule: a constant, then nine treatments and their replicates, each of which
 * adds 0.2 for the first of them, 0.1 for every even and 0.3 for every later odd one.
 */
function simulated(constant: string, replicates: number): number[][] {
  const tenths = (index: number) => (index === 0 ? 2 : index % 2 === 1 ? 1 : 3);
  return Array.from({ length: 9 }, (_, treatment) =>
    Array.from({ length: replicates }, (_, replicate) =>
      Number(`${constant}.${tenths(treatment) + tenths(replicate)}`),
    ),
  );
}

/** F of groups of equal number without any rounding: every double is a whole number of 2^-60 here. */
function exactF(groups: readonly (readonly number[])[]): number {
  const whole = (value: number) => {
    const integer = Math.floor(value);
    return (BigInt(integer) << 60n) + BigInt((value - integer) * 2 ** 60);
  };
  const sum = (terms: readonly bigint[]) => terms.reduce((total, term) => total + term, 0n);
  const exact = groups.map((values) => values.map(whole));
  const [k, n] = [BigInt(groups.length), BigInt(groups[0]?.length ?? 0)];
  const totals = exact.map(sum);
  const squaresOfTotals = sum(totals.map((total) => total * total));
  const grand = sum(totals);
  const within = n * sum(exact.flat().map((value) => value * value)) - squaresOfTotals;
  const between = k * squaresOfTotals - grand * grand;
  return Number((between * (n * k - k) * 10n ** 20n) / (within * k * (k - 1n))) / 1e20;
}

const sets = [
  ["SmLs01", "1", 21],
  ["SmLs02", "1", 201],
  ["SmLs03", "1", 2001],
  ["SmLs04", "1000000", 21],
  ["SmLs05", "1000000", 201],
  ["SmLs06", "1000000", 2001],
  ["SmLs07", "1000000000000", 21],
  ["SmLs08", "1000000000000", 201],
  ["SmLs09", "1000000000000", 2001],
] as const;

/** What the conversion of the decimal data to doubles alone leaves of the certified digits, by level of difficulty. */
const afterConversion = { "1": 1e-14, "1000000": 1e-10, "1000000000000": 1e-4 };

describe("analysis of variance of NIST's reference sets", () => {
  it.each(readExpected("nist-anova"))("has the certified F: $case (reference nist-anova)", (row) => {
    const result = anova(severalGroups("nist-anova", row.case).groups);
    expectNumber(result.f, numberOf(row, "f"), { relative: numberOf(row, "relative") });
    expectNumber(result.df1, numberOf(row, "df1"));
    expectNumber(result.df2, numberOf(row, "df2"));
  });

  it.each(sets)("has the certified F as far as doubles hold the data: %s", (_, constant, replicates) => {
    const groups = simulated(constant, replicates);
    const result = anova(groups);
    // Certified: F is the number of replicates, to fifteen digits.
    expectNumber(result.f, replicates, { relative: afterConversion[constant] });
    expect([result.df1, result.df2]).toEqual([8, 9 * (replicates - 1)]);
    // Of the doubles as they are, nothing is lost.
    expectNumber(result.f, exactF(groups), { relative: 1e-14 });
  });
});
