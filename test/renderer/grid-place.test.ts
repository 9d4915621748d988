import { describe, expect, it } from "vitest";
import { placeAfterKey } from "../../renderer/component/grid-place.ts";

const size = { rows: 10, columns: 5, page: 4 };
const press = (key: string, ctrlKey = false) => ({ key, ctrlKey, metaKey: false });

/** Keys as in the WAI-ARIA Authoring Practices Guide, pattern "grid" (data grids). */
describe("keys in a grid, from row 5 and column 2", () => {
  const from = { row: 5, column: 2 };
  it.each([
    ["ArrowLeft", false, 5, 1],
    ["ArrowRight", false, 5, 3],
    ["ArrowUp", false, 4, 2],
    ["ArrowDown", false, 6, 2],
    ["Home", false, 5, 0],
    ["End", false, 5, 4],
    ["PageUp", false, 1, 2],
    ["PageDown", false, 9, 2],
    ["Home", true, -1, 0],
    ["End", true, 9, 4],
  ])("%s (with control: %s) leads to row %i, column %i", (key, ctrl, row, column) => {
    expect(placeAfterKey(from, press(key, ctrl), size)).toEqual({ row, column });
  });

  it("stay inside at every edge; the headings are one row up", () => {
    expect(placeAfterKey({ row: 0, column: 0 }, press("ArrowUp"), size)).toEqual({ row: -1, column: 0 });
    expect(placeAfterKey({ row: -1, column: 0 }, press("ArrowUp"), size)).toEqual({ row: -1, column: 0 });
    expect(placeAfterKey({ row: -1, column: 0 }, press("ArrowLeft"), size)).toEqual({ row: -1, column: 0 });
    expect(placeAfterKey({ row: 9, column: 4 }, press("ArrowDown"), size)).toEqual({ row: 9, column: 4 });
    expect(placeAfterKey({ row: 9, column: 4 }, press("ArrowRight"), size)).toEqual({ row: 9, column: 4 });
  });

  it("leave other keys alone", () => {
    for (const key of ["Tab", "a", "Enter", "Escape", "F1"]) expect(placeAfterKey(from, press(key), size)).toBeNull();
  });
});
