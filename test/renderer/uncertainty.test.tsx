// @vitest-environment jsdom
import { fireEvent, render, screen, waitFor, within } from "@testing-library/react";
import { describe, expect, it } from "vitest";
import type { ComparisonBudgetView, MonteCarloView, ResultBudgetView } from "../../app/contract/index.ts";
import { wordsFor } from "../../core/index.ts";
import { quantitiesOf } from "../../renderer/state/quantities.ts";
import { routeOf } from "../../renderer/state/route.ts";
import { ComparisonBudget } from "../../renderer/view/compare/comparison-budget.tsx";
import {
  plainText,
  quantityKeyOf,
  type RunsColumn,
  runsColumns,
  uncertainText,
} from "../../renderer/view/runs/grid-columns.ts";
import { uncertainRooms } from "../../renderer/view/runs/uncertain-room.ts";
import { countOf, lastOf } from "./changing.tsx";
import { grid, gridColumns } from "./fixture.ts";
import { cellAt, type OpenedApp, openApp } from "./page.tsx";

const { screens: words } = wordsFor("en");
const known = { words, locale: "en", quantities: quantitiesOf("en"), method: "wbt" } as const;
const columns = runsColumns(gridColumns, { ...known, withUncertainty: true });

function columnOf(key: string, among: readonly RunsColumn[] = columns): RunsColumn {
  const column = among.find((one) => one.key === key);
  if (column === undefined) throw new Error(`no column ${key}`);
  return column;
}
const [first, second] = grid.part;
if (first === undefined || second === undefined) throw new Error("the fixture has no rows");

describe("a result beside its uncertainty", () => {
  it("is cut where the uncertainty has two digits (JCGM 100:2008, 7.2.6)", () => {
    // 0.2147 with 0.011: 21.47 and 1.1 %; 457.0 ± 1.6 g of 1504 - 1047 - 3 = 454; 5217 ± 310 W.
    expect(uncertainText(first, columnOf("result.thermalEfficiency"), "en")).toEqual({
      value: "21.5",
      fraction: ".5",
      half: "1.1",
    });
    expect(uncertainText(first, columnOf("result.fuelConsumedMoist"), "en")).toEqual({
      value: "454.0",
      fraction: ".0",
      half: "1.6",
    });
    expect(uncertainText(first, columnOf("result.firepower"), "en")).toEqual({
      value: "5\u202f217",
      fraction: "",
      half: "310",
    });
  });

  it("stands alone where none is known, or none is to be shown", () => {
    expect(uncertainText(first, columnOf("result.charFormed"), "en")).toBeNull();
    expect(uncertainText(first, columnOf("reading.fuel_start_g"), "en")).toBeNull();
    const bare = runsColumns(gridColumns, { ...known, withUncertainty: false });
    expect(uncertainText(first, columnOf("result.thermalEfficiency", bare), "en")).toBeNull();
    expect(uncertainText({ ...first, expanded: [] }, columnOf("result.thermalEfficiency"), "en")).toBeNull();
  });

  it("goes to a spreadsheet as the bare number", () => {
    expect(plainText(first, columnOf("result.thermalEfficiency"), words)).toBe("21.47");
  });

  it("is named by phase and quantity; of a whole run with its first row alone", () => {
    expect(quantityKeyOf(first, columnOf("result.firepower"))).toBe("cold-start.firepower");
    expect(quantityKeyOf(first, columnOf("runResult.taskFuel5L"))).toBe("taskFuel5L");
    expect(quantityKeyOf(second, columnOf("runResult.taskFuel5L"))).toBeNull();
    expect(quantityKeyOf(first, columnOf("reading.fuel_start_g"))).toBeNull();
  });

  it("has room for the widest of its column", () => {
    const efficiency = columnOf("result.thermalEfficiency");
    const at = efficiency.uncertaintyAt ?? -1;
    const finer = { ...second, expanded: second.expanded.map((half, index) => (index === at ? 0.0011 : half)) };
    const blocks = new Map([[0, { tag: "", rows: [first, finer] }]]);
    const rooms = uncertainRooms(blocks, [efficiency], "en");
    // ".47" is two digits and a sign; "± 0.11" two digits behind a sign and one before it, with "± ".
    expect(rooms).toEqual({ [`--fraction-${at}`]: "2.5ch", [`--half-${at}`]: "5ch" });
  });
});

