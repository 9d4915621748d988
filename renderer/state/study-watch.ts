import { useEffect, useRef } from "react";
import type { Refusal, StudyState } from "../../app/contract/index.ts";
import { askHost, isRefusal, useHost } from "./host.ts";

/** How often a window that is in sight looks whether its study was changed elsewhere, in milliseconds. */
export const lookEvery = 2_000;
/** The same while the study is being looked through for questions. */
export const lookEveryWhileLooking = 500;

/** Where windows tell each other that a study was changed. */
export const channelName = "boilbench.studies";

interface ChangedElsewhere {
  readonly study: string;
  readonly revision: number;
}

let opened: BroadcastChannel | null = null;

/** One for the whole page: it does not hear itself. Null where a browser has none: then looking now and then must do. */
function channel(): BroadcastChannel | null {
  if (typeof BroadcastChannel === "undefined") return null;
  opened ??= new BroadcastChannel(channelName);
  return opened;
}

/** Tells the other windows of this program, at once, that a study was changed. */
export function tellOtherWindows({ study, revision }: StudyState): void {
  channel()?.postMessage({ study, revision } satisfies ChangedElsewhere);
}

interface Watch {
  readonly isLooking: boolean;
  /** Handed back with what was found: tells whether anything came in between. */
  readonly mark: () => number;
  readonly onState: (state: StudyState, mark: number) => void;
  readonly onGone: (refusal: Refusal, mark: number) => void;
}

/**
 * Looks whether the study was changed elsewhere: when another window says so, and every so often while this one is in sight.
 * One look at a time; none while the host does not answer, until somebody tries again.
 */
export function useStudyWatch(handle: string | null, watch: Watch): void {
  const { trouble, attempt } = useHost();
  const latest = useRef({ ...watch, handle });
  latest.current = { ...watch, handle };
  const lastAttempt = useRef(attempt);
  const isReached = trouble === null;
  const { isLooking } = watch;

  useEffect(() => {
    const triedAgain = attempt !== lastAttempt.current;
    lastAttempt.current = attempt;
    if (handle === null || (!isReached && !triedAgain)) return;
    let ended = false;
    let busy = false;
    let once = false;
    let timer: ReturnType<typeof setTimeout> | undefined;

    const look = async (): Promise<void> => {
      clearTimeout(timer);
      if (ended || document.visibilityState === "hidden") return;
      if (busy) {
        once = true;
        return;
      }
      busy = true;
      const mark = latest.current.mark();
      const answer = await askHost<"study.state">({ kind: "study.state", study: handle });
      busy = false;
      if (latest.current.handle !== handle) return;
      if (answer.ok) latest.current.onState(answer.value, mark);
      else if (isRefusal(answer)) latest.current.onGone(answer, mark);
      if (ended || (!answer.ok && !isRefusal(answer))) return;
      if (once) {
        once = false;
        void look();
      } else wait(answer.ok && answer.value.looking !== null ? lookEveryWhileLooking : lookEvery);
    };
    const wait = (milliseconds: number) => {
      timer = setTimeout(() => void look(), milliseconds);
    };
    const seen = () => {
      if (document.visibilityState !== "hidden") void look();
    };
    const told = (event: MessageEvent<ChangedElsewhere>) => {
      if (event.data?.study === handle) void look();
    };
    channel()?.addEventListener("message", told);
    document.addEventListener("visibilitychange", seen);
    if (isReached) wait(isLooking ? lookEveryWhileLooking : lookEvery);
    else void look();
    return () => {
      ended = true;
      clearTimeout(timer);
      channel()?.removeEventListener("message", told);
      document.removeEventListener("visibilitychange", seen);
    };
  }, [handle, isReached, attempt, isLooking]);
}
