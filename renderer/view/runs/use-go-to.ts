import { useCallback, useEffect, useRef, useState } from "react";
import type { PhaseName } from "../../../core/index.ts";
import type { GridRows } from "../../state/grid.ts";
import type { WalkedPlace } from "../../state/grid-place.ts";
import type { Go, Route } from "../../state/route.ts";
import { choiceOfRoute, noFilter } from "./grid-choice.ts";

interface Wanted {
  readonly run: string;
  /** Null: its first row. */
  readonly phase: PhaseName | null;
  /** Heading of the readings file; null: the run itself. */
  readonly column: string | null;
}

/** Goes to a cell of the study: shows its column where it is hidden, and all rows where it is not among those that are shown. */
export function useGoTo({
  grid,
  route,
  go,
  keys,
  move,
  showColumn,
  focusGrid,
}: {
  grid: GridRows;
  route: Route;
  go: Go;
  keys: readonly string[];
  move: WalkedPlace["move"];
  showColumn: (reading: string) => string | null;
  focusGrid: () => void;
}): (wanted: Wanted) => Promise<void> {
  /** A column that was hidden has a place only when it is shown. */
  const [pending, setPending] = useState<{
    readonly wanted: Wanted;
    readonly row: number;
    readonly key: string;
  } | null>(null);
  const latest = useRef({ grid, route, showColumn });
  latest.current = { grid, route, showColumn };

  useEffect(() => {
    if (pending === null) return;
    const column = Math.max(0, keys.indexOf(pending.key));
    setPending(null);
    const { run, phase } = pending.wanted;
    const { rowAt } = latest.current.grid;
    // Where the row is not there yet its run and phase are known all the same.
    const row = phase === null ? rowAt(pending.row) : { runId: run, phase };
    move({ row: pending.row, column }, false, row);
    focusGrid();
  }, [pending, keys, move, focusGrid]);

  return useCallback(
    async (wanted: Wanted) => {
      const { grid: rows, route: at, showColumn: show } = latest.current;
      let row = await rows.find(wanted.run, wanted.phase);
      if (row === null) {
        row = await rows.find(wanted.run, wanted.phase, choiceOfRoute({ ...at, ...noFilter } as Route));
        if (row === null) return;
        go({ ...noFilter }, "replace");
      }
      const key = wanted.column === null ? null : show(wanted.column);
      setPending({ wanted, row, key: key ?? "" });
    },
    [go],
  );
}
