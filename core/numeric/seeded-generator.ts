/** A stream of random numbers that its seed determines entirely: the same on every machine and in every version. */
export interface SeededGenerator {
  /** A whole number from 0 to 2^32 - 1. */
  nextUint32(): number;
  /** A number from the uniform distribution on [0, 1), a multiple of 2^-53. */
  uniform(): number;
  /** A number from the normal distribution with mean 0 and standard deviation 1. */
  normal(): number;
}

/** The four 32-bit words of the generator's state; not all may be zero. */
export type Xoshiro128State = readonly [number, number, number, number];

/**
 * A generator from a seed, for demonstration data and simulations: never for secrets.
 *
 * @param seed a whole number from 0 to 2^53 - 1; a RangeError otherwise
 *
 * Sources: xoshiro128** 1.1 (D. Blackman and S. Vigna, Scrambled linear pseudorandom number generators, ACM Trans. Math. Softw.
 * 47, 36, 2021); its state filled by SplitMix64 (Steele, Lea and Flood, OOPSLA 2014), as its authors recommend; normal draws by
 * Marsaglia's polar method (G. Marsaglia and T. A. Bray, SIAM Review 6, 260, 1964).
 */
export function seededGenerator(seed: number): SeededGenerator {
  if (!Number.isSafeInteger(seed) || seed < 0) {
    throw new RangeError(`A seed is a whole number from 0 to ${Number.MAX_SAFE_INTEGER}, not ${seed}.`);
  }
  const nextUint32 = xoshiro128StarStar(stateFromSeed(BigInt(seed)));
  const uniform = () => {
    const high = nextUint32() >>> 5;
    const low = nextUint32() >>> 6;
    return (high * 2 ** 26 + low) / 2 ** 53;
  };
  // The polar method yields draws in pairs; the second of a pair waits here.
  let waiting: number | undefined;
  const normal = () => {
    if (waiting !== undefined) {
      const draw = waiting;
      waiting = undefined;
      return draw;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      waiting = y * factor;
      return x * factor;
    }
  };
  return { nextUint32, uniform, normal };
}

/** The bare xoshiro128** 1.1: a function that gives the next 32-bit output. */
export function xoshiro128StarStar(state: Xoshiro128State): () => number {
  let [s0, s1, s2, s3] = state;
  return () => {
    const output = Math.imul(rotateLeft(Math.imul(s1, 5), 7), 9) >>> 0;
    const shifted = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= shifted;
    s3 = rotateLeft(s3, 11);
    return output;
  };
}

/** The bare SplitMix64: a function that gives the next 64-bit output. */
export function splitMix64(seed: bigint): () => bigint {
  let state = BigInt.asUintN(64, seed);
  return () => {
    state = BigInt.asUintN(64, state + 0x9e3779b97f4a7c15n);
    let mixed = state;
    mixed = BigInt.asUintN(64, (mixed ^ (mixed >> 30n)) * 0xbf58476d1ce4e5b9n);
    mixed = BigInt.asUintN(64, (mixed ^ (mixed >> 27n)) * 0x94d049bb133111ebn);
    return mixed ^ (mixed >> 31n);
  };
}

function rotateLeft(word: number, places: number): number {
  return (word << places) | (word >>> (32 - places));
}

function stateFromSeed(seed: bigint): Xoshiro128State {
  const next = splitMix64(seed);
  const first = next();
  const second = next();
  return [lowWord(first), highWord(first), lowWord(second), highWord(second)];
}

function lowWord(word: bigint): number {
  return Number(BigInt.asUintN(32, word));
}

function highWord(word: bigint): number {
  return Number(word >> 32n);
}
