import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { GridChoice, GridRowView, GridView, Refusal } from "../../app/contract/index.ts";
import type { PhaseName } from "../../core/index.ts";
import {
  type Blocks,
  blockBeside,
  blockOf,
  blockSize,
  nextBlock,
  type RowsInSight,
  rowIn,
  withBlock,
} from "./grid-blocks.ts";
import { askHost, isRefusal, useHost } from "./host.ts";

/** What is known of the grid as a whole. */
export type GridHead = Omit<GridView, "part" | "from">;

interface Book {
  readonly head: GridHead | null;
  readonly blocks: Blocks<GridRowView>;
  /** Which study and choice the blocks are of. */
  readonly choice: string;
  /** The state of which the head tells. */
  readonly tag: string;
  readonly refusal: Refusal | null;
}

const empty: Book = { head: null, blocks: new Map(), choice: "", tag: "", refusal: null };

interface Wanted {
  readonly study: string | null;
  readonly choice: GridChoice;
  readonly key: string;
  readonly tag: string;
}

export interface GridRows {
  readonly head: GridHead | null;
  readonly refusal: Refusal | null;
  readonly blocks: Blocks<GridRowView>;
  readonly rowAt: (row: number) => GridRowView | undefined;
  /** What blocks that are as the study is now carry. */
  readonly tag: string;
  /** All that is in sight is as the study is now, and as was chosen. */
  readonly isNewest: boolean;
  /** Rows are told as they come into sight. */
  readonly see: (first: number, end: number) => void;
  /** Rows from the first up to before the last, as they are now; null where they do not come. */
  readonly fetch: (first: number, end: number) => Promise<readonly GridRowView[] | null>;
  /** The row of a run's phase; null where it is not among those chosen: as the grid is, or as another choice has it. */
  readonly find: (run: string, phase: PhaseName | null, choice?: GridChoice) => Promise<number | null>;
}

const isAllOf = (blocks: Blocks<GridRowView>, tag: string, sight: RowsInSight) =>
  nextBlock(blocks, tag, sight) === null;

/**
 * The grid of a study, block by block: what comes into sight is asked for, one question at a time, what is in sight first. After an edit
 * only the blocks in sight are asked for again, and what was there stays until they come.
 */
export function useGridRows(study: string | null, choice: GridChoice, stamp: string): GridRows {
  const [book, setBook] = useState(empty);
  const [sight, setSight] = useState<RowsInSight>({ first: 0, end: 1 });
  const { attempt } = useHost();
  const key = JSON.stringify([study, choice]);
  const tag = JSON.stringify([key, stamp]);
  const wanted = useRef<Wanted>({ study, choice, key, tag });
  wanted.current = { study, choice, key, tag };
  const kept = useRef(book);
  const seen = useRef(sight);
  const isAsking = useRef(false);
  const isGone = useRef(false);

  const keep = useCallback((next: Book) => {
    kept.current = next;
    setBook(next);
  }, []);

  const pump = useCallback(async () => {
    if (isAsking.current) return;
    isAsking.current = true;
    for (;;) {
      if (isGone.current) break;
      const now = wanted.current;
      if (now.study === null) break;
      const before = kept.current;
      const known: Blocks<GridRowView> = before.choice === now.key ? before.blocks : new Map();
      const block = nextBlock(known, now.tag, seen.current) ?? blockBeside(known, seen.current, before.head?.rows ?? 0);
      if (block === null) break;
      const answer = await askHost<"grid.show">({
        kind: "grid.show",
        study: now.study,
        choice: now.choice,
        from: block * blockSize,
        count: blockSize,
      });
      // Something else was chosen meanwhile.
      if (wanted.current.key !== now.key) continue;
      if (!answer.ok) {
        if (isRefusal(answer)) keep({ ...kept.current, choice: now.key, tag: now.tag, refusal: answer });
        break;
      }
      const { part, from: _, ...head } = answer.value;
      const blocks = kept.current.choice === now.key ? kept.current.blocks : new Map();
      keep({
        head: sameColumns(kept.current.head, head),
        blocks: withBlock(blocks, block, { tag: now.tag, rows: part }, seen.current),
        choice: now.key,
        tag: now.tag,
        refusal: null,
      });
    }
    isAsking.current = false;
  }, [keep]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: another choice or state, other rows in sight, or another attempt ask.
  useEffect(() => {
    void pump();
  }, [pump, tag, sight, attempt]);
  useEffect(() => {
    isGone.current = false;
    return () => {
      isGone.current = true;
    };
  }, []);

  const see = useCallback((first: number, end: number) => {
    if (seen.current.first === first && seen.current.end === end) return;
    seen.current = { first, end };
    setSight(seen.current);
  }, []);

  const fetch = useCallback(async (first: number, end: number): Promise<readonly GridRowView[] | null> => {
    const now = wanted.current;
    const rows: GridRowView[] = [];
    while (first + rows.length < end) {
      const from = first + rows.length;
      const at = kept.current.choice === now.key ? kept.current.blocks.get(blockOf(from)) : undefined;
      let part: readonly GridRowView[] = at?.tag === now.tag ? at.rows.slice(from % blockSize) : [];
      if (part.length === 0) {
        const count = Math.min(fetchedAtOnce, end - from);
        const answer = await askHost<"grid.show">({
          kind: "grid.show",
          study: now.study,
          choice: now.choice,
          from,
          count,
        });
        if (!answer.ok || wanted.current.tag !== now.tag || answer.value.part.length === 0) return null;
        part = answer.value.part;
      }
      rows.push(...part.slice(0, end - from));
    }
    return rows;
  }, []);

  const find = useCallback(async (run: string, phase: PhaseName | null, other?: GridChoice): Promise<number | null> => {
    const now = wanted.current;
    const answer = await askHost<"grid.find">({
      kind: "grid.find",
      study: now.study,
      choice: other ?? now.choice,
      run,
      phase,
    });
    return answer.ok ? answer.value.row : null;
  }, []);

  const isOfStudy = book.choice === "" || JSON.parse(book.choice)[0] === study;
  const { blocks, head, refusal, choice: of } = isOfStudy ? book : empty;
  const rowAt = useCallback((row: number) => rowIn(blocks, row), [blocks]);
  const isNewest = of === key && isAllOf(blocks, tag, sight);
  return useMemo(
    () => ({ head, refusal, blocks, rowAt, tag, isNewest, see, fetch, find }),
    [head, refusal, blocks, rowAt, tag, isNewest, see, fetch, find],
  );
}

/** Rows that are fetched with one question for copying and filling. */
const fetchedAtOnce = 500;

/** The head with the columns that were there where they are no others: what is made of them stays. */
function sameColumns(before: GridHead | null, head: GridHead): GridHead {
  return before !== null && JSON.stringify(before.columns) === JSON.stringify(head.columns)
    ? { ...head, columns: before.columns }
    : head;
}
