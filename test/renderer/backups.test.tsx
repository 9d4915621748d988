// @vitest-environment jsdom
import { fireEvent, screen, waitFor, within } from "@testing-library/react";
import { beforeEach, describe, expect, it } from "vitest";
import type { BackupsView, ShelfView, StudyView } from "../../app/contract/index.ts";
import { study } from "./fixture.ts";
import { type OpenedApp, openApp } from "./page.tsx";

/** The way from a study that cannot be opened, or not be changed, to its backups. */

const entry = {
  place: "place-1",
  name: "Brick and skirt",
  file: "/home/bench/studies/Brick and skirt.boilstudy",
  at: "2026-11-24T09:30:00.000Z",
  recent: true,
  isGone: false,
};
const shelf = (isGone: boolean): ShelfView => ({ studies: [{ ...entry, isGone }], folder: "/home/bench", names: [] });

const backup = (number: number) => ({
  id: `b-${number}`,
  at: `2026-11-2${number}T09:30:00.000Z`,
  runs: 12,
  edits: number,
  kilobytes: 90,
  why: "made while working",
});
const backups: BackupsView = { backups: [5, 4, 3, 2].map(backup), folder: "/home/bench/backups" };
const none: BackupsView = { backups: [], folder: "/home/bench/backups" };
const back: StudyView = { ...study, study: "back", name: "Brick and skirt", isExample: false };

const lastOf = (app: OpenedApp, kind: string) => app.asked.findLast((request) => request.kind === kind);
const openTheNewest = async () =>
  fireEvent.click(
    (
      await screen.findAllByRole("button", { name: /^Open as a study of its own: the backup of 2026-11-25/ })
    )[0] as HTMLElement,
  );

beforeEach(() => sessionStorage.setItem("boilbench.who", "Ama"));

describe("a study that cannot be opened", () => {
  const damaged = { ok: false, reason: "refused", message: "stove.boilstudy is damaged." } as const;

  it("tells why at its entry, takes the focus there, and opens a backup as a study of its own", async () => {
    const app = openApp("#/studies", {
      "shelf.show": shelf(false),
      "study.open": damaged,
      "backups.ofPlace": backups,
      "backups.open": back,
    });
    fireEvent.click(await screen.findByRole("button", { name: "Open “Brick and skirt”" }));
    const told = await screen.findByText("stove.boilstudy is damaged.");
    const item = screen.getByRole("button", { name: "Open “Brick and skirt”" }).closest("li") as HTMLElement;
    expect(item.contains(told)).toBe(true);
    expect(within(item).getByText("It could not be opened.")).toBeDefined();
    expect(document.activeElement?.contains(told)).toBe(true);
    expect(await within(item).findByText(/12 runs, 5 changes, 90 kB/)).toBeDefined();
    expect(within(item).getByText("1 older backup")).toBeDefined();
    await openTheNewest();
    await screen.findByText(/as it was on 2026-11-25 .*, is now open as a study of its own/);
    expect(lastOf(app, "backups.open")).toEqual({ kind: "backups.open", place: "place-1", backup: "b-5" });
    await waitFor(() => expect(location.hash).toBe("#/study?study=back"));
  });

  it("nothing is asked about the backups of those that can be opened", async () => {
    const app = openApp("#/studies", { "shelf.show": shelf(false) });
    await screen.findByRole("button", { name: "Open “Brick and skirt”" });
    expect(lastOf(app, "backups.ofPlace")).toBeUndefined();
  });

  it("one that is gone shows its backups at once; without any it says so", async () => {
    const app = openApp("#/studies", { "shelf.show": shelf(true), "backups.ofPlace": none });
    await screen.findByText(/It is not there any more/);
    await screen.findByText("There is no backup of it on this machine.");
    expect(lastOf(app, "backups.ofPlace")).toEqual({ kind: "backups.ofPlace", place: "place-1" });
    expect(screen.queryByRole("button", { name: /backup/ })).toBeNull();
  });

  it("says at the backup why it could not be opened either", async () => {
    openApp("#/studies", {
      "shelf.show": shelf(true),
      "backups.ofPlace": backups,
      "backups.open": { ok: false, reason: "refused", message: "The disk is full." },
    });
    await openTheNewest();
    const told = await screen.findByText("The disk is full.");
    expect(within(told.closest("li.backup") as HTMLElement).getByText(/5 changes/)).toBeDefined();
  });

  it("of the address: its page has them too, and asks who is writing", async () => {
    sessionStorage.clear();
    const app = openApp("#/compare?study=place-1", {
      "study.show": damaged,
      "backups.ofPlace": backups,
      "backups.open": back,
    });
    await screen.findByText("stove.boilstudy is damaged.");
    await openTheNewest();
    fireEvent.change(await screen.findByLabelText("Name for the record"), { target: { value: "Esi" } });
    fireEvent.click(screen.getByRole("button", { name: "Write under this name" }));
    app.answer({ "study.show": back });
    await screen.findByText(/is now open as a study of its own/);
    expect(lastOf(app, "backups.open")).toEqual({ kind: "backups.open", place: "place-1", backup: "b-5" });
  });

  it("of the address, where the host knows nothing of it: the plain statement alone", async () => {
    openApp("#/compare?study=place-1", {
      "study.show": damaged,
      "backups.ofPlace": { ok: false, reason: "refused", message: "It is not in the list." },
    });
    await screen.findByText("stove.boilstudy is damaged.");
    await waitFor(() => expect(screen.queryByText("It is not in the list.")).toBeNull());
    expect(screen.queryByText(/[Bb]ackup/)).toBeNull();
  });
});

describe("a study that is open and damaged", () => {
  const damaged = { ...study, study: "brick", readOnly: "This file is damaged: it can only be read." };

  it("has its backups open; one becomes a study of its own, which the page follows and tells of", async () => {
    const app = openApp("#/runs?study=brick", {
      "study.show": damaged,
      "backups.show": backups,
      "backups.goBack": back,
    });
    fireEvent.click(await screen.findByRole("button", { name: "Go to its backups" }));
    await waitFor(() => expect(document.activeElement?.textContent).toBe("Backups"));
    expect(screen.queryByRole("button", { name: /^Go back to it/ })).toBeNull();
    expect(screen.queryByRole("button", { name: "Make one now" })).toBeNull();
    await openTheNewest();
    await screen.findByText(/“Brick and skirt”, as it was on 2026-11-25 .*, is now open as a study of its own/);
    expect(lastOf(app, "backups.goBack")).toEqual({
      kind: "backups.goBack",
      study: "brick",
      backup: "b-5",
      who: "Ama",
    });
    await waitFor(() => expect(location.hash).toBe("#/study?study=back"));
    expect(screen.queryByText("This study cannot be changed now.")).toBeNull();
  });
});
