// @vitest-environment jsdom
import { fireEvent, render, screen, waitFor, within } from "@testing-library/react";
import { describe, expect, it, vi } from "vitest";
import { ChartTable } from "../../renderer/view/compare/chart-table.tsx";
import { ComparisonSentence } from "../../renderer/view/compare/comparison-sentence.tsx";
import { Everything } from "../../renderer/view/compare/everything.tsx";
import { emptyStudyView } from "../build/study-view.ts";
import { lastOf } from "./changing.tsx";
import { comparison, grid as fixtureGrid, study, variants } from "./fixture.ts";
import { cellAt, openApp } from "./page.tsx";

/** What the service answers where the choice has no row. */
const noRows = { ...fixtureGrid, rows: 0, runs: 0, part: [] };

describe("the cover", () => {
  it("names the study, counts its runs and questions, and says that it is invented", async () => {
    openApp("#/study");
    const cover = await screen.findByRole("banner");
    await within(cover).findByText("Tall kettle stove, skirt and gap");
    expect(within(cover).getByText("23 of 24 runs · 3 questions")).toBeDefined();
    expect(within(cover).getByText("Invented example: not real tests")).toBeDefined();
  });

  it("does not call somebody's own study invented", async () => {
    openApp("#/study", { "study.show": { ...study, isExample: false } });
    await screen.findAllByText("Tall kettle stove, skirt and gap");
    expect(screen.queryByText("Invented example: not real tests")).toBeNull();
  });

  it("has a divider for each page that there is, and for no other", async () => {
    openApp("#/runs");
    await screen.findByRole("grid");
    const links = within(screen.getByRole("navigation")).getAllByRole("link");
    expect(links.map((link) => link.textContent)).toEqual(["Study", "Bench", "Runs", "Import", "Compare", "Report"]);
    expect(
      links.filter((link) => link.getAttribute("aria-current") === "page").map((link) => link.textContent),
    ).toEqual(["Runs"]);
  });

  it("keeps the chosen colours", async () => {
    openApp("#/study");
    fireEvent.change(await screen.findByLabelText("Colours"), { target: { value: "dark" } });
    expect(document.documentElement.dataset.theme).toBe("dark");
    expect(localStorage.getItem("boilbench.theme")).toBe("dark");
    fireEvent.change(screen.getByLabelText("Colours"), { target: { value: "system" } });
    expect(document.documentElement.dataset.theme).toBeUndefined();
  });
});

describe("Study", () => {
  it("tells variants with their factors, questions, left-out runs and rows, inputs with their digest, and the cautions", async () => {
    openApp("#/study");
    const row = await screen.findByRole("row", { name: /skirt, narrow gap yes narrow 6/ });
    expect(row).toBeDefined();
    expect(screen.getByRole("row", { name: /no skirt, narrow gap no narrow 5 1/ })).toBeDefined();
    expect(screen.getByText(/36 %\. Was the meter set to wet basis/)).toBeDefined();
    expect(screen.getByText("abandoned: the pot tipped over")).toBeDefined();
    expect(screen.getByText("Row 31 of tall-kettle.csv")).toBeDefined();
    expect(screen.getByText(study.inputs[0]?.sha256 ?? "")).toBeDefined();
    expect(screen.getByText(/carbon monoxide, which kills without warning/)).toBeDefined();
  });

  it("leads from a question to its cell in Runs", async () => {
    openApp("#/study");
    const [first] = await screen.findAllByRole("link", { name: "Look at it in Runs" });
    fireEvent.click(first as HTMLElement);
    await waitFor(() => expect(document.activeElement?.getAttribute("data-place") ?? "").toMatch(/^20:/));
    expect(document.activeElement?.textContent).toContain("51 min");
  });

  it("says what to do where nothing was recorded", async () => {
    openApp("#/study", { "study.show": emptyStudyView });
    await screen.findByText("Nothing has been recorded in this study yet.");
    // The page asks for the study that is open, and then keeps it in its address.
    await waitFor(() =>
      expect(screen.getByRole("link", { name: "Import a readings file" }).getAttribute("href")).toBe(
        "#/import?study=new-study",
      ),
    );
    expect(screen.queryByRole("table")).toBeNull();
  });

  it("shows markup in a name as text", async () => {
    openApp("#/study", { "study.show": { ...study, name: "<img src=x onerror=alert(1)>" } });
    const title = await screen.findByText("<img src=x onerror=alert(1)>", { selector: "h1 *" });
    expect(title.querySelector("img")).toBeNull();
  });
});

