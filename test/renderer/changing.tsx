import { fireEvent, screen } from "@testing-library/react";
import type { EditedView, GridView, Reply } from "../../app/contract/index.ts";
import { gridOf, studyState, withReading } from "./fixture.ts";
import { cellAt, type OpenedApp, openApp } from "./page.tsx";

/** Changing a reading on the page of runs, as the tests do it. */

/** The first nine runs: looking through the page takes as long as its table is large. */
export const grid: GridView = gridOf(9);

export const lastOf = (app: OpenedApp, kind: string) => app.asked.findLast((request) => request.kind === kind);
export const countOf = (app: OpenedApp, kind: string) => app.asked.filter((request) => request.kind === kind).length;

export const edited: EditedView = {
  ...studyState,
  run: null,
  revision: 8,
  undo: { edit: 8, label: "the change of fuel before in run R02 from 1504 to 1540" },
  done: "Fuel before of run R02 is 1540.",
};

/** The grid after the weighing of fuel before the cold start of R02 was changed. */
export const changedGrid: GridView = withReading(grid, "R02", "cold-start", "fuel_start_g", "1540");

export const refusal = (message: string): Reply<"edit.make"> => ({ ok: false, reason: "refused", message });

/** Fuel before the cold start of R02: behind run and phase, variant, date, operator, start, end, fuel. */
export const place = "3:7";
/** The same of the row below. */
export const below = "4:7";
export const label = "R02, cold start, fuel before, g";

export async function openReadings(
  first: Parameters<typeof openApp>[1] = {},
  who: string | null = "Ama",
): Promise<OpenedApp> {
  if (who !== null) sessionStorage.setItem("boilbench.who", who);
  const app = openApp("#/runs", { "grid.show": grid, "edit.make": edited, ...first });
  await screen.findByRole("grid", { name: "Readings and results: a row for each phase of a run" });
  return app;
}

export const fieldOf = () =>
  document.querySelector<HTMLInputElement>(`input[aria-label="${label}"]`) as HTMLInputElement;

/** Goes to the field of the cell from the table, as somebody without a mouse does. */
export function enterField(key = "Enter"): HTMLInputElement {
  cellAt(place).focus();
  fireEvent.keyDown(cellAt(place), { key });
  return fieldOf();
}

export function typeIn(input: HTMLInputElement, value: string): void {
  input.focus();
  fireEvent.input(input, { target: { value } });
}

/** A step of a cell's history. */
export const step = (
  edit: number,
  way: "edit" | "undo" | "redo",
  before: string,
  after: string,
  why: string | null,
) => ({
  edit,
  at: "2026-11-25T14:07:00.000Z",
  who: "Kofi",
  what: "a change",
  why,
  way,
  before,
  after,
});
