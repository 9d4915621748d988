/** Which rows of a long grid are kept in the page, and which are asked for next. All of it is arithmetic. */

/** Rows of one block. */
export const blockSize = 100;
/** So many blocks on either side of what is in sight are kept. */
const keptBeside = 8;

export interface RowsInSight {
  readonly first: number;
  /** The one after the last. */
  readonly end: number;
}

/** Rows that came, and of which state of the study and which choice they tell. */
export interface Block<Row> {
  readonly tag: string;
  readonly rows: readonly Row[];
}

export type Blocks<Row> = ReadonlyMap<number, Block<Row>>;

export const blockOf = (row: number): number => Math.floor(row / blockSize);

/** Blocks that hold rows from `first` up to `end`; at least one, so that something is always known of the grid. */
export function blocksOf({ first, end }: RowsInSight): number[] {
  const from = blockOf(Math.max(0, first));
  const to = Math.max(from, blockOf(Math.max(0, end - 1)));
  return Array.from({ length: to - from + 1 }, (_, index) => from + index);
}

/** The block in sight to ask for next: the one nearest to the middle that is not there as it is now; null where all are. */
export function nextBlock<Row>(blocks: Blocks<Row>, tag: string, sight: RowsInSight): number | null {
  const middle = (sight.first + sight.end - 1) / 2;
  const distance = (block: number) => Math.abs((block + 0.5) * blockSize - middle);
  const [next] = blocksOf(sight)
    .filter((block) => blocks.get(block)?.tag !== tag)
    .sort((one, other) => distance(one) - distance(other));
  return next ?? null;
}

/** So many rows before and after what is in sight are fetched beforehand. */
const near = 60;

/** A block just beside what is in sight that was never there: whoever scrolls on meets rows rather than blanks. Null where there is none. */
export function blockBeside<Row>(blocks: Blocks<Row>, sight: RowsInSight, rows: number): number | null {
  const beside = [Math.min(rows, sight.end + near) - 1, Math.max(0, sight.first - near)].filter(
    (row) => row >= 0 && row < rows,
  );
  return beside.map(blockOf).find((block) => !blocks.has(block)) ?? null;
}

/** With a block that came, without those that are far from what is in sight. */
export function withBlock<Row>(
  blocks: Blocks<Row>,
  at: number,
  block: Block<Row>,
  sight: RowsInSight,
): Map<number, Block<Row>> {
  const inSight = blocksOf(sight);
  const from = (inSight[0] ?? 0) - keptBeside;
  const to = (inSight.at(-1) ?? 0) + keptBeside;
  const kept = [...blocks].filter(([index]) => index !== at && index >= from && index <= to);
  return new Map([...kept, [at, block]]);
}

export function rowIn<Row>(blocks: Blocks<Row>, row: number): Row | undefined {
  return row < 0 ? undefined : blocks.get(blockOf(row))?.rows[row % blockSize];
}

/** Where a row that is wanted stands among the blocks of this state; null where it is in none. */
export function findRow<Row>(blocks: Blocks<Row>, tag: string, is: (row: Row) => boolean): number | null {
  for (const [index, block] of blocks) {
    const at = block.tag === tag ? block.rows.findIndex(is) : -1;
    if (at >= 0) return index * blockSize + at;
  }
  return null;
}
