// @vitest-environment jsdom
import { act, fireEvent, screen, waitFor, within } from "@testing-library/react";
import { describe, expect, it } from "vitest";
import type { EditedView } from "../../app/contract/index.ts";
import { dayOf } from "../../renderer/state/bench-time.ts";
import { begun, bench, run, withField, withRun } from "./bench-fixture.ts";
import { countOf, edited, lastOf, refusal, typeIn } from "./changing.tsx";
import { study } from "./fixture.ts";
import { type OpenedApp, openApp } from "./page.tsx";

const at = (step: string) => `#/bench?bench=26&step=${step}`;

async function openBench(
  hash = "#/bench?bench=26",
  first: Parameters<typeof openApp>[1] = {},
  who: string | null = "Ama",
): Promise<OpenedApp> {
  if (who !== null) sessionStorage.setItem("boilbench.who", who);
  const app = openApp(hash, {
    "bench.show": bench,
    "bench.clock": { ok: true, value: null },
    "edit.make": edited,
    ...first,
  });
  await screen.findByRole("heading", { level: 1 });
  // The page listens to keys once its effects have run.
  await act(async () => {});
  return app;
}

/** What is read to somebody in a field besides its name. */
const describedAs = (field: HTMLElement) =>
  (field.getAttribute("aria-describedby") ?? "")
    .split(" ")
    .map((id) => document.getElementById(id)?.textContent ?? "")
    .filter((text) => text !== "")
    .join(" ");
const input = (label: string) => screen.getByLabelText(label) as HTMLInputElement;
const focused = () => document.activeElement as HTMLInputElement;
const press = (key: string, more: object = {}) => fireEvent.keyDown(focused(), { key, ...more });
const edits = (app: OpenedApp) => app.asked.filter((one) => one.kind === "edit.make").map((one) => one.edit);
const later: EditedView = { ...edited, revision: 9 };

describe("a Bench with nothing on it", () => {
  it("begins a run with Enter: of the variant that was used last, on the plain sheet", async () => {
    const app = await openBench("#/bench", { "bench.show": { ...bench, bench: null } });
    const variant = input("Variant");
    expect(variant.value).toBe("skirt, wide gap");
    await waitFor(() => expect(focused()).toBe(variant));
    app.answer({ "edit.make": begun, "bench.show": bench });
    fireEvent.submit(variant.form as HTMLFormElement);
    await screen.findByRole("heading", { level: 1, name: "Weigh for the cold start" });
    expect(edits(app)).toEqual([
      { kind: "beginRun", variant: "skirt, wide gap", pots: 1, charAtHotStart: false, emissions: false },
    ]);
    await waitFor(() => expect(focused().id).toBe("bench-cold-start.pot1_start_g"));
  });

  it("wants a variant, and says so", async () => {
    const app = await openBench("#/bench");
    typeIn(input("Variant"), "  ");
    fireEvent.submit(input("Variant").form as HTMLFormElement);
    await screen.findByText("Say which variant it is first.");
    expect(edits(app)).toEqual([]);
  });

  it("lists runs that are not finished, and takes up an abandoned one, with its reason in sight", async () => {
    const app = await openBench("#/bench");
    expect(screen.getByText("abandoned: the pot tipped over")).toBeDefined();
    fireEvent.click(screen.getByRole("button", { name: "Take up run R09 again" }));
    await waitFor(() => expect(edits(app)).toEqual([{ kind: "takeUpRun", run: "9" }]));
  });

  it("leads from the example to a study of one's own, and says where nothing can be written", async () => {
    await openBench("#/bench", { "study.show": { ...study, readOnly: "Kofi’s program holds the file." } });
    await waitFor(() =>
      expect(screen.getByRole("link", { name: "Begin a study of your own" }).getAttribute("href")).toContain(
        "#/studies",
      ),
    );
    expect(screen.getByText("Nothing can be written down now: the top of the page says why.")).toBeDefined();
    expect(screen.queryByRole("button", { name: "Begin the run" })).toBeNull();
  });
});

