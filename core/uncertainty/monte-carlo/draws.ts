import type { Distribution } from "../error-source.ts";
import { fillNormal } from "./normal-draws.ts";
import { centred, coarselyCentred, type RandomStream } from "./random-stream.ts";

/** Fills with draws of one distribution; `words` is scratch, two for each draw and four at least. */
export type FillDraws = (stream: RandomStream, draws: Float64Array, words: Int32Array) => void;

/**
 * How an error's distribution is drawn, with mean 0 and standard deviation 1; a t as itself, whose standard deviation is
 * sqrt(nu / (nu - 2)) for nu over 2, and which for fewer has none.
 *
 * @throws RangeError where degrees of freedom are not positive, or an inexactness is not from 0 to 1
 *
 * Source: JCGM 101:2008, 6.4.2 (rectangular), 6.4.3 (inexactly prescribed limits), 6.4.5 (triangular), 6.4.6 (arc sine), 6.4.7 (normal),
 * 6.4.9 (scaled and shifted t).
 */
export function drawsOf(distribution: Distribution): FillDraws {
  switch (distribution.kind) {
    case "normal":
      return fillNormal;
    case "rectangular":
      return fillRectangular;
    case "triangular":
      return fillTriangular;
    case "arcsine":
      return fillArcsine;
    case "curvilinearTrapezoid":
      return curvilinearTrapezoid(distribution.inexactness);
    case "t":
      return studentT(distribution.degreesOfFreedom);
  }
}

/** A rectangle of half-width sqrt(3), in 2^32 steps. */
function fillRectangular(stream: RandomStream, draws: Float64Array, words: Int32Array): void {
  stream.fill(words, draws.length);
  const halfWidth = Math.sqrt(3);
  for (let index = 0; index < draws.length; index += 1) {
    draws[index] = halfWidth * coarselyCentred(words[index] as number);
  }
}

/** The mean of two rectangles of the triangle's own half-width, sqrt(6). */
function fillTriangular(stream: RandomStream, draws: Float64Array, words: Int32Array): void {
  const half = Math.sqrt(6) / 2;
  stream.fill(words, draws.length);
  for (let index = 0; index < draws.length; index += 1) {
    draws[index] = half * coarselyCentred(words[index] as number);
  }
  stream.fill(words, draws.length);
  for (let index = 0; index < draws.length; index += 1) {
    draws[index] = (draws[index] as number) + half * coarselyCentred(words[index] as number);
  }
}

/** The sine of a uniform angle, times sqrt(2). */
function fillArcsine(stream: RandomStream, draws: Float64Array, words: Int32Array): void {
  stream.fill(words, draws.length);
  for (let index = 0; index < draws.length; index += 1) {
    draws[index] = Math.SQRT2 * Math.sin(Math.PI * coarselyCentred(words[index] as number));
  }
}

/** A rectangle whose half-width is drawn first, from 1 - d to 1 + d; its variance is (1 + d^2 / 3) / 3. */
function curvilinearTrapezoid(inexactness: number): FillDraws {
  if (!(inexactness >= 0 && inexactness <= 1)) {
    throw new RangeError(`The inexactness of a half-width is from 0 to 1, not ${inexactness}.`);
  }
  const scale = Math.sqrt(3 / (1 + inexactness ** 2 / 3));
  return (stream, draws, words) => {
    stream.fill(words, draws.length);
    for (let index = 0; index < draws.length; index += 1) {
      draws[index] = scale * (1 + inexactness * coarselyCentred(words[index] as number));
    }
    stream.fill(words, draws.length);
    for (let index = 0; index < draws.length; index += 1) {
      draws[index] = (draws[index] as number) * coarselyCentred(words[index] as number);
    }
  };
}

/**
 * Student's t by the polar method, for any degrees of freedom over 0 (R. W. Bailey, Polar generation of random variates with the
 * t-distribution, Math. Comp. 62, 779, 1994).
 */
function studentT(degreesOfFreedom: number): FillDraws {
  if (!(degreesOfFreedom > 0)) throw new RangeError(`Degrees of freedom are over 0, not ${degreesOfFreedom}.`);
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) return fillNormal;
  const exponent = -2 / degreesOfFreedom;
  return (stream, draws, words) => {
    let used = words.length;
    for (let index = 0; index < draws.length; ) {
      if (used + 4 > words.length) {
        stream.fill(words);
        used = 0;
      }
      const x = centred(words[used] as number, words[used + 1] as number);
      const y = centred(words[used + 2] as number, words[used + 3] as number);
      used += 4;
      const square = x * x + y * y;
      if (square >= 1) continue;
      // square^(-2/nu) - 1, which for many degrees of freedom is small
      const grown = Math.expm1(exponent * Math.log(square));
      draws[index] = x * Math.sqrt((degreesOfFreedom * grown) / square);
      index += 1;
    }
  };
}
