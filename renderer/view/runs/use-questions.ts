import { useCallback, useEffect, useRef, useState } from "react";
import type { QuestionsView } from "../../../app/contract/index.ts";
import { useAsked } from "../../state/asked.ts";
import { useStudy } from "../../state/study.tsx";

type Listed = QuestionsView["questions"][number];

export interface QuestionSteps {
  /** Open ones; what the study's page knows of until the list was asked for. */
  readonly count: number;
  /** Position of the one that is looked at, from 1; null: none yet. */
  readonly at: number | null;
  readonly current: Listed | null;
  readonly step: (by: 1 | -1) => void;
  /** All questions of the study, as soon as they are there. */
  readonly all: () => Promise<readonly Listed[]>;
}

/**
 * The open questions of the study, one after the other. The list is asked for when somebody first steps through it. `onGo` is
 * told the question that is to be looked at.
 */
export function useQuestionSteps(onGo: (question: Listed) => void): QuestionSteps {
  const { handle, view, stamp } = useStudy();
  const [isWanted, setIsWanted] = useState(false);
  const { value, waiting, refusal } = useAsked<"questions.show">(
    isWanted ? { kind: "questions.show", study: handle } : null,
    stamp,
  );
  const [current, setCurrent] = useState<string | null>(null);
  /** Where the one stood that was looked at last: when it is answered the next one has its place. */
  const position = useRef(-1);
  const pending = useRef<1 | -1 | null>(null);
  const waiters = useRef<((all: readonly Listed[]) => void)[]>([]);
  const open = value?.questions.filter(({ answer }) => answer === null) ?? null;
  const found = open?.findIndex(({ id }) => id === current) ?? -1;
  if (found >= 0) position.current = found;

  const go = useRef(onGo);
  go.current = onGo;
  const walk = useRef((_: 1 | -1) => {});
  walk.current = (by) => {
    if (open === null || open.length === 0) return;
    const from = found >= 0 ? found : by === 1 ? position.current - (current === null ? 0 : 1) : position.current;
    const next = (((from + by) % open.length) + open.length) % open.length;
    const question = open[found < 0 && current === null && by === -1 ? open.length - 1 : next];
    if (question === undefined) return;
    setCurrent(question.id);
    go.current(question);
  };
  const step = useCallback(
    (by: 1 | -1) => {
      setIsWanted(true);
      if (value === null) pending.current = by;
      else walk.current(by);
    },
    [value],
  );
  useEffect(() => {
    if (refusal !== null) for (const waiter of waiters.current.splice(0)) waiter([]);
    if (value === null || waiting) return;
    for (const waiter of waiters.current.splice(0)) waiter(value.questions);
    const by = pending.current;
    pending.current = null;
    if (by !== null) walk.current(by);
  }, [value, waiting, refusal]);

  const all = useCallback(
    () =>
      new Promise<readonly Listed[]>((done) => {
        setIsWanted(true);
        if (value !== null) done(value.questions);
        else waiters.current.push(done);
      }),
    [value],
  );

  return {
    count: open?.length ?? view?.openQuestions ?? 0,
    at: found >= 0 ? found + 1 : null,
    current: found >= 0 ? (open?.[found] ?? null) : null,
    step,
    all,
  };
}