describe("Enter in a field", () => {
  it("saves what was typed with what stood there, and goes on; at the end of a step to the next step", async () => {
    const app = await openBench();
    await waitFor(() => expect(focused().id).toBe("bench-cold-start.pot1_start_g"));
    typeIn(focused(), "5612,5");
    press("Enter");
    expect(focused()).toBe(input("Wood to burn, g"));
    await waitFor(() =>
      expect(edits(app)).toEqual([
        {
          kind: "cells",
          run: "26",
          cells: [{ phase: "cold-start", column: "pot1_start_g", text: "5612.5", was: "" }],
          why: null,
        },
      ]),
    );
    press("Enter");
    await screen.findByRole("heading", { level: 1, name: "Light it, cold stove" });
    expect(focused()).toBe(input("Lit at"));
    press("Enter", { shiftKey: true });
    await screen.findByRole("heading", { level: 1, name: "Weigh for the cold start" });
    expect(focused()).toBe(input("Wood to burn, g"));
    expect(countOf(app, "edit.make")).toBe(1);
  });

  it("takes what is offered; leaving by another way does not", async () => {
    const app = await openBench(at("cold-start.weigh-after"));
    const char = input("Container with char, g");
    expect(char.placeholder).toBe("286");
    // Seen once, in the field itself; said beside it to those who do not see it.
    expect(screen.getByText("as in run R25: Enter takes it")).toBeDefined();
    expect(describedAs(char)).toBe("286 g, as in run R25: Enter takes it");
    act(() => char.focus());
    act(() => input("Wood left, g").focus());
    expect(edits(app)).toEqual([]);
    act(() => char.focus());
    press("Enter");
    await waitFor(() => expect(lastOf(app, "edit.make")).toBeDefined());
    expect(JSON.stringify(edits(app))).toContain('"text":"286","was":""');
    await screen.findByRole("heading", { level: 1, name: "Finish the run" });
  });

  it("writes times as they are typed in haste; empty on another day it passes on", async () => {
    const app = await openBench(at("cold-start.light"));
    typeIn(input("Lit at"), "104215");
    press("Enter");
    await waitFor(() => expect(JSON.stringify(edits(app))).toContain('"column":"start","text":"10:42:15"'));
    await waitFor(() => expect(focused().id).toBe("bench-cold-start.end"));
    press("Enter");
    expect(focused()).toBe(input("Water, °C"));
    expect(countOf(app, "edit.make")).toBe(1);
  });

  it("stamps an empty time of today, once for one press", async () => {
    const app = await openBench(at("cold-start.light"), { "bench.show": withRun({ date: dayOf(new Date()) }) });
    await waitFor(() => expect(focused()).toBe(input("Lit at")));
    press("Enter");
    await waitFor(() =>
      expect(edits(app)).toEqual([{ kind: "stamp", run: "26", phase: "cold-start", column: "start" }]),
    );
    await waitFor(() => expect(focused().id).toBe("bench-cold-start.end"));
    press("Enter");
    press("Enter", { repeat: true });
    expect(countOf(app, "edit.make")).toBe(1);
    expect(focused().id).toBe("bench-cold-start.end");
  });

  it("passes over what is folded away, which one key shows", async () => {
    await openBench(at("before-the-fire"));
    expect(screen.queryByLabelText("Humidity of the air, %")).toBeNull();
    fireEvent.keyDown(document.body, { key: "m", code: "KeyM", altKey: true });
    await waitFor(() => expect(focused()).toBe(input("Humidity of the air, %")));
    press("Enter");
    expect(focused()).toBe(input("Moisture of the wood, %"));
  });
});

