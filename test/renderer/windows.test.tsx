// @vitest-environment jsdom
import { fireEvent, screen, waitFor } from "@testing-library/react";
import { describe, expect, it } from "vitest";
import { channelName, lookEvery } from "../../renderer/state/study-watch.ts";
import {
  changedGrid,
  countOf,
  edited,
  enterField,
  fieldOf,
  openReadings,
  place,
  refusal,
  step,
  typeIn,
} from "./changing.tsx";
import { study, studyState } from "./fixture.ts";
import { cellAt } from "./page.tsx";

describe("a study that other windows change", () => {
  it("is asked for again when another window says so, and only then", async () => {
    const app = await openReadings();
    const before = countOf(app, "grid.show");
    app.answer({ "study.show": { ...study, ...edited }, "study.state": edited, "grid.show": changedGrid });
    const channel = new BroadcastChannel(channelName);
    channel.postMessage({ study: "another", revision: 8 });
    await new Promise((done) => setTimeout(done, 100));
    expect(countOf(app, "study.state")).toBe(0);
    channel.postMessage({ study: "tall-kettle", revision: 8 });
    await waitFor(() => expect(cellAt(place).textContent).toBe("1540"));
    expect(countOf(app, "grid.show")).toBe(before + 1);
    channel.close();
  });

  it("is looked at every two seconds; one look at a time, none while the host is away, and on after that", async () => {
    const app = await openReadings();
    await waitFor(() => expect(countOf(app, "study.state")).toBe(1), { timeout: 2 * lookEvery });
    app.answer({ "study.state": new Error("gone") });
    await screen.findByText("The program behind this page does not answer.");
    const looked = countOf(app, "study.state");
    await new Promise((done) => setTimeout(done, lookEvery + 500));
    expect(countOf(app, "study.state")).toBe(looked);
    app.answer({ "study.state": { ...studyState, looking: 0.4 }, "study.show": { ...study, looking: 0.4 } });
    fireEvent.click(screen.getByRole("button", { name: "Try again" }));
    await screen.findByText(/questions are being looked for \(40 %\)/);
    expect(screen.queryByText("The program behind this page does not answer.")).toBeNull();
    const resumed = countOf(app, "study.state");
    // Every half second while questions are being looked for.
    await new Promise((done) => setTimeout(done, 1_300));
    expect(countOf(app, "study.state")).toBeGreaterThanOrEqual(resumed + 2);
    expect(countOf(app, "study.state")).toBeLessThanOrEqual(resumed + 3);
  });

  it("tells the others of its own change", async () => {
    await openReadings();
    const told: unknown[] = [];
    const channel = new BroadcastChannel(channelName);
    channel.onmessage = (event: MessageEvent) => told.push(event.data);
    typeIn(enterField(), "1540");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await waitFor(() => expect(told).toEqual([{ study: "tall-kettle", revision: 8 }]));
    channel.close();
  });
});

describe("the host goes away in the middle of a change", () => {
  it("keeps what was typed and sends it again when it is there, where it had not arrived", async () => {
    const app = await openReadings({ "edit.make": new Error("gone"), "study.state": new Error("gone") });
    typeIn(enterField(), "1540");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await screen.findByText(/Not confirmed yet/);
    expect(fieldOf().value).toBe("1540");
    app.answer({ "edit.make": edited, "study.state": studyState });
    fireEvent.click(screen.getByRole("button", { name: "Try again" }));
    await screen.findByText("Fuel before of run R02 is 1540.");
    expect(countOf(app, "edit.make")).toBe(2);
  });

  it("does not do it twice where it had arrived: the history of the cell tells", async () => {
    const app = await openReadings({ "edit.make": new Error("gone"), "study.state": new Error("gone") });
    typeIn(enterField(), "1540.0");
    fireEvent.keyDown(fieldOf(), { key: "Enter" });
    await screen.findByText(/Not confirmed yet/);
    app.answer({
      "edit.make": refusal("It holds 1540 now."),
      "study.state": edited,
      "study.show": { ...study, ...edited },
      "grid.show": changedGrid,
      "cell.history": { steps: [{ ...step(8, "edit", "1504", "1540", null), who: "Ama" }] },
    });
    fireEvent.click(screen.getByRole("button", { name: "Try again" }));
    await screen.findByText("saved");
    expect(countOf(app, "edit.make")).toBe(1);
    await waitFor(() => expect(fieldOf().value).toBe("1540"));
    expect(screen.queryByText("It holds 1540 now.")).toBeNull();
  });
});
