import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Blocks,
  blockBeside,
  blockSize,
  blocksOf,
  findRow,
  nextBlock,
  rowIn,
  withBlock,
} from "../../renderer/state/grid-blocks.ts";

/** Rows that know their own place. */
const block = (at: number, tag: string) => ({
  tag,
  rows: Array.from({ length: blockSize }, (_, index) => at * blockSize + index),
});
const of = (tag: string, ...indices: number[]): Blocks<number> =>
  new Map(indices.map((index) => [index, block(index, tag)]));

describe("which rows are asked for", () => {
  it("are the blocks in sight, the nearest to the middle first, until all are there", () => {
    const sight = { first: 5 * blockSize + 90, end: 7 * blockSize + 10 };
    expect(blocksOf(sight)).toEqual([5, 6, 7]);
    let blocks: Blocks<number> = new Map();
    const asked: number[] = [];
    for (let next = nextBlock(blocks, "now", sight); next !== null; next = nextBlock(blocks, "now", sight)) {
      asked.push(next);
      blocks = withBlock(blocks, next, block(next, "now"), sight);
    }
    expect(asked[0]).toBe(6);
    expect(asked.toSorted()).toEqual([5, 6, 7]);
  });

  it("are after an edit those in sight alone; what was there is shown until they come", () => {
    const sight = { first: 600, end: 640 };
    const blocks = of("before", 4, 5, 6, 7);
    expect(nextBlock(blocks, "after", sight)).toBe(6);
    expect(rowIn(blocks, 620)).toBe(620);
    const newer = withBlock(blocks, 6, block(6, "after"), sight);
    expect(nextBlock(newer, "after", sight)).toBeNull();
    expect(rowIn(newer, 520)).toBe(520);
    expect(nextBlock(newer, "after", { first: 520, end: 560 })).toBe(5);
  });

  it("are never more than a few blocks around what is in sight", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 30_000 }), { maxLength: 60 }), (tops) => {
        let blocks: Blocks<number> = new Map();
        for (const first of tops) {
          const sight = { first, end: first + 45 };
          const next = nextBlock(blocks, "now", sight);
          if (next !== null) blocks = withBlock(blocks, next, block(next, "now"), sight);
        }
        expect(blocks.size).toBeLessThanOrEqual(20);
        for (const index of blocks.keys()) expect(rowIn(blocks, index * blockSize + 3)).toBe(index * blockSize + 3);
      }),
    );
  });

  it("lie just beside what is in sight too, where they were never there; stale ones wait until they are seen", () => {
    expect(blockBeside(of("now", 6), { first: 650, end: 690 }, 30_000)).toBe(7);
    expect(blockBeside(of("now", 6, 7), { first: 610, end: 650 }, 30_000)).toBe(5);
    expect(blockBeside(of("before", 5, 6, 7), { first: 610, end: 650 }, 30_000)).toBeNull();
    expect(blockBeside(of("now", 0), { first: 0, end: 40 }, 75)).toBeNull();
    expect(blockBeside(of("now"), { first: 0, end: 0 }, 0)).toBeNull();
  });

  it("one is always asked for, so that the size of the grid becomes known", () => {
    expect(nextBlock(new Map(), "now", { first: 0, end: 0 })).toBe(0);
  });

  it("a row is found among what is of now alone", () => {
    expect(findRow(of("now", 2, 3), "now", (row) => row === 345)).toBe(345);
    expect(findRow(of("before", 2, 3), "now", (row) => row === 345)).toBeNull();
  });
});
