// @vitest-environment jsdom
import { cleanup, fireEvent, screen, waitFor, within } from "@testing-library/react";
import { describe, expect, it } from "vitest";
import { gridOf, study } from "./fixture.ts";
import { defectiveImport } from "./import-fixture.ts";
import { cellAt, mendedImport, type OpenedApp, openApp } from "./page.tsx";

const file = (name: string, text = "run\n1\n") => new File([text], name);

function pick(name: string, label: RegExp = /readings file/): void {
  const input = screen.getAllByLabelText(label).find((element) => element instanceof HTMLInputElement);
  fireEvent.change(input as HTMLInputElement, { target: { files: [file(name)] } });
}

async function openDefective(): Promise<OpenedApp> {
  const app = openApp("#/import", { "import.check": defectiveImport });
  pick("week-12.csv");
  await screen.findByText("What is wrong, what is odd");
  return app;
}

const lastOf = (app: OpenedApp, kind: string) => app.asked.findLast((request) => request.kind === kind);

/** The cell with the typing error: row 5 of the file. */
const wrongCell = () => cellAt("3:8");

describe("a file on its way in", () => {
  it("is sent with its bytes, and nothing else is asked of the open study", async () => {
    const app = await openDefective();
    expect(lastOf(app, "import.check")).toEqual({
      kind: "import.check",
      readings: { name: "week-12.csv", contentBase64: btoa("run\n1\n") },
      settings: null,
    });
    expect(app.asked.some((request) => request.kind === "import.accept")).toBe(false);
  });

  it("shows each problem in its cell, in a list, and cannot be taken while errors stand", async () => {
    await openDefective();
    expect(wrongCell().textContent).toMatch(/^1o47/);
    expect(wrongCell().textContent).toContain("is not a number");
    expect(wrongCell().className).toContain("wrong");
    expect(screen.getByText("2 errors · 1 question")).toBeDefined();
    expect(screen.queryByRole("button", { name: "Take into a study" })).toBeNull();
    expect(screen.getByText(/2 errors stand in the way/)).toBeDefined();
    expect(screen.getByRole("radio", { name: "the open study, “Tall kettle stove, skirt and gap”" })).toBeDefined();
  });

  it("is stepped through: next moves the focus to the cell of the next problem, and round again", async () => {
    await openDefective();
    const next = screen.getByRole("button", { name: "Next" });
    fireEvent.click(next);
    await waitFor(() => expect(document.activeElement?.getAttribute("data-place")).toBe("33:9"));
    fireEvent.click(next);
    await waitFor(() => expect(document.activeElement?.getAttribute("data-place")).toBe("38:0"));
    fireEvent.click(next);
    await waitFor(() => expect(document.activeElement).toBe(wrongCell()));
    fireEvent.click(screen.getByRole("button", { name: "Previous" }));
    await waitFor(() => expect(document.activeElement?.getAttribute("data-place")).toBe("38:0"));
  });

  it("is mended in place: Enter opens the cell, Enter keeps what was typed, and the focus stays there", async () => {
    const app = await openDefective();
    app.answer({ "import.mend": mendedImport });
    wrongCell().focus();
    fireEvent.keyDown(wrongCell(), { key: "Enter" });
    const writer = screen.getByRole("textbox", { name: "Row 5, fuel_end_g" });
    expect(document.activeElement).toBe(writer);
    fireEvent.change(writer, { target: { value: "1047" } });
    fireEvent.keyDown(writer, { key: "Enter" });
    await waitFor(() =>
      expect(lastOf(app, "import.mend")).toMatchObject({ cells: [{ row: 5, column: 7, text: "1047" }] }),
    );
    await waitFor(() => expect(document.activeElement?.getAttribute("data-place")).toBe("3:8"));
    expect(document.activeElement?.textContent).toMatch(/^1047/);
    expect(document.activeElement?.textContent).toContain("was 1o47");
    expect(screen.getByRole("button", { name: "Take into a study" })).toBeDefined();
  });

  it("takes a cell back on Escape, and asks nothing", async () => {
    const app = await openDefective();
    fireEvent.doubleClick(wrongCell());
    const writer = screen.getByRole("textbox", { name: "Row 5, fuel_end_g" });
    fireEvent.change(writer, { target: { value: "9" } });
    fireEvent.keyDown(writer, { key: "Escape" });
    await waitFor(() => expect(document.activeElement).toBe(wrongCell()));
    expect(lastOf(app, "import.mend")).toBeUndefined();
  });

  it("begins anew with the character that is typed on a cell, and keeps it when the cell is left", async () => {
    const app = await openDefective();
    app.answer({ "import.mend": mendedImport });
    fireEvent.keyDown(wrongCell(), { key: "7" });
    const writer = screen.getByRole<HTMLInputElement>("textbox", { name: "Row 5, fuel_end_g" });
    expect(writer.value).toBe("7");
    fireEvent.blur(writer);
    await waitFor(() => expect(lastOf(app, "import.mend")).toMatchObject({ cells: [{ text: "7" }] }));
  });

  it("leaves out a row that is wrong as a whole", async () => {
    const app = await openDefective();
    app.answer({ "import.mend": mendedImport });
    fireEvent.click(screen.getByRole("button", { name: /row 40/ }));
    fireEvent.click(await screen.findByRole("button", { name: "Leave row 40 out" }));
    await waitFor(() => expect(lastOf(app, "import.mend")).toMatchObject({ cells: [], leaveOutRows: [40] }));
    await screen.findByRole("button", { name: "Put row 40 back" });
  });

  it("puts a row back, and leaves what was mended", async () => {
    const app = await openDefective();
    app.answer({ "import.mend": mendedImport });
    fireEvent.keyDown(wrongCell(), { key: "7" });
    fireEvent.blur(screen.getByRole("textbox", { name: "Row 5, fuel_end_g" }));
    await screen.findByRole("button", { name: "Take into a study" });
    fireEvent.mouseDown(cellAt("38:0"));
    fireEvent.click(await screen.findByRole("button", { name: "Put row 40 back" }));
    await waitFor(() =>
      expect(lastOf(app, "import.mend")).toMatchObject({ cells: [{ row: 5, column: 7, text: "7" }], leaveOutRows: [] }),
    );
  });

  it("is there again after a reload, with what was mended and the rows that were left out", async () => {
    const first = await openDefective();
    first.answer({ "import.mend": mendedImport });
    fireEvent.keyDown(wrongCell(), { key: "7" });
    fireEvent.blur(screen.getByRole("textbox", { name: "Row 5, fuel_end_g" }));
    await screen.findByRole("button", { name: "Take into a study" });
    cleanup();
    const again = openApp(location.hash, { "import.mend": mendedImport });
    await screen.findByText("What is wrong, what is odd");
    expect(lastOf(again, "import.mend")).toEqual({
      kind: "import.mend",
      importId: "import-1",
      cells: [],
      leaveOutRows: [40],
    });
    expect(wrongCell().textContent).toContain("was 1o47");
  });

  it("is taken with the name that was typed, in one step, and the page goes on to the study", async () => {
    const app = openApp("#/import", {
      "import.check": mendedImport,
      "import.accept": { ...study, study: "march", name: "March" },
    });
    pick("week-12.csv");
    const name = await screen.findByRole<HTMLInputElement>("textbox", { name: "Name of the study" });
    expect(name.value).toBe("week-12");
    expect(screen.getByText("24 runs, 72 phases, 4 variants")).toBeDefined();
    fireEvent.change(name, { target: { value: " March " } });
    sessionStorage.setItem("boilbench.who", "Ama");
    fireEvent.click(screen.getByRole("button", { name: "Take into a study" }));
    await screen.findByText("“March” is now the open study.");
    expect(lastOf(app, "import.accept")).toEqual({
      kind: "import.accept",
      importId: "import-1",
      into: { kind: "new", studyName: "March" },
      who: "Ama",
    });
    await waitFor(() => expect(location.hash).toBe("#/study?study=march"));
  });

  it("needs a name", async () => {
    const app = openApp("#/import", { "import.check": mendedImport });
    pick("week-12.csv");
    fireEvent.change(await screen.findByRole("textbox", { name: "Name of the study" }), { target: { value: "  " } });
    fireEvent.click(screen.getByRole("button", { name: "Take into a study" }));
    expect(screen.getByText("Give the study a name first.")).toBeDefined();
    expect(lastOf(app, "import.accept")).toBeUndefined();
  });

  it("tells of a file that is neither readings nor settings", async () => {
    const app = openApp("#/import");
    pick("photo.png");
    await screen.findByText(/Not taken: photo\.png\. Readings are a \.csv/);
    expect(lastOf(app, "import.check")).toBeUndefined();
  });

  it("stays on the desk, with what was typed, while the host does not answer and other pages are looked at", async () => {
    const app = await openDefective();
    fireEvent.change(screen.getByRole("textbox", { name: "Name of the study" }), { target: { value: "my own name" } });
    app.answer({ "import.mend": new Error("gone"), "study.show": new Error("gone"), "grid.show": gridOf(3) });
    fireEvent.keyDown(wrongCell(), { key: "8" });
    fireEvent.blur(screen.getByRole("textbox", { name: "Row 5, fuel_end_g" }));
    const banner = await screen.findByText("The program behind this page does not answer.");
    expect(within(banner.parentElement as HTMLElement).getByRole("button", { name: "Try again" })).toBeDefined();
    expect(cellAt("3:8").textContent).toMatch(/^8/);
    fireEvent.click(screen.getByRole("link", { name: "Runs" }));
    await screen.findByText("9 rows, 3 runs");
    fireEvent.click(screen.getByRole("link", { name: "Import" }));
    expect((await screen.findByRole<HTMLInputElement>("textbox", { name: "Name of the study" })).value).toBe(
      "my own name",
    );
    app.answer({ "study.show": study, "import.mend": mendedImport });
    fireEvent.click(screen.getByRole("button", { name: "Try again" }));
    await waitFor(() => expect(screen.queryByText("The program behind this page does not answer.")).toBeNull());
    await waitFor(() =>
      expect(lastOf(app, "import.mend")).toMatchObject({ cells: [{ row: 5, column: 7, text: "8" }] }),
    );
  });
});