const budget: ResultBudgetView["budget"] = {
  label: "thermal efficiency, cold start",
  value: "21.5 ± 1.1",
  unit: "%",
  coverage: "at 95 %, coverage factor 1.96",
  rows: [
    {
      name: "moisture meter",
      detail: "meter, shared by all runs",
      share: "98 %",
      alone: "± 1.1 percentage points",
      whenHalved: "± 1.1 would become ± 0.6 percentage points",
    },
  ],
  chart: null,
  notes: ["Not included: thermometer."],
};
const idle: MonteCarloView = { state: "none", trials: "200 000 trials, seed 1", because: null };

/** Opens Runs and walks to the efficiency of the first row. */
async function atResult(answers: Parameters<typeof openApp>[1] = {}): Promise<OpenedApp & { readonly place: string }> {
  const app = openApp("#/runs", {
    "budget.ofResult": { budget, hasErrors: true },
    "monteCarlo.show": idle,
    ...answers,
  });
  const heading = await screen.findByRole("columnheader", { name: "thermal efficiency, %" });
  const place = `0:${Number(heading.getAttribute("aria-colindex")) - 1}`;
  fireEvent.mouseDown(cellAt(place));
  cellAt(place).focus();
  return { ...app, place };
}

describe("results in Runs", { timeout: 60_000 }, () => {
  it("show their uncertainty until somebody hides it, which is kept", async () => {
    const { place } = await atResult();
    expect(cellAt(place).textContent).toBe("21.5 ± 1.1");
    const box = screen.getByRole("checkbox", { name: "± uncertainty" });
    fireEvent.click(box);
    await waitFor(() => expect(cellAt(place).textContent).toBe("21.5"));
    expect(localStorage.getItem("boilbench.uncertainty.tall-kettle")).toBe("hidden");
    fireEvent.click(box);
    await waitFor(() => expect(cellAt(place).textContent).toBe("21.5 ± 1.1"));
    expect(localStorage.getItem("boilbench.uncertainty.tall-kettle")).toBeNull();
  });

  it("do not offer it where no errors are stated", async () => {
    const bare = { ...grid, hasErrors: false, part: grid.part.map((row) => ({ ...row, expanded: [] })) };
    const { place } = await atResult({ "grid.show": bare });
    expect(cellAt(place).textContent).toBe("21.5");
    expect(screen.queryByRole("checkbox", { name: "± uncertainty" })).toBeNull();
  });

  it("are taken apart on Enter; Escape closes that, and the focus is on the cell again", async () => {
    const app = await atResult();
    const { place } = app;
    fireEvent.keyDown(cellAt(place), { key: "Enter" });
    const panel = await screen.findByRole("region", { name: "What the uncertainty is made of" });
    await waitFor(() => expect(document.activeElement?.textContent).toBe("What the uncertainty is made of"));
    await within(panel).findByText("moisture meter");
    expect(lastOf(app, "budget.ofResult")).toMatchObject({ run: "101", quantity: "cold-start.thermalEfficiency" });
    for (const text of ["98 %", "± 1.1 would become ± 0.6 percentage points", "Not included: thermometer."]) {
      expect(within(panel).getByText(text)).toBeDefined();
    }
    fireEvent.keyDown(panel, { key: "Escape" });
    await waitFor(() => expect(screen.queryByRole("region", { name: "What the uncertainty is made of" })).toBeNull());
    await waitFor(() => expect(document.activeElement).toBe(cellAt(place)));
  });

  it("lead to the set-up where nothing is stated", async () => {
    const none = { ...budget, value: "21.5", rows: [], notes: [] };
    const { place } = await atResult({ "budget.ofResult": { budget: none, hasErrors: false } });
    fireEvent.keyDown(cellAt(place), { key: "Enter" });
    const link = await screen.findByRole("link", { name: "State errors in Set up" });
    expect(link.getAttribute("href")).toMatch(/^#\/study\?.*setUp=instrument/);
    expect(screen.queryByRole("button", { name: "Check by Monte Carlo" })).toBeNull();
  });
});

describe("Monte Carlo on demand", { timeout: 60_000 }, () => {
  const done: MonteCarloView = {
    state: "done",
    result: {
      trials: "200 000 trials, seed 1",
      unit: "%",
      rows: [{ name: "mean", monteCarlo: "21.6", firstOrder: "21.5" }],
      verdict: ["Thermal efficiency, cold start: first order and Monte Carlo agree."],
      tone: "agrees",
    },
  };
  async function opened(answers: Parameters<typeof openApp>[1] = {}) {
    const app = await atResult(answers);
    fireEvent.keyDown(cellAt(app.place), { key: "Enter" });
    return { ...app, start: await screen.findByRole("button", { name: "Check by Monte Carlo" }) };
  }

  it("asks how far it is until it is done, and shows it beside first order", async () => {
    const app = await opened({ "monteCarlo.start": { state: "running", share: 0 } });
    const { start, answer } = app;
    answer({ "monteCarlo.show": { state: "running", share: 0.42 } });
    start.focus();
    fireEvent.click(start);
    await screen.findByText("Drawing: 42 % done");
    expect(lastOf(app, "monteCarlo.start")).toMatchObject({ run: "101", quantity: "cold-start.thermalEfficiency" });
    expect(screen.getByRole("progressbar").getAttribute("value")).toBe("0.42");
    expect(document.activeElement?.textContent).toBe("Stop");
    answer({ "monteCarlo.show": done });
    const table = await screen.findByRole("table", { name: "Monte Carlo beside first order" });
    expect(within(table).getByRole("row", { name: "mean 21.6 21.5" })).toBeDefined();
    expect(screen.getByRole("heading", { name: "Monte Carlo" })).toBe(document.activeElement);
  });

  it("stops when it is told to", async () => {
    const running = { state: "running", share: 0.1 } as const;
    const app = await opened({ "monteCarlo.start": running, "monteCarlo.cancel": idle });
    const { start, answer } = app;
    answer({ "monteCarlo.show": running });
    fireEvent.click(start);
    fireEvent.click(await screen.findByRole("button", { name: "Stop" }));
    await screen.findByText("Stopped. Nothing was kept.");
    expect(lastOf(app, "monteCarlo.cancel")).toMatchObject({ run: "101" });
    expect(screen.getByRole("button", { name: "Check by Monte Carlo" })).toBeDefined();
  });

  it("says why where nothing can be drawn, and offers to try again where it broke off", async () => {
    const { answer, start } = await opened({ "monteCarlo.start": { state: "failed", message: "It broke off." } });
    answer({ "monteCarlo.show": { state: "failed", message: "It broke off." } });
    fireEvent.click(start);
    await screen.findByText("It broke off.");
    answer({ "monteCarlo.start": { ...idle, because: "No trials are asked for." } as MonteCarloView });
    fireEvent.click(screen.getByRole("button", { name: "Try again" }));
    await screen.findByText("No trials are asked for.");
    expect(screen.queryByRole("button", { name: "Check by Monte Carlo" })).toBeNull();
  });
});

describe("the budgets of a comparison", () => {
  const whole: ComparisonBudgetView = {
    hasErrors: true,
    parts: [{ of: "difference", title: "the difference", budget, advice: ["More runs would help."] }],
  };
  const opened = async (answer: ComparisonBudgetView) => {
    const app = openApp("#/studies", { "budget.ofComparison": answer });
    render(<ComparisonBudget route={routeOf("#/compare?variant=skirt")} />);
    const summary = screen.getByText("What the uncertainty is made of");
    expect(countOf(app, "budget.ofComparison")).toBe(0);
    fireEvent.click(summary);
    await waitFor(() => expect(countOf(app, "budget.ofComparison")).toBe(1));
    return app;
  };

  it("are asked for when they are opened, and not before", async () => {
    const app = await opened(whole);
    const part = await screen.findByRole("region", { name: "the difference" });
    expect(within(part).getByText("More runs would help.")).toBeDefined();
    expect(within(part).getByText("moisture meter")).toBeDefined();
    expect(lastOf(app, "budget.ofComparison")).toMatchObject({
      choice: { quantity: null, variant: "skirt", baseline: null },
    });
  });

  it("lead to the set-up where nothing is stated", async () => {
    await opened({ hasErrors: false, parts: [] });
    const link = await screen.findByRole("link", { name: "State errors in Set up" });
    expect(link.getAttribute("href")).toMatch(/^#\/study\?.*setUp=instrument/);
  });
});
