import { cleanup, configure, render } from "@testing-library/react";
import { afterEach } from "vitest";
import type { GridView, ImportView, Reply, ReplyValues, Request, RequestKind } from "../../app/contract/index.ts";
import { App } from "../../renderer/app.tsx";
import { grid, questionsView, study } from "./fixture.ts";
import { defectiveImport, goodImport } from "./import-fixture.ts";

// Hidden parts are looked through too, which is far quicker in large tables; busy machines get time.
configure({ defaultHidden: true, asyncUtilTimeout: 8_000 });

// jsdom has the element, but does not open it as a sheet above the page.
HTMLDialogElement.prototype.showModal ??= function (this: HTMLDialogElement) {
  this.open = true;
  this.querySelector<HTMLElement>("input, button")?.focus();
};
HTMLDialogElement.prototype.close ??= function (this: HTMLDialogElement) {
  this.open = false;
};

type Answers = { readonly [K in RequestKind]?: ReplyValues[K] | Reply<K> | Error };

/** The page over a bridge as the desktop window has one, that answers with invented views and writes down what it was asked. */
export interface OpenedApp {
  readonly asked: Request[];
  /** Changes what is answered from now on. An error: the host does not answer. */
  answer(more: Answers): void;
  /** The menu's undo or redo, as the desktop window passes it on. */
  fromMenu(way: "undo" | "redo"): void;
}

const isReply = (value: unknown): value is Reply => typeof value === "object" && value !== null && "ok" in value;

/** How far the study that is shown is, where a test does not say otherwise. */
function stateOf(shown: Answers["study.show"]): Answers["study.state"] {
  if (shown === undefined || shown instanceof Error || isReply(shown)) return shown as Answers["study.state"];
  const { study, revision, undo, redo, readOnly, looking, fileNotes } = shown;
  return { study, revision, undo, redo, readOnly, looking, fileNotes };
}

/** The rows that were asked for, of a grid that has all of them. */
function partOf(view: GridView, { from, count }: { readonly from: number; readonly count: number }): GridView {
  return { ...view, from, part: view.part.slice(from, from + count) };
}

function rowOf(view: Answers["grid.show"], wanted: { readonly run: string; readonly phase: string | null }) {
  if (view === undefined || view instanceof Error || isReply(view)) return null;
  const is = (one: GridView["part"][number]) =>
    one.runId === wanted.run && (wanted.phase === null || one.phase === wanted.phase);
  const row = (view as GridView).part.findIndex(is);
  return row < 0 ? null : row;
}

export function openApp(hash: string, first: Answers = {}): OpenedApp {
  const asked: Request[] = [];
  let answers: Answers = {
    "study.show": study,
    "grid.show": grid,
    "questions.show": questionsView,
    "record.show": { edits: [], more: false },
    "cell.history": { steps: [] },
    ...first,
  };
  const ask = async (message: unknown): Promise<Reply> => {
    const request = message as Request;
    asked.push(structuredClone(request));
    const value =
      answers[request.kind] ?? (request.kind === "study.state" ? stateOf(answers["study.show"]) : undefined);
    if (value instanceof Error) throw value;
    if (request.kind === "grid.find" && value === undefined) {
      return { ok: true, value: { row: rowOf(answers["grid.show"], request) } };
    }
    if (request.kind === "grid.show" && value !== undefined && !isReply(value)) {
      return { ok: true, value: partOf(value as GridView, request) };
    }
    if (value === undefined) return { ok: false, reason: "failed", message: `nothing is known of ${request.kind}` };
    return isReply(value) ? value : ({ ok: true, value } as Reply);
  };
  let heard: ((way: "undo" | "redo") => void) | null = null;
  const onStep = (listener: typeof heard) => {
    heard = listener;
  };
  Object.defineProperty(window, "boilbench", { value: { ask, onStep }, configurable: true });
  history.replaceState(null, "", hash);
  render(<App />);
  return {
    asked,
    answer(more) {
      answers = { ...answers, ...more };
    },
    fromMenu: (way) => heard?.(way),
  };
}

afterEach(() => {
  cleanup();
  sessionStorage.clear();
  localStorage.clear();
  Reflect.deleteProperty(window, "boilbench");
});

/** A cell of the grid that is shown, by its place; looking it up by role takes long in a large table. */
export function cellAt(place: string): HTMLElement {
  const cell = document.querySelector<HTMLElement>(`[data-place="${place}"]`);
  if (cell === null) throw new Error(`There is no cell ${place}.`);
  return cell;
}

/** The defective file after its number was mended and the double row left out. */
export const mendedImport: ImportView = {
  ...defectiveImport,
  rows: goodImport.rows.map((row) => ({ ...row, leftOut: row.row === 40 })),
  problems: defectiveImport.problems.filter((problem) => problem.severity === "question"),
  summary: goodImport.summary,
  acceptable: true,
};
