// @vitest-environment jsdom
import { createEvent, fireEvent, screen, waitFor, within } from "@testing-library/react";
import { describe, expect, it } from "vitest";
import type { Reply, ShelfView, StudyView } from "../../app/contract/index.ts";
import { study, studyState } from "./fixture.ts";
import { goodImport } from "./import-fixture.ts";
import { mendedImport, type OpenedApp, openApp } from "./page.tsx";

const lastOf = (app: OpenedApp, kind: string) => app.asked.findLast((request) => request.kind === kind);

const shelf: ShelfView = {
  studies: [
    {
      place: "recent-1",
      name: "Brick and skirt",
      file: "/home/bench/studies/Brick and skirt.boilstudy",
      at: "2026-11-24T09:30:00.000Z",
      recent: true,
      isGone: false,
    },
    {
      place: "recent-2",
      name: "On the stick",
      file: "/media/stick/On the stick.boilstudy",
      at: "2026-11-20T09:30:00.000Z",
      recent: true,
      isGone: true,
    },
  ],
  folder: "/home/bench/studies",
  names: ["Ama", "Kofi"],
};

const brick: StudyView = { ...study, study: "brick", name: "Brick and skirt", isExample: false };

async function openStudies(first: Parameters<typeof openApp>[1] = {}): Promise<OpenedApp> {
  const app = openApp("#/studies", { "shelf.show": shelf, "study.open": brick, ...first });
  await screen.findByText("Studies that can be opened");
  return app;
}

const drop = (name: string) => {
  const event = createEvent.drop(window);
  Object.defineProperty(event, "dataTransfer", { value: { types: ["Files"], files: [new File(["SQLite"], name)] } });
  fireEvent(window, event);
};

