import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { Refusal, StudyState, StudyView } from "../../app/contract/index.ts";
import { askHost, isRefusal, useHost } from "./host.ts";
import { type Go, noChoices } from "./route.ts";
import type { OpenStudy } from "./study.tsx";
import { tellOtherWindows, useStudyWatch } from "./study-watch.ts";

interface Book {
  readonly view: StudyView | null;
  readonly state: StudyState | null;
  readonly refusal: Refusal | null;
}

const nothing: Book = { view: null, state: null, refusal: null };

/** Changes when what was asked of a study has to be asked again. While questions are being looked for, only edits count. */
export function stampOf(state: StudyState | null): string {
  if (state === null) return "";
  const { study, revision, looking, undo, redo, readOnly } = state;
  return JSON.stringify([study, looking === null ? revision : null, undo?.edit, redo?.edit, readOnly]);
}

/**
 * The study of this window: the one that the address names, or else the one that the program opens, whose name then goes into
 * the address. Asks again whenever this or any other window has changed it.
 */
export function useOpenStudy(handle: string | null, go: Go): OpenStudy & { readonly said: string } {
  const [book, setBook] = useState<Book>(nothing);
  const [said, setSaid] = useState("");
  const { attempt } = useHost();
  const kept = useRef(book);
  /** Answers and edits so far: a look that was under way meanwhile may tell of an earlier state. */
  const received = useRef(0);

  const keep = useCallback((next: Book) => {
    received.current += 1;
    kept.current = next;
    setBook(next);
  }, []);

  const isThis = book.state === null || handle === null || book.state.study === handle;
  const { view, state, refusal } = isThis ? book : nothing;
  const stamp = stampOf(state);
  const lacksView = view === null || stampOf(view) !== stamp;
  const wanted = useRef(handle);
  wanted.current = handle;
  const isAsking = useRef(false);

  const show = useCallback(async () => {
    isAsking.current = true;
    for (;;) {
      const asked = wanted.current;
      const mark = received.current;
      const answer = await askHost<"study.show">({ kind: "study.show", study: asked });
      // Another study was chosen meanwhile, or this one was changed: it is asked once more.
      if (wanted.current !== asked) {
        if (isShown(kept.current, wanted.current)) break;
        continue;
      }
      if (!answer.ok) {
        if (isRefusal(answer)) keep({ ...nothing, refusal: answer });
        break;
      }
      const { state: known } = kept.current;
      const isNewest = mark === received.current || known?.study !== answer.value.study;
      keep({ view: answer.value, state: isNewest ? answer.value : known, refusal: null });
      if (isShown(kept.current, asked)) break;
    }
    isAsking.current = false;
  }, [keep]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: another study, stamp or attempt asks again.
  useEffect(() => {
    if (lacksView && !isAsking.current) void show();
  }, [handle, lacksView, stamp, attempt, show]);

  useEffect(() => {
    if (handle === null && state !== null) go({ study: state.study }, "replace");
  }, [handle, state, go]);

  const take = useCallback(
    (next: StudyState) => {
      const before = kept.current;
      const sameStudy = before.view?.study === next.study ? before.view : null;
      keep({ view: sameStudy, state: next, refusal: null });
    },
    [keep],
  );

  useStudyWatch(handle, {
    isLooking: state !== null && state.looking !== null,
    mark: () => received.current,
    onState: (next, mark) => {
      if (mark === received.current && JSON.stringify(next) !== JSON.stringify(stateOf(kept.current))) take(next);
    },
    onGone: (reason, mark) => {
      if (mark === received.current && reason.message !== kept.current.refusal?.message) {
        keep({ ...nothing, refusal: reason });
      }
    },
  });

  const reopened = useCallback(
    (next: StudyView, sentence: string) => {
      keep({ view: next, state: next, refusal: null });
      setSaid(sentence);
      tellOtherWindows(next);
      if (next.study !== wanted.current) go({ ...noChoices, study: next.study });
    },
    [go, keep],
  );
  const opened = useCallback(
    (next: StudyView, sentence: string) => {
      reopened(next, sentence);
      go({ ...noChoices, study: next.study });
    },
    [go, reopened],
  );
  const edited = useCallback(
    (next: StudyState, sentence: string) => {
      tellOtherWindows(next);
      // This window may have gone on to another study while it was made.
      if (wanted.current !== null && wanted.current !== next.study) return;
      take(stateIn(next));
      setSaid(sentence);
    },
    [take],
  );
  const now = useCallback(() => kept.current.state, []);

  return useMemo(
    () => ({
      handle: handle ?? state?.study ?? null,
      view: view === null || state === null ? null : { ...view, ...stateIn(state) },
      refusal,
      stamp,
      opened,
      reopened,
      edited,
      tell: setSaid,
      now,
      said,
    }),
    [handle, view, state, refusal, stamp, opened, reopened, edited, now, said],
  );
}

/** The state alone, of whatever carries it. */
function stateIn({ study, revision, undo, redo, readOnly, looking, fileNotes }: StudyState): StudyState {
  return { study, revision, undo, redo, readOnly, looking, fileNotes };
}

/** Whether nothing more has to be asked about a study. */
function isShown({ view, state }: Book, handle: string | null): boolean {
  return view !== null && stampOf(view) === stampOf(state) && (handle === null || view.study === handle);
}

const stateOf = (book: Book) => (book.state === null ? null : stateIn(book.state));
