import { splitMix64 } from "../../numeric/seeded-generator.ts";

/** What a stream of draws is known by: 64 bits, as two words of 32, from the seed of the trials and the key of an error. */
export interface StreamKey {
  readonly low: number;
  readonly high: number;
}

/**
 * The key of an error's stream. Equal seeds and keys give equal streams, in every run of a study and on every machine.
 *
 * @param seed a whole number from 0 to 2^53 - 1; a RangeError otherwise
 * @param key any text
 *
 * The text's hash is FNV-1a of 64 bits over its UTF-16 units, low byte first (G. Fowler, L. C. Noll, K.-P. Vo and D. Eastlake, The FNV
 * non-cryptographic hash algorithm, IETF draft; constants from memory); seed and hash are stirred by SplitMix64, one after the other, so
 * that no choice of seed moves one key's stream onto another's.
 */
export function streamKey(seed: number, key: string): StreamKey {
  if (!Number.isSafeInteger(seed) || seed < 0) {
    throw new RangeError(`A seed is a whole number from 0 to ${Number.MAX_SAFE_INTEGER}, not ${seed}.`);
  }
  const mixed = splitMix64(splitMix64(BigInt(seed))() ^ hashOf(key))();
  return { low: Number(BigInt.asUintN(32, mixed)), high: Number(mixed >> 32n) };
}

/** FNV-1a, 64 bits, in two words: the prime is 2^40 + 435. */
function hashOf(text: string): bigint {
  let low = 0x84222325;
  let high = 0xcbf29ce4;
  for (let position = 0; position < text.length; position += 1) {
    const unit = text.charCodeAt(position);
    for (const byte of [unit & 0xff, unit >>> 8]) {
      low = (low ^ byte) >>> 0;
      const product = low * 435;
      high = (Math.imul(high, 435) + Math.floor(product / 2 ** 32) + (low << 8)) >>> 0;
      low = product % 2 ** 32;
    }
  }
  return (BigInt(high) << 32n) | BigInt(low);
}