describe("the page of studies", () => {
  it("is reached from the study's name and by Ctrl O, and has no divider", async () => {
    openApp("#/runs", { "shelf.show": shelf });
    const link = await screen.findByRole("link", { name: /Tall kettle stove, skirt and gap.*choose another study/ });
    await waitFor(() => expect(link.getAttribute("href")).toMatch(/^#\/studies/));
    fireEvent.keyDown(document.body, { key: "o", ctrlKey: true });
    await screen.findByRole("heading", { level: 1, name: "Which study?" });
    const links = within(screen.getByRole("navigation")).getAllByRole("link");
    expect(links.map((one) => one.textContent)).not.toContain("Studies");
  });

  it("lists what can be opened; what is gone is told of and cannot be", async () => {
    await openStudies();
    expect(screen.getByRole("button", { name: "Open “Brick and skirt”" })).toBeDefined();
    expect(screen.queryByRole("button", { name: /On the stick/ })).toBeNull();
    expect(screen.getByText(/It is not there any more/)).toBeDefined();
    expect(screen.getByText("/media/stick/On the stick.boilstudy")).toBeDefined();
  });

  it("needs a name before a study is opened, offers the earlier ones, and says that it is recorded, not checked", async () => {
    const app = await openStudies();
    fireEvent.click(screen.getByRole("button", { name: "Open “Brick and skirt”" }));
    await screen.findByText("Say who is writing first.");
    expect(document.activeElement).toBe(screen.getByLabelText("Name for the record"));
    expect(lastOf(app, "study.open")).toBeUndefined();
    expect(screen.getByText(/It is recorded, not checked/)).toBeDefined();
    fireEvent.click(screen.getByRole("button", { name: "Kofi" }));
    fireEvent.click(screen.getByRole("button", { name: "Open “Brick and skirt”" }));
    await screen.findByText("“Brick and skirt” is open.");
    expect(lastOf(app, "study.open")).toEqual({ kind: "study.open", place: "recent-1" });
    await waitFor(() => expect(location.hash).toBe("#/study?study=brick"));
    expect(screen.getByRole("button", { name: /writing: Kofi/ })).toBeDefined();
  });

  it("begins a study with a name and a method", async () => {
    localStorage.setItem("boilbench.who", "Ama");
    const app = await openStudies({ "study.create": brick });
    fireEvent.click(screen.getByRole("button", { name: "Begin it" }));
    await screen.findByText("Give the study a name first.");
    fireEvent.change(screen.getByLabelText("Name of the new study"), { target: { value: " Brick " } });
    fireEvent.click(screen.getByRole("radio", { name: "ISO 19867-1:2018" }));
    fireEvent.click(screen.getByRole("button", { name: "Begin it" }));
    await waitFor(() =>
      expect(lastOf(app, "study.create")).toEqual({ kind: "study.create", name: "Brick", method: "iso", who: "Ama" }),
    );
  });

  it("says why one could not be opened, and looks again at what is there", async () => {
    sessionStorage.setItem("boilbench.who", "Ama");
    const app = await openStudies({
      "study.open": { ok: false, reason: "refused", message: "That file is damaged. Go back to a backup." },
    });
    fireEvent.click(screen.getByRole("button", { name: "Open “Brick and skirt”" }));
    await screen.findByText("That file is damaged. Go back to a backup.");
    await waitFor(() => expect(app.asked.filter((one) => one.kind === "shelf.show")).toHaveLength(2));
    await waitFor(() => expect(location.hash).toMatch(/^#\/studies/));
  });
});

describe("a file is dropped anywhere", () => {
  it("a study file is taken into the studies and opened", async () => {
    sessionStorage.setItem("boilbench.who", "Ama");
    const app = openApp("#/runs", { "shelf.show": shelf, "study.receive": brick });
    await screen.findByRole("grid");
    drop("Brick and skirt.boilstudy");
    await screen.findByText("“Brick and skirt” is open.");
    expect(lastOf(app, "study.receive")).toEqual({
      kind: "study.receive",
      file: { name: "Brick and skirt.boilstudy", contentBase64: btoa("SQLite") },
    });
  });

  it("everything else goes to Import", async () => {
    const app = openApp("#/runs", { "import.check": goodImport });
    await screen.findByRole("grid");
    drop("week-12.csv");
    await screen.findByText("What is wrong, what is odd");
    expect(lastOf(app, "study.receive")).toBeUndefined();
  });
});

describe("which study a window shows", () => {
  it("goes into the address once the host has named it, and into everything that is asked", async () => {
    const app = openApp("#/runs");
    await screen.findByRole("grid");
    await waitFor(() => expect(location.hash).toBe("#/runs?study=tall-kettle"));
    expect(app.asked[0]).toEqual({ kind: "study.show", study: null });
    expect(lastOf(app, "grid.show")).toMatchObject({ study: "tall-kettle", from: 0 });
    expect(app.asked.filter((one) => one.kind === "study.show")).toHaveLength(1);
  });

  it("is told where it is not open any more, with the way to those that can be opened", async () => {
    const app = openApp("#/compare?study=closed", {
      "study.show": { ok: false, reason: "refused", message: "That study is not open any more." },
      "shelf.show": shelf,
    });
    await screen.findByText("That study is not open any more.");
    expect(lastOf(app, "compare.show")).toBeUndefined();
    fireEvent.click(screen.getByRole("link", { name: "Choose a study" }));
    await screen.findByRole("heading", { level: 1, name: "Which study?" });
  });

  it("says that it cannot be changed and why, with what is to be known of its file, and opens it anew", async () => {
    const file = shelf.studies[0]?.file ?? "";
    const held = { ...brick, file, readOnly: "Another program holds it.", fileNotes: ["It is worked on as a copy."] };
    const app = openApp("#/study?study=brick", { "study.show": held, "shelf.show": shelf });
    await screen.findByText("Another program holds it.");
    expect(screen.getByText("It is worked on as a copy.")).toBeDefined();
    expect(screen.queryByRole("button", { name: "Rename" })).toBeNull();
    app.answer({ "study.open": { ...brick, file }, "study.show": { ...brick, file } });
    fireEvent.click(screen.getByRole("button", { name: "Open it anew" }));
    await screen.findByText("It can be changed now.");
    expect(lastOf(app, "study.open")).toEqual({ kind: "study.open", place: "recent-1" });
    await waitFor(() => expect(screen.queryByText("Another program holds it.")).toBeNull());
  });
});

describe("the Study page", () => {
  const own = { "study.show": brick };

  it("renames the study in place, and Escape takes that back", async () => {
    sessionStorage.setItem("boilbench.who", "Ama");
    const done = { ...studyState, study: "brick", revision: 8, done: "Renamed.", run: null };
    const app = openApp("#/study", { ...own, "edit.make": done });
    fireEvent.click(await screen.findByRole("button", { name: "Rename" }));
    const name = screen.getByRole<HTMLInputElement>("textbox", { name: "Name of this study" });
    fireEvent.change(name, { target: { value: "no" } });
    fireEvent.keyDown(name, { key: "Escape" });
    const opener = await screen.findByRole("button", { name: "Rename" });
    await waitFor(() => expect(document.activeElement).toBe(opener));
    expect(lastOf(app, "edit.make")).toBeUndefined();
    fireEvent.click(opener);
    const again = screen.getByRole<HTMLInputElement>("textbox", { name: "Name of this study" });
    expect(again.value).toBe("Brick and skirt");
    fireEvent.change(again, { target: { value: " Lighter brick " } });
    fireEvent.submit(again.form as HTMLFormElement);
    await screen.findByText("Renamed.");
    expect(lastOf(app, "edit.make")).toMatchObject({ edit: { kind: "renameStudy", name: "Lighter brick" } });
  });

  it("says where the file is and that every change is saved, and saves a copy under a name", async () => {
    const copied = { fileName: "/home/bench/studies/For Kofi.boilstudy" };
    const app = openApp("#/study", { ...own, "study.saveCopy": copied });
    await screen.findByText(/Every change is saved as it is made/);
    expect(screen.getByText(brick.file)).toBeDefined();
    fireEvent.change(screen.getByLabelText("Name of the copy"), { target: { value: "For Kofi" } });
    fireEvent.click(screen.getByRole("button", { name: "Save a copy" }));
    await screen.findByText(/A copy was saved as \/home\/bench\/studies\/For Kofi\.boilstudy/);
    expect(lastOf(app, "study.saveCopy")).toEqual({ kind: "study.saveCopy", study: "brick", name: "For Kofi" });
  });

  it("goes back to a backup only when that is confirmed, and says that it can be undone", async () => {
    sessionStorage.setItem("boilbench.who", "Ama");
    const backup = {
      id: "b-1",
      at: "2026-11-24T09:30:00.000Z",
      runs: 12,
      edits: 3,
      kilobytes: 90,
      why: "before an import",
    };
    const app = openApp("#/study", {
      ...own,
      "backups.show": { backups: [backup], folder: "/home/bench/backups" },
      "backups.goBack": { ...brick, revision: 9 },
    });
    const details = (await screen.findByText("Backups")).closest("details") as HTMLDetailsElement;
    expect(lastOf(app, "backups.show")).toBeUndefined();
    details.open = true;
    fireEvent(details, new Event("toggle"));
    fireEvent.click(await screen.findByRole("button", { name: /^Go back to it: the backup of 2026-11-24/ }));
    const dialog = screen.getByRole("dialog", { name: "Go back to this backup?" });
    expect(within(dialog).getByText(/with 12 runs\. This is one change, and it can be undone/)).toBeDefined();
    fireEvent.click(within(dialog).getByRole("button", { name: "Stay where it is" }));
    expect(lastOf(app, "backups.goBack")).toBeUndefined();
    fireEvent.click(screen.getByRole("button", { name: /^Go back to it: the backup of/ }));
    fireEvent.click(within(screen.getByRole("dialog")).getByRole("button", { name: "Go back" }));
    await screen.findByText(/^The study is what it was on 2026-11-24/);
    expect(lastOf(app, "backups.goBack")).toEqual({
      kind: "backups.goBack",
      study: "brick",
      backup: "b-1",
      who: "Ama",
    });
  });

  it("shows the record of changes newest first, and older ones when they are asked for", async () => {
    const recorded = (edit: number) => ({
      edit,
      at: "2026-11-24T09:30:00.000Z",
      who: "Kofi",
      what: `change number ${edit}`,
      why: edit === 9 ? "misread" : null,
      way: "edit" as const,
    });
    const app = openApp("#/study", {
      ...own,
      "record.show": { edits: [9, 8, 7, 6, 5, 4].map(recorded), more: true },
    });
    await screen.findByText("change number 9");
    expect(screen.getByText("because: misread")).toBeDefined();
    expect(screen.queryByText("change number 4")).toBeNull();
    fireEvent.click(screen.getByRole("button", { name: "Show older ones" }));
    await screen.findByText("change number 4");
    app.answer({ "record.show": { edits: [3, 2].map(recorded), more: false } });
    fireEvent.click(screen.getByRole("button", { name: "Show older ones" }));
    await screen.findByText("change number 2");
    expect(lastOf(app, "record.show")).toEqual({ kind: "record.show", study: "brick", before: 4 });
    expect(screen.queryByRole("button", { name: "Show older ones" })).toBeNull();
  });
});

describe("a file is taken in", () => {
  const pick = () => {
    const input = screen.getAllByLabelText(/readings file/).find((element) => element instanceof HTMLInputElement);
    fireEvent.change(input as HTMLInputElement, { target: { files: [new File(["run\n1\n"], "week-12.csv")] } });
  };

  it("into the open study, if that is chosen; no name is needed then", async () => {
    sessionStorage.setItem("boilbench.who", "Ama");
    const app = openApp("#/import", { "import.check": mendedImport, "import.accept": { ...study, revision: 9 } });
    await screen.findAllByText("Tall kettle stove, skirt and gap");
    pick();
    fireEvent.click(await screen.findByRole("radio", { name: /^the open study/ }));
    expect(screen.queryByRole("textbox", { name: "Name of the study" })).toBeNull();
    fireEvent.click(screen.getByRole("button", { name: "Take into a study" }));
    await screen.findByText("24 runs were taken into “Tall kettle stove, skirt and gap”.");
    expect(lastOf(app, "import.accept")).toEqual({
      kind: "import.accept",
      importId: "import-1",
      into: { kind: "open", study: "tall-kettle" },
      who: "Ama",
    });
  });

  it("only as a study of its own, where the open one cannot be changed", async () => {
    openApp("#/import", {
      "import.check": mendedImport,
      "study.show": { ...study, readOnly: "It is held elsewhere." },
    });
    await screen.findByText("It is held elsewhere.");
    pick();
    await screen.findByText(/so this becomes a study of its own/);
    expect(screen.queryByRole("radio")).toBeNull();
  });

  it("asks who is writing where that is not known, and goes on", async () => {
    const refused: Reply<"import.accept"> = { ok: false, reason: "refused", message: "no room on the disk" };
    const app = openApp("#/import", { "import.check": mendedImport, "import.accept": refused });
    await screen.findAllByText("Tall kettle stove, skirt and gap");
    pick();
    fireEvent.click(await screen.findByRole("button", { name: "Take into a study" }));
    const dialog = await screen.findByRole("dialog", { name: "Who is writing?" });
    expect(lastOf(app, "import.accept")).toBeUndefined();
    fireEvent.change(within(dialog).getByLabelText("Name for the record"), { target: { value: "Esi" } });
    fireEvent.click(within(dialog).getByRole("button", { name: "Write under this name" }));
    await screen.findByText("no room on the disk");
    expect(lastOf(app, "import.accept")).toMatchObject({ who: "Esi", into: { kind: "new", studyName: "week-12" } });
  });
});
