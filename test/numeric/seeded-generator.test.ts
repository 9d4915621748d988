import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import { describe, expect, it } from "vitest";
import { seededGenerator, splitMix64, xoshiro128StarStar } from "../../core/numeric/seeded-generator.ts";
import { expectNumber } from "../numbers.ts";

function take<T>(count: number, draw: () => T): T[] {
  return Array.from({ length: count }, draw);
}

/** Largest distance between the empirical distribution of the draws and a distribution (Kolmogorov-Smirnov statistic). */
function greatestDistance(draws: readonly number[], cumulative: (value: number) => number): number {
  const sorted = draws.toSorted((left, right) => left - right);
  return sorted.reduce((greatest, draw, index) => {
    const expected = cumulative(draw);
    const below = Math.abs(expected - index / sorted.length);
    const above = Math.abs(expected - (index + 1) / sorted.length);
    return Math.max(greatest, below, above);
  }, 0);
}

describe("seeded generator", () => {
  it("is xoshiro128** 1.1: its authors' C program from the state 1, 2, 3, 4 (as published with Rust's rand_xoshiro)", () => {
    expect(take(10, xoshiro128StarStar([1, 2, 3, 4]))).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it("is seeded by SplitMix64: the published sequence for 1234567 (from memory)", () => {
    expect(take(5, splitMix64(1234567n))).toEqual([
      6457827717110365317n,
      3203168211198807973n,
      9817491932198370423n,
      4593380528125082431n,
      16408922859458223821n,
    ]);
  });

  it("repeats itself for one seed and differs for another", () => {
    const draws = (seed: number) => {
      const generator = seededGenerator(seed);
      return take(20, () => [generator.uniform(), generator.normal()]);
    };
    expect(draws(20260101)).toEqual(draws(20260101));
    expect(draws(20260101)).not.toEqual(draws(20260102));
  });

  it("draws uniformly from [0, 1): Kolmogorov-Smirnov below its 0.1 % limit, 1.95/sqrt(n)", () => {
    const generator = seededGenerator(7);
    const draws = take(20_000, generator.uniform);
    expect(draws.every((draw) => draw >= 0 && draw < 1)).toBe(true);
    expect(greatestDistance(draws, (value) => value)).toBeLessThan(1.95 / Math.sqrt(draws.length));
  });

  it("draws normally: Kolmogorov-Smirnov below its 0.1 % limit, and mean and variance within four standard errors", () => {
    const generator = seededGenerator(11);
    const draws = take(20_000, generator.normal);
    expect(greatestDistance(draws, (value) => normalCdf(value, 0, 1))).toBeLessThan(1.95 / Math.sqrt(draws.length));
    const mean = draws.reduce((total, draw) => total + draw, 0) / draws.length;
    const variance = draws.reduce((total, draw) => total + draw * draw, 0) / draws.length;
    expectNumber(mean, 0, { absolute: 4 / Math.sqrt(draws.length) });
    expectNumber(variance, 1, { absolute: 4 * Math.sqrt(2 / draws.length) });
  });

  it("draws normals that do not depend on the one before: lag-one correlation within four standard errors", () => {
    const generator = seededGenerator(13);
    const draws = take(20_000, generator.normal);
    const products = draws.slice(1).map((draw, index) => draw * (draws[index] ?? 0));
    const correlation = products.reduce((total, product) => total + product, 0) / products.length;
    expectNumber(correlation, 0, { absolute: 4 / Math.sqrt(draws.length) });
  });

  it.each([-1, 0.5, Number.NaN, 2 ** 53])("refuses the seed %d", (seed) => {
    expect(() => seededGenerator(seed)).toThrow(RangeError);
  });
});
