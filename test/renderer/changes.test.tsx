// @vitest-environment jsdom
import { cleanup, fireEvent, screen, waitFor, within } from "@testing-library/react";
import { describe, expect, it } from "vitest";
import type { EditedView, Reply } from "../../app/contract/index.ts";
import { channelName } from "../../renderer/state/study-watch.ts";
import {
  below,
  changedGrid,
  countOf,
  edited,
  enterField,
  fieldOf,
  lastOf,
  openReadings,
  place,
  refusal,
  step,
  typeIn,
} from "./changing.tsx";
import { study, studyState } from "./fixture.ts";
import { cellAt } from "./page.tsx";

describe("a reading is changed", () => {
  it.each(["Enter", "F2"])(
    "%s goes from the cell to its field, which holds what stands there, chosen as a whole",
    async (key) => {
      await openReadings();
      const input = enterField(key);
      expect(document.activeElement).toBe(input);
      expect(input.value).toBe("1504");
      expect([input.selectionStart, input.selectionEnd]).toEqual([0, 4]);
    },
  );

  it("Enter saves it with what stood there, the reason and the name, and the focus is on the cell below", async () => {
    const app = await openReadings();
    typeIn(enterField(), "1540");
    fireEvent.change(screen.getByLabelText("Why (if you like)"), { target: { value: " read again " } });
    app.answer({ "study.show": { ...study, ...edited }, "grid.show": changedGrid });
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await screen.findByText("Fuel before of run R02 is 1540.");
    expect(lastOf(app, "edit.make")).toEqual({
      kind: "edit.make",
      study: "tall-kettle",
      who: "Ama",
      edit: {
        kind: "cells",
        run: "102",
        cells: [{ phase: "cold-start", column: "fuel_start_g", text: "1540", was: "1504" }],
        why: "read again",
      },
    });
    await waitFor(() => expect(cellAt(place).textContent).toBe("1540"));
    await waitFor(() => expect(document.activeElement).toBe(cellAt(below)));
    fireEvent.mouseDown(cellAt(place));
    expect(fieldOf().value).toBe("1540");
  });

  it("Escape puts back what stood there, and asks nothing", async () => {
    const app = await openReadings();
    const input = enterField();
    typeIn(input, "99");
    fireEvent.keyDown(input, { key: "Escape" });
    await waitFor(() => expect(document.activeElement).toBe(cellAt(place)));
    expect(fieldOf().value).toBe("1504");
    expect(lastOf(app, "edit.make")).toBeUndefined();
  });

  it("what is refused stays in the field, with the message beside it", async () => {
    const app = await openReadings({ "edit.make": refusal("“15o4” is not a number. Write digits.") });
    typeIn(enterField(), "15o4");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    const alert = await screen.findByText("“15o4” is not a number. Write digits.");
    expect(alert.closest("[role='alert']")).not.toBeNull();
    expect(fieldOf().value).toBe("15o4");
    expect(fieldOf().getAttribute("aria-invalid")).toBe("true");
    expect(fieldOf().closest("[data-place]")).toBe(cellAt(place));
    expect(countOf(app, "edit.make")).toBe(1);
  });

  it("what is left behind is saved, and where it is refused it is told of with a way back", async () => {
    await openReadings({ "edit.make": refusal("That is heavier than the balance bears.") });
    const input = enterField();
    typeIn(input, "150400");
    fireEvent.mouseDown(cellAt("12:1"));
    cellAt("12:1").focus();
    const unsaved = await screen.findByRole("region", { name: "Not saved yet" });
    await within(unsaved).findByText("That is heavier than the balance bears.");
    expect(within(unsaved).getByText("R02, cold start, fuel before, g: “150400”")).toBeDefined();
    fireEvent.click(within(unsaved).getByRole("button", { name: "Go to it" }));
    await waitFor(() => expect(fieldOf()?.value).toBe("150400"));
  });

  it("a cell that was changed elsewhere meanwhile keeps what is typed; theirs is shown, and one can be chosen", async () => {
    const app = await openReadings({ "edit.make": refusal("It was changed by Kofi meanwhile.") });
    typeIn(enterField(), "1555");
    app.answer({ "study.show": { ...study, ...edited }, "study.state": edited, "grid.show": changedGrid });
    new BroadcastChannel(channelName).postMessage({ study: "tall-kettle", revision: 8 });
    await screen.findByText("Meanwhile somebody else made it “1540”.");
    expect(fieldOf().value).toBe("1555");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await screen.findByText("It was changed by Kofi meanwhile.");
    expect(lastOf(app, "edit.make")).toMatchObject({ edit: { cells: [{ was: "1504", text: "1555" }] } });
    app.answer({ "edit.make": { ...edited, revision: 9, done: "It is 1555." } });
    fireEvent.click(await screen.findByRole("button", { name: "Put mine in its place" }));
    await screen.findByText("It is 1555.");
    expect(lastOf(app, "edit.make")).toMatchObject({ edit: { cells: [{ was: "1540", text: "1555" }] } });
  });

  it("a result is not changed, and says so; nor is anything where the study cannot be changed", async () => {
    await openReadings({ "study.show": { ...study, readOnly: "Kofi’s program holds the file. Close it there." } });
    fireEvent.mouseDown(cellAt(place));
    await screen.findByText("This cannot be changed now: the top of the page says why.");
    expect(fieldOf()).toBeNull();
    expect(screen.queryByRole("button", { name: "Leave this run out" })).toBeNull();
    const result = document.querySelector("tbody [aria-colindex='20']") as HTMLElement;
    fireEvent.mouseDown(result);
    await screen.findByText(/worked out from the readings/);
  });

  it("shows what ever stood there, newest first, and marks what was undone", async () => {
    await openReadings({
      "cell.history": {
        steps: [
          step(3, "edit", "1500", "1504", "misread"),
          step(5, "undo", "1504", "1500", null),
          step(6, "redo", "1500", "1504", null),
        ],
      },
    });
    fireEvent.mouseDown(cellAt(place));
    const history = await screen.findByRole("region", { name: "History of this cell" });
    await within(history).findByText("because: misread");
    const [newest, middle, oldest] = within(history).getAllByRole("listitem");
    expect(newest?.textContent).toMatch(/1500 → 1504.*Kofi.*done again/);
    expect(middle?.textContent).toMatch(/1504 → 1500.*Kofi.*undone/);
    expect(oldest?.textContent).toMatch(/1500 → 1504.*because: misread/);
  });
});

