import { useCallback, useRef } from "react";
import { cellLimit } from "../../../app/contract/index.ts";
import type { GridRows } from "../../state/grid.ts";
import type { BulkCell, BulkDesk, BulkWay } from "../../state/grid-bulk.ts";
import { copiedCell, pastedRows, systemDecimalSign, tabbedText, tableMarkup } from "../../state/grid-clipboard.ts";
import { cellsOf, columnsOf, type GridRange, rowsOf, targetOf } from "../../state/grid-range.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";
import { bulkCells } from "./bulk-cells.ts";
import { plainText, type RunsColumn } from "./grid-columns.ts";

export interface GridActs {
  readonly copy: (data: DataTransfer) => boolean;
  readonly paste: (data: DataTransfer) => boolean;
  readonly fillDown: () => void;
  readonly empty: () => void;
}

/** What is done with a range of the grid: copying, pasting, filling down, emptying. */
export function useGridActs({
  grid,
  columns,
  range,
  choose,
  desk,
  onDone,
}: {
  grid: GridRows;
  columns: readonly RunsColumn[];
  range: GridRange | null;
  choose: (range: GridRange) => void;
  desk: BulkDesk;
  onDone: () => void;
}): GridActs {
  const words = useWords();
  const { tell, view } = useStudy();
  const prepared = useRef<{ readonly key: string; readonly rows: string[][] } | null>(null);
  const rowsInGrid = grid.head?.rows ?? 0;

  const textsOf = useCallback(
    (of: GridRange, rows: readonly Parameters<typeof plainText>[0][]) => {
      const sign = systemDecimalSign();
      const chosen = columns.slice(of.left, of.right + 1);
      const texts = rows.map((row) =>
        chosen.map((column) => copiedCell(plainText(row, column, words), column.align === "number", sign)),
      );
      // The whole table is copied with its headings.
      const isWhole = of.top === 0 && of.bottom === rowsInGrid - 1 && of.left === 0 && of.right === columns.length - 1;
      return isWhole && columns.length > 1 ? [chosen.map(({ heading }) => heading), ...texts] : texts;
    },
    [columns, rowsInGrid, words],
  );

  const copy = (data: DataTransfer): boolean => {
    if (range === null) return false;
    const key = JSON.stringify([range, grid.tag]);
    let texts = prepared.current?.key === key ? prepared.current.rows : null;
    if (texts === null) {
      const rows = Array.from({ length: rowsOf(range) }, (_, index) => grid.rowAt(range.top + index));
      if (rows.every((row) => row !== undefined)) texts = textsOf(range, rows);
    }
    if (texts !== null) {
      prepared.current = null;
      data.setData("text/plain", tabbedText(texts));
      data.setData("text/html", tableMarkup(texts));
      tell(words.grid.copied(cellsOf(range)));
      return true;
    }
    tell(words.grid.fetching);
    void grid.fetch(range.top, range.bottom + 1).then((rows) => {
      if (rows === null) {
        tell(words.grid.fetchFailed);
        return;
      }
      prepared.current = { key, rows: textsOf(range, rows) };
      // The browser lets a page copy only while a key was pressed just now.
      if (!document.execCommand("copy")) tell(words.grid.copyAgain);
    });
    return true;
  };

  const send = async (way: BulkWay, cells: readonly BulkCell[]) => {
    // What could not be done before is kept until it is done or dropped.
    if (desk.bulk !== null) tell(words.grid.bulkPending);
    else if (cells.length === 0) tell(words.grid.sameAlready);
    else if (cells.length > cellLimit) tell(words.grid.tooMany(cells.length, cellLimit));
    else if (await desk.make(way, cells)) onDone();
  };

  /** The rows of a range as they are now, and what to do with them; what was done to many cells before is not lost for it. */
  const change = async (
    way: BulkWay,
    target: GridRange,
    textAt: (row: number, column: number, first: string[]) => string,
  ) => {
    if (view?.readOnly !== null) {
      tell(words.grid.readOnly);
      return;
    }
    const chosen = columns.slice(target.left, target.right + 1);
    if (way !== "paste" && chosen.every(({ reading, at }) => reading === null || at === null)) {
      tell(words.grid.noReadings);
      return;
    }
    const rows = await grid.fetch(target.top, target.bottom + 1);
    const [first] = rows ?? [];
    if (rows === null || first === undefined) {
      tell(words.grid.fetchFailed);
      return;
    }
    const texts = chosen.map((column) => plainText(first, column, words));
    await send(
      way,
      bulkCells(way, rows, chosen, (row, column) => textAt(row, column, texts), words),
    );
  };

  const paste = (data: DataTransfer): boolean => {
    if (range === null) return false;
    const text = data.getData("text/plain");
    if (text === "") {
      tell(words.grid.nothingPasted);
      return true;
    }
    let block = pastedRows(text);
    const headings = columns.slice(range.left, range.left + (block[0]?.length ?? 0)).map(({ heading }) => heading);
    // A whole table was copied with its headings.
    if (
      block.length > 1 &&
      headings.length > 1 &&
      block[0]?.every((cell, index) => cell === headings[index]) === true
    ) {
      block = block.slice(1);
    }
    const height = block.length;
    const width = block[0]?.length ?? 1;
    const target = targetOf(range, height, width);
    if (target.bottom >= rowsInGrid || target.right >= columns.length) {
      tell(words.grid.doesNotFit(height, width, rowsInGrid - range.top, columns.length - range.left));
      return true;
    }
    if (cellsOf(target) > cellLimit) {
      tell(words.grid.tooMany(cellsOf(target), cellLimit));
      return true;
    }
    choose(target);
    void change("paste", target, (row, column) => block[row % height]?.[column % width] ?? "");
    return true;
  };

  const fillDown = () => {
    if (range === null) return;
    // One row is filled from the one above it.
    const top = rowsOf(range) > 1 ? range.top : range.top - 1;
    if (top < 0) tell(words.grid.nothingToFill);
    else if (tooLarge()) return;
    else void change("fillDown", { ...range, top }, (_, column, first) => first[column] ?? "");
  };
  const empty = () => {
    if (range !== null && !tooLarge()) void change("empty", range, () => "");
  };
  const tooLarge = (): boolean => {
    const n = range === null ? 0 : rowsOf(range) * columnsOf(range);
    if (n <= cellLimit) return false;
    tell(words.grid.tooMany(n, cellLimit));
    return true;
  };

  return { copy, paste, fillDown, empty };
}
