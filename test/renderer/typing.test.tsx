// @vitest-environment jsdom
import { act, fireEvent, screen, waitFor } from "@testing-library/react";
import { describe, expect, it } from "vitest";
import { channelName } from "../../renderer/state/study-watch.ts";
import {
  changedGrid,
  edited,
  enterField,
  fieldOf,
  grid,
  lastOf,
  openReadings,
  place,
  refusal,
  step,
  typeIn,
} from "./changing.tsx";
import { study } from "./fixture.ts";
import { cellAt } from "./page.tsx";

/** Typing with the keyboard alone: what a key begins, takes back, and what is seen of it at once. */

describe("a character typed on a cell", () => {
  it("begins it anew in its field, behind which the next one goes", async () => {
    const app = await openReadings();
    act(() => cellAt(place).focus());
    fireEvent.keyDown(cellAt(place), { key: "7" });
    await waitFor(() => expect(document.activeElement).toBe(fieldOf()));
    expect(fieldOf().value).toBe("7");
    expect([fieldOf().selectionStart, fieldOf().selectionEnd]).toEqual([1, 1]);
    expect(lastOf(app, "edit.make")).toBeUndefined();
    fireEvent.keyDown(fieldOf(), { key: "Escape" });
    expect(fieldOf().value).toBe("1504");
  });

  it.each([
    ["a blank", { key: " " }, null],
    ["with Ctrl", { key: "7", ctrlKey: true }, null],
    ["where nothing can be changed", { key: "7" }, "Kofi’s program holds the file."],
  ])("does nothing: %s", async (_, key, readOnly) => {
    await openReadings({ "study.show": { ...study, readOnly } });
    act(() => cellAt(place).focus());
    fireEvent.keyDown(cellAt(place), key);
    expect(document.activeElement).toBe(cellAt(place));
    expect(fieldOf()?.value ?? "1504").toBe("1504");
  });
});

describe("Ctrl Z", () => {
  it("beside the field takes back what is typed there, not what was done before", async () => {
    const app = await openReadings({ "edit.undo": { ...edited, revision: 9, done: "Undone." } });
    typeIn(enterField(), "99");
    const save = screen.getByRole("button", { name: "Save" });
    save.focus();
    fireEvent.keyDown(save, { key: "z", ctrlKey: true });
    expect(fieldOf().value).toBe("1504");
    await waitFor(() => expect(document.activeElement).toBe(cellAt(place)));
    expect(lastOf(app, "edit.undo")).toBeUndefined();
    expect(lastOf(app, "edit.make")).toBeUndefined();
  });
});

describe("what was saved", () => {
  it("is in the table at once, before the table comes anew; then what the table says counts", async () => {
    const app = await openReadings();
    app.answer({ "grid.show": new Error("it takes long") });
    typeIn(enterField(), "1540");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await screen.findByText("Fuel before of run R02 is 1540.");
    expect(cellAt(place).textContent).toBe("1540");
    fireEvent.mouseDown(cellAt("5:7"));
    expect(cellAt(place).textContent).toBe("1540");
    // Meanwhile it was undone elsewhere.
    const later = { ...edited, revision: 9 };
    app.answer({ "grid.show": { ...grid }, "study.show": { ...study, ...later }, "study.state": later });
    new BroadcastChannel(channelName).postMessage({ study: "tall-kettle", revision: 9 });
    await waitFor(() => expect(cellAt(place).textContent).toBe("1504"));
  });

  it("is not told of any more where the next change is refused", async () => {
    const app = await openReadings();
    app.answer({ "study.show": { ...study, ...edited }, "grid.show": changedGrid });
    typeIn(enterField(), "1540");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await screen.findByText("Fuel before of run R02 is 1540.");
    app.answer({ "edit.make": refusal("The disk is full.") });
    typeIn(enterField(), "1550");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await screen.findByText("The disk is full.");
    expect(screen.queryByText("Fuel before of run R02 is 1540.")).toBeNull();
  });
});

describe("the history of a cell", () => {
  const steps = [
    { ...step(2, "edit", "", "1490", null), what: "25 runs taken in from week-12.csv" },
    step(5, "edit", "1490", "1504", "misread"),
  ];

  it("says where the reading came from, and writes an earlier one into the field again, to be saved or not", async () => {
    const app = await openReadings({ "cell.history": { steps } });
    act(() => cellAt(place).focus());
    await screen.findByText("25 runs taken in from week-12.csv");
    fireEvent.click(screen.getByRole("button", { name: "Write “1490” again" }));
    expect(fieldOf().value).toBe("1490");
    expect(document.activeElement).toBe(fieldOf());
    expect(lastOf(app, "edit.make")).toBeUndefined();
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await waitFor(() =>
      expect(lastOf(app, "edit.make")).toMatchObject({ edit: { cells: [{ was: "1504", text: "1490" }] } }),
    );
  });

  it("offers nothing where nothing can be changed", async () => {
    await openReadings({ "cell.history": { steps }, "study.show": { ...study, readOnly: "It is held." } });
    act(() => cellAt(place).focus());
    await screen.findByText("1490 → 1504");
    expect(screen.queryByRole("button", { name: /again$/ })).toBeNull();
  });
});