describe("what is typed and not saved", () => {
  it("outlives a reload, and is sent only when somebody says so", async () => {
    const first = await openReadings({ "edit.make": refusal("That is no weight.") });
    typeIn(enterField(), "heavy");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await screen.findByText("That is no weight.");
    expect(countOf(first, "edit.make")).toBe(1);
    cleanup();
    const again = await openReadings();
    const unsaved = await screen.findByRole("region", { name: "Not saved yet" });
    expect(within(unsaved).getByText("R02, cold start, fuel before, g: “heavy”")).toBeDefined();
    fireEvent.mouseDown(cellAt(place));
    await waitFor(() => expect(fieldOf().value).toBe("heavy"));
    fireEvent.mouseDown(cellAt("12:1"));
    await screen.findByRole("region", { name: "Not saved yet" });
    expect(lastOf(again, "edit.make")).toBeUndefined();
    fireEvent.click(
      within(screen.getByRole("region", { name: "Not saved yet" })).getByRole("button", { name: "Drop it" }),
    );
    await waitFor(() => expect(screen.queryByRole("region", { name: "Not saved yet" })).toBeNull());
  });

  it("stays while another page is looked at; what was told there is not told on the next", async () => {
    await openReadings();
    typeIn(enterField(), "1540");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await screen.findByText("Fuel before of run R02 is 1540.");
    fireEvent.click(screen.getByRole("link", { name: "Study" }));
    await screen.findByText("Record of changes");
    await waitFor(() => expect(screen.queryByText("Fuel before of run R02 is 1540.")).toBeNull());
  });
});

describe("who is writing", () => {
  it("is asked for before the first change, which then goes on with what was typed", async () => {
    const app = await openReadings({}, null);
    expect(screen.getByRole("button", { name: /writing: nobody named yet/ })).toBeDefined();
    typeIn(enterField(), "1540");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    const dialog = await screen.findByRole("dialog", { name: "Who is writing?" });
    expect(lastOf(app, "edit.make")).toBeUndefined();
    fireEvent.click(within(dialog).getByRole("button", { name: "Kofi" }));
    fireEvent.click(within(dialog).getByRole("button", { name: "Write under this name" }));
    await screen.findByText("Fuel before of run R02 is 1540.");
    expect(lastOf(app, "edit.make")).toMatchObject({ who: "Kofi", edit: { cells: [{ text: "1540" }] } });
    expect(screen.getByRole("button", { name: /writing: Kofi/ })).toBeDefined();
    expect(sessionStorage.getItem("boilbench.who")).toBe("Kofi");
    expect(localStorage.getItem("boilbench.who")).toBe("Kofi");
  });

  it("keeps what was typed where nobody is named, and asks again next time", async () => {
    const app = await openReadings({}, null);
    typeIn(enterField(), "1540");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    fireEvent.click(await screen.findByRole("button", { name: "Not now" }));
    await screen.findByText(/say who is writing, then press Enter/);
    expect(fieldOf().value).toBe("1540");
    expect(lastOf(app, "edit.make")).toBeUndefined();
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await screen.findByRole("dialog", { name: "Who is writing?" });
  });
});

