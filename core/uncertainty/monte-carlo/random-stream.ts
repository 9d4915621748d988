import type { StreamKey } from "./stream-key.ts";

/** SplitMix64's step, 0x9e3779b97f4a7c15. */
const stepLow = 0x7f4a7c15;
const stepHigh = 0x9e3779b9;

/**
 * Random words by the block: xoshiro128** 1.1, whose state for block b of a key is what SplitMix64, started at the key, gives as its
 * outputs 2b and 2b + 1. Any block can be had without those before it, so that trials may be split in any way.
 *
 * The same generators as `seededGenerator`, which names their sources; here many words are made at once.
 */
export class RandomStream {
  readonly #state = new Int32Array(4);
  #low = 0;
  #high = 0;

  /** Begins block `block`, a whole number from 0, of a key. */
  start(key: StreamKey, block: number): void {
    const state = this.#state;
    this.#mix(key, 2 * block + 1);
    state[0] = this.#low;
    state[1] = this.#high;
    this.#mix(key, 2 * block + 2);
    state[2] = this.#low;
    state[3] = this.#high;
    // All zeros is the one state that xoshiro cannot leave.
    if ((state[0] | state[1] | state[2] | state[3]) === 0) state[0] = 1;
  }

  /** The next `count` words, each of 32 random bits. */
  fill(words: Int32Array, count = words.length): void {
    const state = this.#state;
    let s0 = state[0] as number;
    let s1 = state[1] as number;
    let s2 = state[2] as number;
    let s3 = state[3] as number;
    for (let index = 0; index < count; index += 1) {
      const product = Math.imul(s1, 5);
      words[index] = Math.imul((product << 7) | (product >>> 25), 9);
      const shifted = s1 << 9;
      s2 ^= s0;
      s3 ^= s1;
      s1 ^= s2;
      s0 ^= s3;
      s2 ^= shifted;
      s3 = (s3 << 11) | (s3 >>> 21);
    }
    state[0] = s0;
    state[1] = s1;
    state[2] = s2;
    state[3] = s3;
  }

  readonly #pair = new Int32Array(2);

  /** A number from the uniform distribution on (0, 1), never 0 or 1. */
  uniform(): number {
    this.fill(this.#pair);
    return 0.5 + 0.5 * centred(this.#pair[0] as number, this.#pair[1] as number);
  }

  /** SplitMix64's output number `count`, from 1, of a generator started at the key. */
  #mix(key: StreamKey, count: number): void {
    // key + count * step, modulo 2^64
    this.#multiply(stepLow, stepHigh, count >>> 0, Math.floor(count / 2 ** 32) >>> 0);
    const low = this.#low + key.low;
    const high = (this.#high + key.high + (low >= 2 ** 32 ? 1 : 0)) >>> 0;
    this.#low = low >>> 0;
    this.#high = high;
    this.#fold(30);
    this.#multiply(this.#low, this.#high, 0x1ce4e5b9, 0xbf58476d);
    this.#fold(27);
    this.#multiply(this.#low, this.#high, 0x133111eb, 0x94d049bb);
    this.#fold(31);
  }

  /** x ^ (x >> places), for places under 32. */
  #fold(places: number): void {
    const shiftedLow = (this.#low >>> places) | (this.#high << (32 - places));
    this.#low = (this.#low ^ shiftedLow) >>> 0;
    this.#high = (this.#high ^ (this.#high >>> places)) >>> 0;
  }

  /** The product modulo 2^64 of two numbers in words. */
  #multiply(low: number, high: number, otherLow: number, otherHigh: number): void {
    const a0 = low & 0xffff;
    const a1 = low >>> 16;
    const b0 = otherLow & 0xffff;
    const b1 = otherLow >>> 16;
    const middle = a1 * b0 + ((a0 * b0) >>> 16);
    const further = a0 * b1 + (middle & 0xffff);
    const carried = a1 * b1 + Math.floor(middle / 2 ** 16) + Math.floor(further / 2 ** 16);
    this.#low = Math.imul(low, otherLow) >>> 0;
    this.#high = (carried + Math.imul(low, otherHigh) + Math.imul(high, otherLow)) >>> 0;
  }
}

/** A number from the uniform distribution on (-1, 1), an odd multiple of 2^-52, of 52 of the bits of two words. */
export function centred(first: number, second: number): number {
  return (first * 2 ** 20 + (second >>> 12) + 0.5) * 2 ** -51;
}

/** A number from the uniform distribution on (-1, 1), an odd multiple of 2^-32, of one word. */
export function coarselyCentred(word: number): number {
  return (word + 0.5) * 2 ** -31;
}