describe("what is typed", () => {
  it("is saved as the field is left, and taken back with Escape", async () => {
    const app = await openBench();
    typeIn(input("Pot with water, g"), "5612");
    press("Escape");
    expect(input("Pot with water, g").value).toBe("");
    typeIn(input("Pot with water, g"), "5613");
    act(() => input("Wood to burn, g").focus());
    await waitFor(() => expect(JSON.stringify(edits(app))).toContain('"text":"5613"'));
    expect(countOf(app, "edit.make")).toBe(1);
  });

  it("stays where it is refused, with the reason, and calls back who has not gone on", async () => {
    await openBench("#/bench?bench=26", { "edit.make": refusal("“5o12” is not a number.") });
    typeIn(input("Pot with water, g"), "5o12");
    press("Enter");
    const told = await screen.findByText("“5o12” is not a number.");
    expect(told.closest("[role=alert]")).not.toBeNull();
    const refused = input("Pot with water, g");
    expect(refused.value).toBe("5o12");
    expect(refused.getAttribute("aria-invalid")).toBe("true");
    expect(
      (refused.getAttribute("aria-describedby") ?? "")
        .split(" ")
        .some((id) => document.getElementById(id)?.contains(told)),
    ).toBe(true);
    await waitFor(() => expect(focused()).toBe(refused));
  });

  it("stays where it is refused, and lets who has gone on go on", async () => {
    const app = await openBench("#/bench?bench=26", { "edit.make": new Error("asleep") });
    typeIn(input("Pot with water, g"), "5o12");
    app.answer({ "edit.make": refusal("“5o12” is not a number.") });
    press("Enter");
    typeIn(focused(), "15");
    await screen.findByText("“5o12” is not a number.");
    expect(focused()).toBe(input("Wood to burn, g"));
    expect(input("Wood to burn, g").value).toBe("15");
  });

  it("is kept while the host is away, sent when it is back, and told of from other steps", async () => {
    const app = await openBench("#/bench?bench=26", { "edit.make": new Error("asleep") });
    typeIn(input("Pot with water, g"), "5612");
    press("Enter");
    await screen.findByText(/Not confirmed yet/);
    expect(input("Pot with water, g").value).toBe("5612");
    press("Enter");
    await screen.findByText("Weigh for the cold start, Pot with water: “5612”");
    app.answer({ "edit.make": later });
    fireEvent.click(screen.getByRole("button", { name: "Try again" }));
    await waitFor(() => expect(screen.queryByText("Weigh for the cold start, Pot with water: “5612”")).toBeNull());
  });

  it("is not asked for a moment that nobody was there to sign: the page's time is kept meanwhile", async () => {
    await openBench(at("cold-start.light"), { "bench.show": withRun({ date: dayOf(new Date()) }) }, null);
    await waitFor(() => expect(focused()).toBe(input("Lit at")));
    press("Enter");
    const dialog = await screen.findByRole("dialog", { name: "Who is writing?" });
    fireEvent.click(within(dialog).getByRole("button", { name: /not now|cancel/i }));
    const kept = await screen.findByText(/Light it, cold stove, Lit at: “\d\d:\d\d:\d\d”/);
    expect(kept).toBeDefined();
  });
});

describe("questions", () => {
  it("stand under their field and mark its step", async () => {
    await openBench(at("cold-start.weigh-after"));
    const wood = input("Wood left, g");
    const row = wood.closest(".bench-row") as HTMLElement;
    expect(within(row).getByText(/less than this variant has used before/)).toBeDefined();
    const nav = screen.getByRole("navigation", { name: "Steps" });
    expect(within(nav).getByRole("button", { name: /Weigh after the cold start.*1 question/ })).toBeDefined();
  });

  it("that come up at the end of a step are told in the next, with the way back", async () => {
    const app = await openBench(at("cold-start.weigh"));
    typeIn(input("Wood to burn, g"), "1.504");
    const asked = { ...(run.steps[4]?.fields[1]?.questions[0] as object), id: "b".repeat(32), message: "Kilograms?" };
    app.answer({ "edit.make": later, "bench.show": withField(bench, "fuel_start_g", { questions: [asked as never] }) });
    press("Enter");
    await screen.findByRole("heading", { level: 1, name: "Light it, cold stove" });
    await screen.findByText("Question about Wood to burn: Kilograms?");
    fireEvent.click(await screen.findByRole("button", { name: "Go back to it" }));
    await waitFor(() => expect(focused()).toBe(input("Wood to burn, g")));
  });
});

