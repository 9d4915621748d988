import { describe, expect, it } from "vitest";
import { choiceOfKey } from "../../renderer/component/grid-place.ts";
import { columnsInSight } from "../../renderer/component/row-window.ts";
import { cellsOf, partOfRow, rangeBetween, rangeWithin, targetOf } from "../../renderer/state/grid-range.ts";

const at = (row: number, column: number) => ({ row, column });
const range = (top: number, bottom: number, left: number, right: number) => ({ top, bottom, left, right });

describe("cells that are chosen", () => {
  it("reach from one corner to the other, whichever is which, and never into the headings", () => {
    expect(rangeBetween(at(5, 1), at(2, 4))).toEqual(range(2, 5, 1, 4));
    expect(rangeBetween(at(-1, 3), at(2, 3))).toEqual(range(0, 2, 3, 3));
    expect(rangeBetween(at(-1, 0), at(-1, 4))).toBeNull();
    expect(cellsOf(range(2, 5, 1, 4))).toBe(16);
  });

  it("are as many as the grid has", () => {
    expect(rangeWithin(range(2, 90, 1, 40), 10, 5)).toEqual(range(2, 9, 1, 4));
    expect(rangeWithin(range(10, 12, 0, 0), 10, 5)).toBeNull();
  });

  it("are marked row by row; a single cell is not marked beside its focus", () => {
    expect(partOfRow(range(2, 5, 1, 4), 2)).toBe("1-4");
    expect(partOfRow(range(2, 5, 1, 4), 6)).toBeNull();
    expect(partOfRow(range(2, 2, 1, 1), 2)).toBeNull();
  });

  it.each([
    ["one value over all of them", range(0, 3, 0, 2), 1, 1, range(0, 3, 0, 2)],
    ["as often as it fits", range(0, 3, 0, 2), 2, 3, range(0, 3, 0, 2)],
    ["once, where it does not fit evenly", range(0, 3, 0, 2), 3, 2, range(0, 2, 0, 1)],
    ["once from a single cell on", range(7, 7, 2, 2), 40, 12, range(7, 46, 2, 13)],
  ])("what was copied goes %s", (_, chosen, height, width, target) => {
    expect(targetOf(chosen, height, width)).toEqual(target);
  });
});

describe("keys that choose a whole", () => {
  const key = (name: string, more = {}) => ({
    key: name,
    ctrlKey: false,
    metaKey: false,
    shiftKey: false,
    altKey: false,
    ...more,
  });
  it("row, column and all", () => {
    expect(choiceOfKey(key("a", { ctrlKey: true }))).toBe("all");
    expect(choiceOfKey(key("a", { metaKey: true }))).toBe("all");
    expect(choiceOfKey(key(" ", { shiftKey: true }))).toBe("row");
    expect(choiceOfKey(key(" ", { ctrlKey: true }))).toBe("column");
  });
  it("and no others", () => {
    for (const one of [
      key("a"),
      key(" "),
      key(" ", { altKey: true, shiftKey: true }),
      key(" ", { ctrlKey: true, shiftKey: true }),
    ])
      expect(choiceOfKey(one)).toBeNull();
  });
});

describe("columns that are drawn", () => {
  const widths = [200, 100, 100, 100, 100, 100];
  it("are those in sight behind the frozen one, and one on either side", () => {
    expect(columnsInSight(widths, 0, 250)).toEqual([1, 5]);
    expect(columnsInSight(widths, 250, 100)).toEqual([2, 6]);
    expect(columnsInSight(widths, 10_000, 100)).toEqual([4, 6]);
  });
});
