import { seededGenerator } from "../numeric/seeded-generator.ts";

/** Which variants are to be run, and how often each. */
export interface RunOrderRequest {
  readonly variants: readonly { readonly name: string; readonly runs: number }[];
  /** Blocks, such as days, that the runs are parted into: at least 1, and not more than the runs of the rarest variant. */
  readonly blocks: number;
  /** A whole number from 0 on: the same seed gives the same order. */
  readonly seed: number;
}

/** One run of the order; `order` and `block` count from 1. */
export interface OrderedRun {
  readonly order: number;
  readonly block: number;
  readonly variant: string;
}

/**
 * A randomised, blocked order of runs: what changes in time (weather, wood, the hand of the operator) meets all variants alike.
 *
 * Each variant's runs are spread over the blocks as evenly as whole numbers go (block k of b has floor(k n/b) - floor((k - 1) n/b)
 * of its n runs), and within each block the runs stand in random order: every order is equally likely.
 *
 * A RangeError where a number of runs or of blocks is not whole or not within its bounds.
 *
 * Sources: randomised blocks, R. A. Fisher, The design of experiments (1935); the shuffle is R. Durstenfeld's, Algorithm 235,
 * Comm. ACM 7, 420 (1964).
 */
export function randomisedRunOrder({ variants, blocks, seed }: RunOrderRequest): OrderedRun[] {
  const fewest = Math.min(...variants.map(({ runs }) => runs));
  if (variants.some(({ runs }) => !Number.isSafeInteger(runs) || runs < 1)) {
    throw new RangeError("The number of runs of a variant must be whole, and at least 1.");
  }
  if (!Number.isSafeInteger(blocks) || blocks < 1 || blocks > fewest) {
    throw new RangeError(`The number of blocks is ${blocks}: it must be whole, from 1 to ${fewest}.`);
  }
  const { nextUint32 } = seededGenerator(seed);
  const ordered: OrderedRun[] = [];
  for (let block = 1; block <= blocks; block += 1) {
    const inBlock = variants.flatMap(({ name, runs }) => {
      const count = Math.floor((block * runs) / blocks) - Math.floor(((block - 1) * runs) / blocks);
      return Array.from({ length: count }, () => name);
    });
    for (let last = inBlock.length - 1; last > 0; last -= 1) {
      const other = below(last + 1, nextUint32);
      const [one, two] = [inBlock[last] as string, inBlock[other] as string];
      inBlock[last] = two;
      inBlock[other] = one;
    }
    for (const variant of inBlock) ordered.push({ order: ordered.length + 1, block, variant });
  }
  return ordered;
}

/** A whole number from 0 to `count` - 1, each equally likely: draws beyond the last whole multiple are drawn again. */
function below(count: number, nextUint32: () => number): number {
  const limit = 2 ** 32 - (2 ** 32 % count);
  for (;;) {
    const draw = nextUint32();
    if (draw < limit) return draw % count;
  }
}