describe("undo and redo", () => {
  const undone: EditedView = {
    ...studyState,
    run: null,
    revision: 8,
    undo: null,
    redo: studyState.undo,
    done: "Undone: fuel after.",
  };

  it("say what they would be of; undo asks for that very edit, and tells what was done", async () => {
    const app = await openReadings({ "edit.undo": undone });
    const button = screen.getByRole("button", {
      name: "Undo: the change of fuel after in run R02 from 1 074 to 1 047",
    });
    app.answer({ "study.show": { ...study, ...undone }, "study.state": undone });
    fireEvent.click(button);
    await screen.findByText("Undone: fuel after.");
    expect(lastOf(app, "edit.undo")).toEqual({ kind: "edit.undo", study: "tall-kettle", who: "Ama", edit: 7 });
    await screen.findByRole("button", { name: "Redo: the change of fuel after in run R02 from 1 074 to 1 047" });
    expect(screen.getByRole("button", { name: "Undo: there is nothing to undo" }).getAttribute("aria-disabled")).toBe(
      "true",
    );
  });

  it.each([
    ["Ctrl Z", { key: "z", ctrlKey: true }, "edit.undo"],
    ["Cmd Z", { key: "z", metaKey: true }, "edit.undo"],
    ["Ctrl Shift Z", { key: "Z", ctrlKey: true, shiftKey: true }, "edit.redo"],
    ["Ctrl Y", { key: "y", ctrlKey: true }, "edit.redo"],
  ] as const)("%s works anywhere", async (_, key, kind) => {
    const both = { ...study, redo: { edit: 6, label: "another" } };
    const app = await openReadings({ "study.show": both, "edit.undo": undone, "edit.redo": undone });
    fireEvent.keyDown(cellAt(place), key);
    await waitFor(() => expect(lastOf(app, kind)).toBeDefined());
    expect(app.asked.filter((one) => one.kind === "edit.undo" || one.kind === "edit.redo")).toHaveLength(1);
  });

  it.each(["undo", "redo"] as const)(
    "%s works from the desktop's menu, and leaves a field's own to the field",
    async (way) => {
      const both = { ...study, redo: { edit: 6, label: "another" } };
      const app = await openReadings({ "study.show": both, "edit.undo": undone, "edit.redo": undone });
      const own: string[] = [];
      document.execCommand = (command) => own.push(command) > 0;
      const input = enterField();
      typeIn(input, "15");
      app.fromMenu(way);
      expect(own).toEqual([way]);
      fireEvent.input(input, { target: { value: "1504" } });
      app.fromMenu(way);
      await waitFor(() => expect(lastOf(app, `edit.${way}`)).toBeDefined());
      expect(own).toEqual([way]);
    },
  );

  it("leave a field alone in which something was typed, and only that", async () => {
    const app = await openReadings({ "edit.undo": undone });
    const input = enterField();
    typeIn(input, "15");
    fireEvent.keyDown(input, { key: "z", ctrlKey: true });
    await new Promise((done) => setTimeout(done, 50));
    expect(lastOf(app, "edit.undo")).toBeUndefined();
    fireEvent.input(input, { target: { value: "1504" } });
    fireEvent.keyDown(input, { key: "z", ctrlKey: true });
    await waitFor(() => expect(lastOf(app, "edit.undo")).toBeDefined());
  });

  it("that are refused say why, and change nothing", async () => {
    const app = await openReadings({ "edit.undo": refusal("Kofi made another change since.") as Reply<"edit.undo"> });
    const shown = countOf(app, "study.show");
    fireEvent.keyDown(cellAt(place), { key: "z", ctrlKey: true });
    await screen.findByText("Kofi made another change since.");
    expect(countOf(app, "study.show")).toBe(shown);
    fireEvent.click(screen.getByRole("button", { name: "Close this message" }));
    expect(screen.queryByText("Kofi made another change since.")).toBeNull();
  });
});

describe("a run is left out", () => {
  it("with a reason, which is needed", async () => {
    const app = await openReadings();
    fireEvent.mouseDown(cellAt(place));
    fireEvent.click(await screen.findByRole("button", { name: "Leave this run out" }));
    const reason = screen.getByLabelText("Reason for leaving it out");
    expect(document.activeElement).toBe(reason);
    fireEvent.click(screen.getByRole("button", { name: "Leave this run out" }));
    await screen.findByText("Give the reason first.");
    expect(lastOf(app, "edit.make")).toBeUndefined();
    fireEvent.change(reason, { target: { value: " the pot leaked " } });
    fireEvent.click(screen.getByRole("button", { name: "Leave this run out" }));
    await waitFor(() =>
      expect(lastOf(app, "edit.make")).toMatchObject({
        edit: { kind: "leaveOut", run: "102", reason: "the pot leaked" },
      }),
    );
    await waitFor(() => expect(document.activeElement).toBe(cellAt(place)));
  });

  it("and brought back, with a reason too", async () => {
    const app = await openReadings();
    fireEvent.mouseDown(cellAt("24:7"));
    fireEvent.click(await screen.findByRole("button", { name: "Bring this run back" }));
    fireEvent.change(screen.getByLabelText("Reason for bringing it back"), {
      target: { value: "it was weighed again" },
    });
    fireEvent.click(screen.getByRole("button", { name: "Bring this run back" }));
    await waitFor(() =>
      expect(lastOf(app, "edit.make")).toMatchObject({
        edit: { kind: "bringBack", run: "109", reason: "it was weighed again" },
      }),
    );
  });
});
