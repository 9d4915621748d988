import type { Phase, Run } from "../../../core/index.ts";
import { phaseCells } from "../../import/index.ts";

/** What stands in one cell of a phase's row, as the page shows it; "" where the cell is empty. For a whole row: `phaseCells`. */
export function cellText(run: Run, phase: Phase, column: string): string {
  return phaseCells(run, phase).find((cell) => cell.column === column)?.text ?? "";
}
