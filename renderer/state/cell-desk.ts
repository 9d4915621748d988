import { useCallback, useEffect, useRef, useState } from "react";
import type { Edit, Refusal } from "../../app/contract/index.ts";
import { recallDrafts, rememberDrafts } from "./draft-memory.ts";
import { askHost, isRefusal, useHost } from "./host.ts";
import { useStudy } from "./study.tsx";
import { useAskWho } from "./who.ts";

type CellOfEdit = Extract<Edit, { kind: "cells" }>["cells"][number];

/** A cell of a run of a study. */
export interface CellPlace {
  readonly study: string;
  /** The run's id: its name may change. */
  readonly run: string;
  readonly phase: CellOfEdit["phase"];
  readonly column: string;
}

/** What was typed for a cell, until it is on disk. */
export interface CellDraft extends CellPlace {
  readonly text: string;
  /** What stood there when typing began. */
  readonly was: string;
  readonly why: string;
  /**
   * `kept`: from before the page was loaded anew. `nameless`: nobody said who is writing. `unheard`: sent, but the host did
   * not confirm it. `saved`: on disk, and shown in place of what the table has. `shown`: the table has it too, or what came after it;
   * kept until something else is looked at.
   */
  readonly status: "typing" | "kept" | "nameless" | "saving" | "unheard" | "refused" | "saved" | "shown";
  readonly refusal: Refusal | null;
}

export interface CellDesk {
  /** All that is not saved yet, in the order in which it was begun, and what was saved last. */
  readonly drafts: readonly CellDraft[];
  readonly draftOf: (place: CellPlace) => CellDraft | undefined;
  readonly type: (place: CellPlace, was: string, text: string) => void;
  readonly explain: (place: CellPlace, why: string) => void;
  /** True when it is on disk, or when there was nothing to save. */
  readonly save: (place: CellPlace) => Promise<boolean>;
  readonly drop: (place: CellPlace) => void;
  /** Saves although something else stands there now. */
  readonly putMine: (place: CellPlace, stands: string) => Promise<boolean>;
  /** The table has all that is saved. */
  readonly settle: () => void;
  /** Forgets what is saved and in the table. */
  readonly clearShown: () => void;
  /** Its field goes away: what is being typed is saved. */
  readonly leave: (place: CellPlace) => void;
}

const keyOf = ({ study, run, phase, column }: CellPlace) => JSON.stringify([study, run, phase, column]);

/** Nothing of it is left to be saved. */
export const isOnDisk = ({ status }: CellDraft) => status === "saved" || status === "shown";

/** The same number in other digits, or the same text. */
export function isSameText(one: string, other: string): boolean {
  const number = (text: string) => (/\d/.test(text) ? Number(text.trim().replace(",", ".")) : Number.NaN);
  return one.trim() === other.trim() || number(one) === number(other);
}

