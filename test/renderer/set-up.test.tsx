// @vitest-environment jsdom
import { fireEvent, screen, waitFor } from "@testing-library/react";
import { describe, expect, it } from "vitest";
import type { SetUpFieldView, SetUpSectionView, SetUpView, StudyView } from "../../app/contract/index.ts";
import { countOf, edited, lastOf, refusal } from "./changing.tsx";
import { study } from "./fixture.ts";
import { type OpenedApp, openApp } from "./page.tsx";

const field = (name: string, more: Partial<SetUpFieldView> = {}): SetUpFieldView => ({
  field: name,
  name,
  unit: null,
  kind: "text",
  needed: false,
  what: `What ${name} is.`,
  choices: null,
  ...more,
});

const variants: SetUpSectionView = {
  subject: "variant",
  title: "Variants",
  sentence: "What is compared.",
  fields: [field("name", { needed: true }), field("factor:gap mm", { name: "gap mm" })],
  items: [
    { item: "1", title: null, texts: ["plain", "12"], detail: "12 runs", isRemovable: false },
    { item: "2", title: null, texts: ["with skirt", "8"], detail: "planned", isRemovable: true },
  ],
  add: "Add a variant",
  addField: "Add a design factor",
  fieldSuggestions: ["skirt mm"],
  catalogue: null,
};
const setUp = (section: SetUpSectionView = variants): SetUpView => ({ sections: [section] });
const withGap = (text: string): SetUpView =>
  setUp({
    ...variants,
    items: variants.items.map((item) => (item.item === "2" ? { ...item, texts: ["with skirt", text] } : item)),
  });

const newStudy: StudyView = { ...study, runs: 0, leftOut: 0, variants: [], questions: [], isExample: false };
const cell = (name: string) => screen.getByLabelText<HTMLInputElement>(name);
const gap = () => cell("gap mm, with skirt");
const type = (input: HTMLElement, value: string) => fireEvent.change(input, { target: { value } });

async function opened(view: StudyView = newStudy): Promise<OpenedApp> {
  sessionStorage.setItem("boilbench.who", "Ama");
  const app = openApp("#/study", { "study.show": view, "setup.show": setUp(), "edit.make": edited });
  await screen.findByLabelText("name, plain");
  return app;
}

describe("a cell of the set-up", () => {
  it("is saved with Enter as one change, and not once more when it is left before the page hears of it", async () => {
    const app = await opened();
    type(gap(), "9");
    fireEvent.keyDown(gap(), { key: "Enter" });
    await waitFor(() => expect(countOf(app, "edit.make")).toBe(1));
    expect(lastOf(app, "edit.make")).toMatchObject({
      who: "Ama",
      edit: { kind: "setUp", subject: "variant", item: "2", fields: [{ field: "factor:gap mm", text: "9", was: "8" }] },
    });
    await screen.findByText(edited.done);
    fireEvent.blur(gap());
    expect(countOf(app, "edit.make")).toBe(1);
  });

  it("is saved when it is left, and taken back with Escape", async () => {
    const app = await opened();
    type(gap(), "9");
    fireEvent.keyDown(gap(), { key: "Escape" });
    fireEvent.blur(gap());
    expect(gap().value).toBe("8");
    expect(countOf(app, "edit.make")).toBe(0);
    type(gap(), "7");
    fireEvent.blur(gap());
    await waitFor(() => expect(countOf(app, "edit.make")).toBe(1));
  });

  it("keeps what was refused, with the reason under its row, until it is taken back", async () => {
    const app = await opened();
    app.answer({ "edit.make": refusal("gap mm: too wide. Write less.") });
    type(gap(), "900");
    fireEvent.keyDown(gap(), { key: "Enter" });
    await screen.findByText("gap mm: too wide. Write less.");
    expect(gap().value).toBe("900");
    expect(gap().getAttribute("aria-invalid")).toBe("true");
    const described = document.getElementById(gap().getAttribute("aria-describedby") ?? "");
    expect(described?.textContent).toContain("too wide");
    fireEvent.keyDown(gap(), { key: "Escape" });
    expect(screen.queryByText("gap mm: too wide. Write less.")).toBeNull();
    expect(gap().value).toBe("8");
  });

  it("tells the service what stood there when typing began, also where another window changed it meanwhile", async () => {
    const app = await opened();
    type(gap(), "9");
    app.answer({ "setup.show": withGap("11"), "study.state": { ...edited, revision: 20 } });
    fireEvent(window, new Event("focus"));
    type(cell("gap mm, plain"), "13");
    fireEvent.keyDown(cell("gap mm, plain"), { key: "Enter" });
    await waitFor(() => expect(countOf(app, "setup.show")).toBeGreaterThan(1));
    expect(gap().value).toBe("9");
    fireEvent.keyDown(gap(), { key: "Enter" });
    await waitFor(() => expect(countOf(app, "edit.make")).toBe(2));
    expect(lastOf(app, "edit.make")).toMatchObject({ edit: { fields: [{ text: "9", was: "8" }] } });
  });

  it("cannot be changed in a study that is not to be written to", async () => {
    await opened({ ...newStudy, readOnly: "It is a copy." });
    expect(gap().readOnly).toBe(true);
    expect(screen.queryByRole("button", { name: "Add a variant" })).toBeNull();
    expect(screen.queryByRole("button", { name: "Remove with skirt" })).toBeNull();
  });
});