describe("Runs", () => {
  const sortedBy = (falling: boolean) => ({ choice: { sort: { column: "run.run", falling } } });

  it("is one stop for Tab, walked with arrows, and sorts by the heading that Enter is pressed on", async () => {
    const app = openApp("#/runs");
    const grid = await screen.findByRole("grid", { name: "Readings and results: a row for each phase of a run" });
    expect(grid.querySelectorAll("[tabindex='0']")).toHaveLength(1);
    cellAt("0:0").focus();
    fireEvent.keyDown(cellAt("0:0"), { key: "ArrowUp" });
    await waitFor(() => expect(document.activeElement?.textContent).toBe("run, phase"));
    fireEvent.keyDown(document.activeElement as Element, { key: "Enter" });
    await waitFor(() => expect(lastOf(app, "grid.show")).toMatchObject(sortedBy(false)));
    fireEvent.keyDown(document.activeElement as Element, { key: "Enter" });
    await screen.findByText("Sorted by run, phase, largest or last first.");
    await waitFor(() => expect(lastOf(app, "grid.show")).toMatchObject(sortedBy(true)));
    expect(within(grid).getByRole("columnheader", { name: /^run/ }).getAttribute("aria-sort")).toBe("descending");
    await waitFor(() => expect(location.hash).toContain("sort=run.run&falling=yes"));
    fireEvent.keyDown(document.activeElement as Element, { key: "Enter" });
    await waitFor(() => expect(lastOf(app, "grid.show")).toMatchObject({ choice: { sort: null } }));
  });

  it("gives the reason for what is missing, in the cell and in what is said about it", async () => {
    openApp("#/runs");
    const cell = (await screen.findByText("not known: no simmer phase", { selector: ".visually-hidden" })).closest(
      "td",
    ) as HTMLElement;
    expect(cell.textContent).toContain("—");
    fireEvent.mouseDown(cell);
    const about = screen.getByRole("region", { name: "About this cell" });
    expect(within(about).getByText("not known: no simmer phase")).toBeDefined();
    expect(within(about).getByText(/turn-down/)).toBeDefined();
  });

  it("shows a left-out run as such, with its reason", async () => {
    openApp("#/runs");
    const [name] = (await screen.findAllByRole("rowheader", { name: /R09/ })) as [HTMLElement];
    expect(name.textContent).toContain("left out: abandoned: the pot tipped over");
    expect(name.closest("tr")?.className).toContain("left-out");
  });

  it("keeps in the address which rows are shown, and asks for those alone", async () => {
    const app = openApp("#/runs");
    await screen.findByRole("grid");
    fireEvent.change(screen.getByLabelText("Phase"), { target: { value: "hot-start" } });
    fireEvent.change(screen.getByLabelText("Show"), { target: { value: "questions" } });
    fireEvent.change(screen.getByLabelText("Find"), { target: { value: "R07" } });
    await waitFor(() =>
      expect(lastOf(app, "grid.show")).toMatchObject({
        choice: { find: "R07", phase: "hot-start", only: "questions", variant: null },
      }),
    );
    await waitFor(() =>
      expect(location.hash).toBe("#/runs?study=tall-kettle&find=R07&ofPhase=hot-start&only=questions"),
    );
    app.answer({ "grid.show": { ...noRows } });
    fireEvent.change(screen.getByLabelText("Find"), { target: { value: "R0777" } });
    await screen.findByText("No row has what was asked for.");
    app.answer({ "grid.show": fixtureGrid });
    fireEvent.click(screen.getByRole("button", { name: "Show all rows" }));
    await screen.findByRole("grid");
    await waitFor(() => expect(location.hash).toBe("#/runs?study=tall-kettle"));
    expect(screen.getByText("72 rows, 24 runs")).toBeDefined();
  });

  it("says what to do where there are no runs", async () => {
    openApp("#/runs", { "grid.show": { ...noRows, allRows: 0, allRuns: 0 } });
    await screen.findByText("There are no runs yet.");
    await waitFor(() =>
      expect(screen.getByRole("link", { name: "Go to Import" }).getAttribute("href")).toMatch(/^#\/import/),
    );
    await waitFor(() =>
      expect(screen.getByRole("link", { name: "Go to the Bench" }).getAttribute("href")).toMatch(/^#\/bench/),
    );
  });
});

describe("the comparison as a sentence", () => {
  const open = () => {
    const onChoose = vi.fn();
    render(
      <ComparisonSentence
        chosen={comparison.choice}
        quantities={comparison.quantities}
        variants={variants}
        onChoose={onChoose}
      />,
    );
    return onChoose;
  };

  it("changes one word at a time", () => {
    const onChoose = open();
    fireEvent.change(screen.getByLabelText("What is compared"), { target: { value: "cold-start.timeToBoil" } });
    expect(onChoose).toHaveBeenLastCalledWith({ ...comparison.choice, quantity: "cold-start.timeToBoil" });
  });

  it("swaps the two variants rather than comparing one with itself", () => {
    const onChoose = open();
    fireEvent.change(screen.getByLabelText("Variant"), { target: { value: "no skirt, wide gap" } });
    expect(onChoose).toHaveBeenLastCalledWith({
      quantity: "taskFuel5L",
      variant: "no skirt, wide gap",
      baseline: "skirt, wide gap",
    });
  });
});

describe("what stands below the comparison", () => {
  it("is every quantity with a verdict in words, and a strip that is told in words too", () => {
    const onShow = vi.fn();
    render(<Everything view={comparison} onShow={onShow} />);
    const row = screen.getByText("time to boil, cold start, min").closest("tr") as HTMLElement;
    expect(within(row).getByText(/cannot tell: between 19/)).toBeDefined();
    expect(within(row).getByRole("img").getAttribute("aria-label")).toMatch(/^time to boil, cold start, min: -8/);
    const others = screen.getByText("the other method’s formulas").closest("details");
    expect(within(others as HTMLElement).getAllByRole("row")).toHaveLength(2);
    expect(within(screen.getByRole("row", { name: /turn-down/ })).queryByRole("img")).toBeNull();
    fireEvent.click(within(row).getByRole("button"));
    expect(onShow).toHaveBeenCalledWith("cold-start.timeToBoil");
  });

  it("is the chart's table, with every run and the left-out one as such", () => {
    render(<ChartTable view={comparison} />);
    const row = screen.getByRole("row", { name: /^no skirt, narrow gap/ });
    expect(row.querySelectorAll("li")).toHaveLength(6);
    expect(row.querySelectorAll("li.run-left-out")).toHaveLength(1);
  });
});