/** What is typed into cells of Runs. It stays while other cells and pages are looked at, and until it is confirmed or dropped. */
export function useCellDesk(): CellDesk {
  const { edited, tell } = useStudy();
  const askWho = useAskWho();
  const { trouble, attempt } = useHost();
  const [drafts, setDrafts] = useState(() => new Map(recallDrafts().map((draft) => [keyOf(draft), draft])));
  const kept = useRef(drafts);

  const change = useCallback((place: CellPlace, draft: CellDraft | null) => {
    const next = new Map(kept.current);
    if (draft === null) next.delete(keyOf(place));
    else next.set(keyOf(place), draft);
    kept.current = next;
    setDrafts(next);
    rememberDrafts([...next.values()]);
  }, []);
  const alter = useCallback(
    (place: CellPlace, part: Partial<CellDraft>) => {
      const draft = kept.current.get(keyOf(place));
      if (draft !== undefined) change(place, { ...draft, ...part });
    },
    [change],
  );

  const draftOf = useCallback((place: CellPlace) => drafts.get(keyOf(place)), [drafts]);

  const type = useCallback(
    (place: CellPlace, was: string, text: string) => {
      const before = kept.current.get(keyOf(place));
      if (before?.status === "saving") return;
      const isAnew = before === undefined || isOnDisk(before);
      change(place, {
        ...place,
        text,
        was: isAnew ? was : before.was,
        why: isAnew ? "" : before.why,
        status: "typing",
        refusal: null,
      });
    },
    [change],
  );
  const explain = useCallback((place: CellPlace, why: string) => alter(place, { why, status: "typing" }), [alter]);
  const drop = useCallback((place: CellPlace) => change(place, null), [change]);

  const save = useCallback(
    async (place: CellPlace): Promise<boolean> => {
      const draft = kept.current.get(keyOf(place));
      if (draft === undefined || isOnDisk(draft)) return true;
      if (draft.status === "saving") return false;
      if (draft.text === draft.was) {
        drop(place);
        return true;
      }
      alter(place, { status: "saving", refusal: null });
      const who = await askWho.ask();
      if (who === null) {
        alter(place, { status: "nameless" });
        return false;
      }
      if (draft.status === "unheard" && (await wasDone(draft, who))) {
        alter(place, { status: "saved" });
        return true;
      }
      const { study, run, phase, column, text, was, why } = draft;
      const answer = await askHost<"edit.make">({
        kind: "edit.make",
        study,
        who,
        edit: { kind: "cells", run, cells: [{ phase, column, text, was }], why: why.trim() === "" ? null : why.trim() },
      });
      if (answer.ok) {
        alter(place, { status: "saved" });
        edited(answer.value, answer.value.done);
        return true;
      }
      // What was told of the change before would seem to be of this one.
      tell("");
      alter(place, isRefusal(answer) ? { status: "refused", refusal: answer } : { status: "unheard" });
      return false;
    },
    [alter, drop, askWho, edited, tell],
  );

  const putMine = useCallback(
    (place: CellPlace, stands: string) => {
      alter(place, { was: stands, status: "typing", refusal: null });
      return save(place);
    },
    [alter, save],
  );

  const settle = useCallback(() => {
    for (const draft of kept.current.values()) if (draft.status === "saved") alter(draft, { status: "shown" });
  }, [alter]);
  const clearShown = useCallback(() => {
    for (const draft of kept.current.values()) if (draft.status === "shown") change(draft, null);
  }, [change]);

  const leave = useCallback(
    (place: CellPlace) => {
      if (kept.current.get(keyOf(place))?.status === "typing") void save(place);
    },
    [save],
  );

  useBeforeUnload(kept);

  const lastAttempt = useRef(attempt);
  const isReached = trouble === null;
  useEffect(() => {
    const triedAgain = attempt !== lastAttempt.current;
    lastAttempt.current = attempt;
    if (!isReached && !triedAgain) return;
    for (const draft of kept.current.values()) if (draft.status === "unheard") void save(draft);
  }, [isReached, attempt, save]);

  return { drafts: [...drafts.values()], draftOf, type, explain, save, drop, putMine, settle, clearShown, leave };
}

/** A window in which something is not saved asks before it closes: a browser by itself, the desktop window through its program. */
function useBeforeUnload(kept: { readonly current: ReadonlyMap<string, CellDraft> }): void {
  useEffect(() => {
    const leaving = (event: BeforeUnloadEvent) => {
      if (![...kept.current.values()].every(isOnDisk)) event.preventDefault();
    };
    window.addEventListener("beforeunload", leaving);
    return () => window.removeEventListener("beforeunload", leaving);
  }, [kept]);
}

/** Whether an edit that was not confirmed was done all the same: it is the last that happened to its cell. */
async function wasDone(draft: CellDraft, who: string): Promise<boolean> {
  const { study, run, phase, column } = draft;
  const answer = await askHost<"cell.history">({ kind: "cell.history", study, run, phase, column });
  const last = answer.ok ? answer.value.steps.at(-1) : undefined;
  return (
    last !== undefined &&
    last.way === "edit" &&
    last.who === who &&
    last.before === draft.was &&
    isSameText(last.after, draft.text)
  );
}
