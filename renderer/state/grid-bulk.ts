import { useCallback, useRef, useState } from "react";
import type { Edit, Refusal, RefusedCell } from "../../app/contract/index.ts";
import { useMakeEdit } from "./change.ts";
import { isRefusal } from "./host.ts";
import { useStudy } from "./study.tsx";

type CellsOfRuns = Extract<Edit, { kind: "cellsOfRuns" }>;
export type BulkWay = CellsOfRuns["way"];
export type CellOfRuns = CellsOfRuns["cells"][number];

/** A cell that is to be changed together with others. */
export interface BulkCell extends CellOfRuns {
  /** The run's name, for a person to read. */
  readonly name: string;
  /** Why it does not fit; null where nothing is known against it. */
  readonly trouble: string | null;
  /** Another text was given for it since it was refused. */
  readonly isMended?: boolean;
}

/** A change of many cells that was not done yet. Everything of it is kept until it is done or dropped. */
export interface Bulk {
  readonly study: string;
  readonly way: BulkWay;
  readonly cells: readonly BulkCell[];
  /** What does not fit together with these, in cells that are not among them. */
  readonly others: readonly RefusedCell[];
  /** `kept`: from before the page was loaded anew. `unheard`: sent, but not confirmed. */
  readonly status: "ready" | "asking" | "refused" | "unheard" | "nameless" | "kept";
  readonly refusal: Refusal | null;
}

export interface BulkDesk {
  readonly bulk: Bulk | null;
  /** All of them or none; what does not fit is kept with its reason. True when it is done. */
  readonly make: (way: BulkWay, cells: readonly BulkCell[]) => Promise<boolean>;
  readonly mend: (cell: BulkCell, text: string) => void;
  readonly leaveOut: (cells: readonly BulkCell[]) => void;
  readonly again: () => Promise<boolean>;
  readonly drop: () => void;
}

export const bulkKey = (cell: Pick<CellOfRuns, "run" | "phase" | "column">): string =>
  JSON.stringify([cell.run, cell.phase, cell.column]);

const place = "boilbench.bulk";

function remember(bulk: Bulk | null): void {
  try {
    if (bulk === null) sessionStorage.removeItem(place);
    else sessionStorage.setItem(place, JSON.stringify(bulk));
  } catch {
    // Where nothing can be kept it is still there until the page is loaded again.
  }
}

function recall(): Bulk | null {
  try {
    const kept = JSON.parse(sessionStorage.getItem(place) ?? "null") as Bulk | null;
    return kept === null ? null : { ...kept, status: kept.status === "refused" ? "refused" : "kept" };
  } catch {
    return null;
  }
}

/** With the reasons that a refusal names cell by cell; those of cells that are not among them apart. */
export function withTroubles(
  cells: readonly BulkCell[],
  refused: readonly RefusedCell[],
): Pick<Bulk, "cells" | "others"> {
  const keyOf = ({ run, phase, column }: RefusedCell) => JSON.stringify([run, phase, column]);
  const reasons = new Map(refused.map((cell) => [keyOf(cell), cell.message]));
  const own = new Set(cells.map(bulkKey));
  return {
    cells: cells.map((cell) => ({ ...cell, trouble: reasons.get(bulkKey(cell)) ?? null, isMended: false })),
    others: refused.filter((cell) => !own.has(keyOf(cell))),
  };
}

/** Changes of many cells at once: what was pasted, filled down or emptied. */
export function useBulkDesk(): BulkDesk {
  const { handle, tell } = useStudy();
  const makeEdit = useMakeEdit();
  const [bulk, setBulk] = useState(recall);
  const kept = useRef(bulk);

  const keep = useCallback((next: Bulk | null) => {
    kept.current = next;
    setBulk(next);
    remember(next);
  }, []);

  const send = useCallback(
    async (wanted: Bulk): Promise<boolean> => {
      if (wanted.cells.some(({ trouble }) => trouble !== null)) {
        keep({ ...wanted, status: "refused", refusal: null });
        return false;
      }
      keep({ ...wanted, others: [], status: "asking", refusal: null });
      const answer = await makeEdit({
        kind: "cellsOfRuns",
        way: wanted.way,
        cells: wanted.cells.map(({ run, phase, column, text, was }) => ({ run, phase, column, text, was })),
      });
      if (answer?.ok === true) {
        keep(null);
        return true;
      }
      // What was told of the change before would seem to be of this one.
      tell("");
      if (answer === null) keep({ ...wanted, status: "nameless" });
      else if (isRefusal(answer)) {
        keep({ ...wanted, ...withTroubles(wanted.cells, answer.cells ?? []), status: "refused", refusal: answer });
      } else keep({ ...wanted, status: "unheard" });
      return false;
    },
    [keep, makeEdit, tell],
  );

  const make = useCallback(
    async (way: BulkWay, cells: readonly BulkCell[]) =>
      handle === null ? false : send({ study: handle, way, cells, others: [], status: "ready", refusal: null }),
    [handle, send],
  );
  const change = useCallback(
    (alter: (cells: readonly BulkCell[]) => readonly BulkCell[]) => {
      const now = kept.current;
      if (now === null || now.status === "asking") return;
      const cells = alter(now.cells);
      keep(cells.length === 0 ? null : { ...now, cells, others: [], refusal: null });
    },
    [keep],
  );
  const mend = useCallback(
    (cell: BulkCell, text: string) =>
      change((cells) =>
        cells.map((one) => (bulkKey(one) === bulkKey(cell) ? { ...one, text, trouble: null, isMended: true } : one)),
      ),
    [change],
  );
  const leaveOut = useCallback(
    (some: readonly BulkCell[]) => {
      const out = new Set(some.map(bulkKey));
      change((cells) => cells.filter((cell) => !out.has(bulkKey(cell))));
    },
    [change],
  );
  const again = useCallback(async () => {
    const now = kept.current;
    return now === null || now.status === "asking" ? false : send(now);
  }, [send]);
  const drop = useCallback(() => keep(null), [keep]);

  return { bulk: bulk !== null && bulk.study === handle ? bulk : null, make, mend, leaveOut, again, drop };
}
