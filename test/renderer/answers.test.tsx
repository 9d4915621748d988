// @vitest-environment jsdom
import { fireEvent, screen, waitFor, within } from "@testing-library/react";
import { describe, expect, it } from "vitest";
import type { QuestionView, Reply, StudyView } from "../../app/contract/index.ts";
import { countOf, edited, lastOf } from "./changing.tsx";
import { questions, study } from "./fixture.ts";
import { type OpenedApp, openApp } from "./page.tsx";

const because = "it was read twice";
const [first, second] = questions as readonly [QuestionView, QuestionView];
const answeredQuestion: QuestionView = {
  ...first,
  answer: { because, who: "Kofi", at: "2026-11-25T14:07:00.000Z" },
};
const done = { ...edited, done: "A question about run R07 answered." };

/** The study after its first question was answered. */
const afterwards: StudyView = {
  ...study,
  ...done,
  questions: questions.slice(1),
  answeredQuestions: [answeredQuestion],
};

async function openStudyPage(view: StudyView = study, who: string | null = "Ama"): Promise<OpenedApp> {
  if (who !== null) sessionStorage.setItem("boilbench.who", who);
  const app = openApp("#/study", { "study.show": view, "edit.make": done });
  await screen.findByRole("heading", { name: "Questions" });
  return app;
}

const list = () => document.querySelector(".questions .marks") as HTMLElement;
const opener = (name: RegExp) => screen.findByRole("button", { name });
const toFirst = /^It is right, because …: R07, simmer, end/;
const toSecond = /^It is right, because …: R12, cold start/;
const field = () => screen.getByRole<HTMLInputElement>("textbox", { name: "It is right, because" });

async function openField(): Promise<HTMLInputElement> {
  fireEvent.click(await opener(toFirst));
  await waitFor(() => expect(document.activeElement).toBe(field()));
  return field();
}

const enter = (input: HTMLInputElement) => fireEvent.submit(input.form as HTMLFormElement);

describe("a question is answered where it stands", () => {
  it("Enter saves the reason under the name, the focus goes on to the next question, the answered one goes below", async () => {
    const app = await openStudyPage();
    expect(within(list()).getAllByRole("listitem")).toHaveLength(questions.length);
    const input = await openField();
    fireEvent.change(input, { target: { value: ` ${because} ` } });
    app.answer({ "study.show": afterwards });
    enter(input);
    await screen.findByText(done.done);
    expect(lastOf(app, "edit.make")).toEqual({
      kind: "edit.make",
      study: "tall-kettle",
      who: "Ama",
      edit: { kind: "answer", question: first.id, because },
    });
    await waitFor(() => expect(within(list()).getAllByRole("listitem")).toHaveLength(questions.length - 1));
    expect(document.activeElement).toBe(await opener(toSecond));

    const below = document.querySelector(".questions .answered") as HTMLDetailsElement;
    expect(below.open).toBe(false);
    expect(within(below).getByText("1 answered question")).toBeDefined();
    expect(within(below).getByText(`It is right, because: ${because}`)).toBeDefined();
    expect(within(below).getByText("Kofi")).toBeDefined();
    expect(within(below).getByText(first.message)).toBeDefined();
  });

  it("Escape takes back what was begun: nothing is asked of the program, the focus is on the button again", async () => {
    const app = await openStudyPage();
    const input = await openField();
    fireEvent.change(input, { target: { value: because } });
    fireEvent.keyDown(input, { key: "Escape" });
    await waitFor(async () => expect(document.activeElement).toBe(await opener(toFirst)));
    expect(countOf(app, "edit.make")).toBe(0);
    expect((await openField()).value).toBe("");
  });

  it("a reason is needed", async () => {
    const app = await openStudyPage();
    const input = await openField();
    fireEvent.change(input, { target: { value: "  " } });
    enter(input);
    await screen.findByText("Say first why it is right.");
    expect(input.getAttribute("aria-invalid")).toBe("true");
    expect(document.activeElement).toBe(input);
    expect(countOf(app, "edit.make")).toBe(0);
  });

  it("who writes is asked first; where that is not told, what was typed waits", async () => {
    const app = await openStudyPage(study, null);
    const input = await openField();
    fireEvent.change(input, { target: { value: because } });
    enter(input);
    const dialog = await screen.findByRole("dialog", { name: "Who is writing?" });
    fireEvent.click(within(dialog).getByRole("button", { name: "Not now" }));
    await waitFor(() => expect(document.activeElement).toBe(field()));
    expect(field().value).toBe(because);
    expect(countOf(app, "edit.make")).toBe(0);
  });

  it("a refusal stands beside what was typed", async () => {
    const app = await openStudyPage();
    const input = await openField();
    fireEvent.change(input, { target: { value: because } });
    const refusal: Reply<"edit.make"> = { ok: false, reason: "refused", message: "It is not asked any more." };
    app.answer({ "edit.make": refusal });
    enter(input);
    await within(list()).findByText("It is not asked any more.");
    expect(field().value).toBe(because);
  });
});

describe("an answered question", () => {
  it("is opened again; the last one leaves the focus on the heading", async () => {
    const app = await openStudyPage(afterwards);
    fireEvent.click(await opener(/^Open again: R07, simmer, end/));
    app.answer({ "study.show": { ...study, revision: 9 } });
    await screen.findByText(done.done);
    expect(lastOf(app, "edit.make")).toMatchObject({ who: "Ama", edit: { kind: "reopen", question: first.id } });
    await waitFor(() => expect(document.querySelector(".answered")).toBeNull());
    expect(document.activeElement).toBe(screen.getByRole("heading", { name: "Questions" }));
  });

  it("alone leaves nothing open, and the cover counts open ones only", async () => {
    await openStudyPage({ ...afterwards, questions: [second], openQuestions: 1 });
    expect(screen.getAllByText(/1 question\b/).length).toBeGreaterThan(0);
  });

  it("in a study that cannot be changed is shown, and nothing can be answered", async () => {
    await openStudyPage({ ...afterwards, readOnly: "It is on a drive that can only be read." });
    expect(screen.getByText(`It is right, because: ${because}`)).toBeDefined();
    expect(screen.queryByRole("button", { name: toSecond })).toBeNull();
    expect(screen.queryByRole("button", { name: /^Open again/ })).toBeNull();
  });

  it("is not in the files that are handed over, which is said where it has one", async () => {
    await openStudyPage(afterwards);
    expect(screen.getByText(/Answers to questions stay in the study file\./)).toBeDefined();
  });

  it("leaves the list saying that no question is open", async () => {
    await openStudyPage({ ...afterwards, questions: [] });
    expect(screen.getByText("No question is open.")).toBeDefined();
  });
});
