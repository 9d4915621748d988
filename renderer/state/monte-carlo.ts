import { useCallback, useEffect, useRef, useState } from "react";
import type { MonteCarloView, Refusal } from "../../app/contract/index.ts";
import { askHost, isRefusal, useHost } from "./host.ts";

/** How often the progress is asked for, in milliseconds. */
const every = 250;

/** A quantity of a run of a study. */
export interface DrawnResult {
  readonly study: string;
  readonly run: string;
  readonly quantity: string;
}

export interface MonteCarloCheck {
  /** Null until it is known. */
  readonly view: MonteCarloView | null;
  readonly refusal: Refusal | null;
  /** It was stopped here. */
  readonly isStopped: boolean;
  readonly start: () => void;
  readonly cancel: () => void;
}

type Way = "show" | "start" | "cancel";

/** The check of a result by Monte Carlo: asked for when the result or the state of the study changes, and while it is under way. */
export function useMonteCarlo({ study, run, quantity }: DrawnResult, stamp: string): MonteCarloCheck {
  const [view, setView] = useState<MonteCarloView | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isStopped, setIsStopped] = useState(false);
  const { attempt } = useHost();
  // Each question of the person makes answers to those before it old.
  const latest = useRef(0);

  const isTold = useRef(false);
  /** What was heard last, before it is drawn. */
  const heard = useRef<MonteCarloView["state"] | null>(null);

  const ask = useCallback(
    async (way: Way) => {
      // What was told the host is answered before it is asked again.
      if (way === "show" && isTold.current) return;
      isTold.current = way !== "show";
      latest.current += 1;
      const mine = latest.current;
      const answer = await askHost({ kind: `monteCarlo.${way}`, study, run, quantity });
      if (latest.current !== mine) return;
      isTold.current = false;
      setRefusal(isRefusal(answer) ? answer : null);
      if (answer.ok) heard.current = (answer.value as MonteCarloView).state;
      // Where the host does not answer, it is asked again as long as the last that was heard is that it draws.
      setView((before) => (answer.ok ? (answer.value as MonteCarloView) : before === null ? null : { ...before }));
    },
    [study, run, quantity],
  );

  // biome-ignore lint/correctness/useExhaustiveDependencies: another state of the study, or another attempt, asks anew.
  useEffect(() => {
    void ask("show");
  }, [ask, stamp, attempt]);

  useEffect(() => {
    if (view?.state !== "running") return;
    const timer = setTimeout(() => {
      if (heard.current === "running") void ask("show");
    }, every);
    return () => clearTimeout(timer);
  }, [view, ask]);

  useEffect(
    () => () => {
      latest.current += 1;
    },
    [],
  );

  return {
    view,
    refusal,
    isStopped,
    start: () => {
      setIsStopped(false);
      heard.current = "running";
      setView({ state: "running", share: 0 });
      void ask("start");
    },
    cancel: () => {
      setIsStopped(true);
      void ask("cancel");
    },
  };
}