describe("the end of a run", () => {
  it("names what lacks, each a way to its field; a run that is finished offers the next", async () => {
    const app = await openBench(at("finish"));
    fireEvent.click(screen.getByRole("button", { name: "Weigh for the cold start: Pot with water" }));
    await waitFor(() => expect(focused()).toBe(input("Pot with water, g")));
    const nav = screen.getByRole("navigation", { name: "Steps" });
    fireEvent.click(within(nav).getByRole("button", { name: "Finish" }));
    await screen.findByRole("heading", { level: 1, name: "Finish the run" });
    await waitFor(() => expect(focused()).toBe(screen.getByRole("button", { name: "Finish the run" })));
    app.answer({ "edit.make": later, "bench.show": withRun({ state: "finished" }) });
    fireEvent.click(focused());
    await screen.findByRole("heading", { level: 1, name: "Run R26 is finished" });
    await waitFor(() => expect(focused()).toBe(screen.getByRole("button", { name: "Begin the next run" })));
    expect(edits(app)).toEqual([{ kind: "finishRun", run: "26" }]);
  });

  it("abandons it with a reason alone", async () => {
    const app = await openBench(at("finish"));
    fireEvent.click(screen.getByRole("button", { name: "Abandon the run" }));
    const reason = input("Why it is abandoned");
    fireEvent.submit(reason.form as HTMLFormElement);
    await screen.findByText("Give the reason first.");
    typeIn(reason, "the pot tipped over");
    fireEvent.submit(reason.form as HTMLFormElement);
    await waitFor(() => expect(edits(app)).toEqual([{ kind: "abandonRun", run: "26", reason: "the pot tipped over" }]));
  });
});

describe("moisture of several specimens", () => {
  it("asks the basis, walks from one to the next with Enter, and takes them with Enter on an empty line", async () => {
    const app = await openBench(at("before-the-fire"));
    fireEvent.keyDown(document.body, { key: "p", code: "KeyP", altKey: true });
    const panel = await screen.findByRole("region", { name: "Moisture of several specimens" });
    expect(
      within(panel)
        .getAllByRole("radio")
        .filter((one) => (one as HTMLInputElement).checked),
    ).toHaveLength(1);
    fireEvent.click(within(panel).getByRole("radio", { name: /dry basis/ }));
    for (const [at, reading] of ["12,5", "14"].entries()) {
      typeIn(input(`Specimen ${at + 1}, %`), reading);
      press("Enter");
      await screen.findByLabelText(`Specimen ${at + 2}, %`);
    }
    await waitFor(() => expect(focused()).toBe(input("Specimen 3, %")));
    press("Enter");
    await waitFor(() =>
      expect(edits(app)).toEqual([
        {
          kind: "specimens",
          run: "26",
          phase: "cold-start",
          entry: 1,
          basis: "dry",
          specimens: [{ reading: "12,5" }, { reading: "14" }],
        },
      ]),
    );
  });
});

describe("help on a field", () => {
  it("opens with F1 and tells what it is, how it is taken and what it feeds", async () => {
    await openBench();
    act(() => input("Pot with water, g").focus());
    press("F1");
    const help = await screen.findByRole("dialog", { name: "Help" });
    for (const text of ["What Pot with water is.", "How Pot with water is taken.", "Used for: thermal efficiency."]) {
      expect(within(help).getByText(text)).toBeDefined();
    }
  });
});