describe("rows", () => {
  it("are added as one change: Enter goes to what is still needed, then saves", async () => {
    const app = await opened();
    fireEvent.click(screen.getByRole("button", { name: "Add a variant" }));
    type(cell("gap mm, new"), "6");
    fireEvent.keyDown(cell("gap mm, new"), { key: "Enter" });
    expect(countOf(app, "edit.make")).toBe(0);
    expect(document.activeElement).toBe(cell("name, new"));
    type(cell("name, new"), "raised grate");
    fireEvent.keyDown(cell("name, new"), { key: "Enter" });
    await waitFor(() => expect(countOf(app, "edit.make")).toBe(1));
    expect(lastOf(app, "edit.make")).toMatchObject({
      edit: {
        subject: "variant",
        item: null,
        fields: [
          { field: "name", text: "raised grate", was: "" },
          { field: "factor:gap mm", text: "6", was: "" },
        ],
      },
    });
    await waitFor(() => expect(screen.queryByLabelText("name, new")).toBeNull());
  });

  it("are removed where nothing uses them", async () => {
    const app = await opened();
    expect(screen.queryByRole("button", { name: "Remove plain" })).toBeNull();
    fireEvent.click(screen.getByRole("button", { name: "Remove with skirt" }));
    await waitFor(() => expect(countOf(app, "edit.make")).toBe(1));
    expect(lastOf(app, "edit.make")).toMatchObject({ edit: { kind: "removeSetUp", subject: "variant", item: "2" } });
  });

  it("get a column for a design factor, usual or of any name", async () => {
    const app = await opened();
    fireEvent.click(screen.getByRole("button", { name: "Add the design factor skirt mm" }));
    const name = cell("Name of the design factor");
    type(name, "height of the chamber");
    fireEvent.submit(name.closest("form") as HTMLFormElement);
    type(cell("height of the chamber, plain"), "250");
    fireEvent.blur(cell("height of the chamber, plain"));
    await waitFor(() => expect(countOf(app, "edit.make")).toBe(1));
    expect(lastOf(app, "edit.make")).toMatchObject({
      edit: { item: "1", fields: [{ field: "factor:height of the chamber", text: "250", was: "" }] },
    });
    expect(cell("skirt mm, plain").value).toBe("");
  });
});

describe("where it stands on the page", () => {
  it("a study with runs asks nothing about it before it is unfolded", async () => {
    const app = openApp("#/study", { "setup.show": setUp() });
    await screen.findByRole("heading", { name: "Set up" });
    expect(countOf(app, "setup.show")).toBe(0);
    expect(screen.queryByRole("link", { name: "Begin a run on the Bench" })).toBeNull();
  });

  it("a new study is asked for the name of its first variant, and led to the Bench", async () => {
    const app = await opened();
    const name = cell("What is this form of the stove called?");
    fireEvent.submit(name.closest("form") as HTMLFormElement);
    await screen.findByText("Give it a name first.");
    type(name, "without skirt");
    const variant = { name: "without skirt", index: 0, runs: 0, leftOut: 0, onBench: 0, factors: [] };
    app.answer({ "study.show": { ...newStudy, ...edited, variants: [variant] } });
    fireEvent.submit(name.closest("form") as HTMLFormElement);
    const link = await screen.findByRole("link", { name: "Begin a run on the Bench" });
    await waitFor(() => expect(link.getAttribute("href")).toMatch(/^#\/bench/));
    await waitFor(() => expect(document.activeElement).toBe(link));
  });

  it("variants without runs are told as planned", async () => {
    const planned = { name: "raised grate", index: 2, runs: 0, leftOut: 0, onBench: 0, factors: [] };
    openApp("#/study", { "study.show": { ...study, variants: [...study.variants, planned] } });
    const row = (await screen.findByRole("rowheader", { name: /raised grate/ })).closest("tr");
    expect(row?.textContent).toContain("planned");
  });

  it("each column tells what it is", async () => {
    await opened();
    fireEvent.click(screen.getByRole("button", { name: "What is “gap mm”?" }));
    await screen.findByText("What factor:gap mm is.");
  });
});
