import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { GridRowView } from "../../app/contract/index.ts";
import type { GridPlace } from "../component/grid-place.ts";
import type { GridRows } from "./grid.ts";
import { blockOf, findRow } from "./grid-blocks.ts";
import { type GridRange, rangeBetween, rangeWithin } from "./grid-range.ts";

type RowIdentity = Pick<GridRowView, "runId" | "phase">;

const isSame = (one: RowIdentity | null, other: RowIdentity | undefined) =>
  one !== null && other !== undefined && one.runId === other.runId && one.phase === other.phase;

export interface WalkedPlace {
  readonly place: GridPlace;
  /** The cells that are chosen: at least the one that is walked on. Null on a heading. */
  readonly range: GridRange | null;
  readonly move: (to: GridPlace, extend?: boolean, row?: RowIdentity) => void;
  readonly choose: (range: GridRange) => void;
  readonly chooseWhole: (what: "all" | "row" | "column") => void;
}

/**
 * Where the grid is walked, and what is chosen there. The place stays with its phase of a run and its column when rows come
 * anew with others among them, or columns are hidden.
 */
export function useWalkedPlace(grid: GridRows, columnKeys: readonly string[]): WalkedPlace {
  const { head, blocks, tag, rowAt, find } = grid;
  const [at, setAt] = useState<{ row: number; column: string | null; index: number }>({
    row: 0,
    column: null,
    index: 0,
  });
  /** Where a choice began; or what was chosen as a whole. */
  const [chosen, setChosen] = useState<{ from: GridPlace } | { range: GridRange } | null>(null);
  const identity = useRef<RowIdentity | null>(null);
  const rows = head?.rows ?? 0;

  const followed = at.column === null ? -1 : columnKeys.indexOf(at.column);
  const column = followed >= 0 ? followed : Math.min(at.index, columnKeys.length - 1);
  const place = useMemo<GridPlace>(
    () => ({ row: Math.min(at.row, rows - 1), column: Math.max(0, column) }),
    [at.row, rows, column],
  );

  const latest = useRef({ place, rowAt, columnKeys, chosen });
  latest.current = { place, rowAt, columnKeys, chosen };

  const move = useCallback((to: GridPlace, extend = false, row?: RowIdentity) => {
    const { place: from, chosen: before, rowAt: rowNow, columnKeys: keys } = latest.current;
    identity.current = row ?? rowNow(to.row) ?? null;
    setAt({ row: to.row, column: keys[to.column] ?? null, index: to.column });
    if (!extend) setChosen(null);
    else if (before === null || !("from" in before)) setChosen({ from });
  }, []);
  const choose = useCallback((range: GridRange) => setChosen({ range }), []);

  const asked = useRef<string | null>(null);
  useEffect(() => {
    if (place.row < 0) return;
    const isFresh = blocks.get(blockOf(place.row))?.tag === tag;
    const row = rowAt(place.row);
    if (identity.current === null) {
      identity.current = row ?? null;
      return;
    }
    if (!isFresh || isSame(identity.current, row)) return;
    const wanted = identity.current;
    const found = findRow(blocks, tag, (one) => isSame(wanted, one));
    if (found !== null) setAt((before) => ({ ...before, row: found }));
    else if (asked.current !== tag) {
      asked.current = tag;
      void find(wanted.runId, wanted.phase).then((other) => {
        if (identity.current !== wanted) return;
        if (other === null) identity.current = latest.current.rowAt(latest.current.place.row) ?? null;
        else setAt((before) => ({ ...before, row: other }));
      });
    }
  }, [place.row, blocks, tag, rowAt, find]);

  const range = useMemo(() => {
    const wanted =
      chosen === null
        ? rangeBetween(place, place)
        : "range" in chosen
          ? chosen.range
          : rangeBetween(chosen.from, place);
    return rangeWithin(wanted, rows, columnKeys.length);
  }, [chosen, place, rows, columnKeys.length]);

  const chooseWhole = useCallback(
    (what: "all" | "row" | "column") => {
      const lastRow = rows - 1;
      const lastColumn = columnKeys.length - 1;
      const now = range ?? { top: 0, bottom: lastRow, left: place.column, right: place.column };
      if (what === "all") choose({ top: 0, bottom: lastRow, left: 0, right: lastColumn });
      else if (what === "column") choose({ ...now, top: 0, bottom: lastRow });
      else if (place.row >= 0) choose({ ...now, left: 0, right: lastColumn });
    },
    [rows, columnKeys.length, range, place, choose],
  );

  return { place, range, move, choose, chooseWhole };
}
