import { useCallback, useEffect, useRef, useState } from "react";
import type { Refusal } from "../../app/contract/index.ts";
import { onMenuStep } from "../api.ts";
import { askHost, isRefusal } from "./host.ts";
import { useStudy } from "./study.tsx";
import { useAskWho } from "./who.ts";

export type StepWay = "undo" | "redo";

/** What a key asks for: Ctrl or Cmd with Z, Shift Z, or Y (Ctrl alone). */
export function stepOfKey(event: {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}): StepWay | null {
  if (event.altKey || event.ctrlKey === event.metaKey) return null;
  const key = event.key.toLowerCase();
  if (key === "z") return event.shiftKey ? "redo" : "undo";
  return key === "y" && event.ctrlKey && !event.shiftKey ? "redo" : null;
}

export interface Steps {
  readonly undo: () => void;
  readonly redo: () => void;
  readonly refusal: Refusal | null;
  readonly forgive: () => void;
}

/** Undoes and does again what was done in the study, one after the other, in the order in which it was asked for. */
export function useSteps(): Steps {
  const { now, edited } = useStudy();
  const askWho = useAskWho();
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const queue = useRef<Promise<void>>(Promise.resolve());

  const step = useCallback(
    (way: StepWay) => {
      const work = async () => {
        if (now()?.[way] == null || now()?.readOnly != null) return;
        const who = await askWho.ask();
        const state = now();
        const wanted = state?.[way];
        if (who === null || state === null || wanted == null) return;
        const asked = { study: state.study, who, edit: wanted.edit };
        const answer = await (way === "undo"
          ? askHost<"edit.undo">({ kind: "edit.undo", ...asked })
          : askHost<"edit.redo">({ kind: "edit.redo", ...asked }));
        setRefusal(!answer.ok && isRefusal(answer) ? answer : null);
        if (answer.ok) edited(answer.value, answer.value.done);
      };
      queue.current = queue.current.then(work, work);
    },
    [now, edited, askWho],
  );

  const undo = useCallback(() => step("undo"), [step]);
  const redo = useCallback(() => step("redo"), [step]);
  const forgive = useCallback(() => setRefusal(null), []);
  return { undo, redo, refusal, forgive };
}

/** The field that has the focus was typed in since it got it: undo is its own affair. */
function useTypedIn(): () => boolean {
  const typed = useRef<{ field: EventTarget | null; before: string } | null>(null);
  useEffect(() => {
    const textOf = (target: EventTarget | null) =>
      target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement ? target.value : null;
    let before: { field: EventTarget | null; value: string } | null = null;
    const focused = (event: FocusEvent) => {
      const value = textOf(event.target);
      before = value === null ? null : { field: event.target, value };
      typed.current = null;
    };
    const written = (event: Event) => {
      if (before !== null && event.target === before.field)
        typed.current = { field: before.field, before: before.value };
    };
    document.addEventListener("focusin", focused);
    document.addEventListener("input", written);
    return () => {
      document.removeEventListener("focusin", focused);
      document.removeEventListener("input", written);
    };
  }, []);
  return useCallback(() => {
    const field = document.activeElement;
    return (
      (field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement) &&
      typed.current?.field === field &&
      typed.current.before !== field.value
    );
  }, []);
}

/** Undo and redo by key, except where a field has its own to do, and under a sheet that asks something. */
export function useStepKeys({ undo, redo }: Steps): void {
  const hasOwnUndo = useTypedIn();
  const step = useRef<(way: StepWay) => void>(() => {});
  step.current = (way) => (way === "undo" ? undo() : redo());
  useEffect(() => {
    const isAsked = () => document.querySelector("dialog[open]") !== null;
    const press = (event: KeyboardEvent) => {
      const way = stepOfKey(event);
      if (way === null || event.defaultPrevented || hasOwnUndo() || isAsked()) return;
      event.preventDefault();
      step.current(way);
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [hasOwnUndo]);
  useEffect(() => {
    onMenuStep((way) => {
      // The menu stands for the key: a field that was typed in undoes its own.
      if (hasOwnUndo()) document.execCommand(way);
      else if (document.querySelector("dialog[open]") === null) step.current(way);
    });
  }, [hasOwnUndo]);
}
