import { useCallback, useEffect, useRef, useState } from "react";
import type { BenchClockView } from "../../app/contract/index.ts";
import { askHost } from "./host.ts";

/** How often the service's clock is asked again, ms. */
export const askClockEvery = 5_000;
/** How often the shown second is looked at, ms. */
const tickEvery = 250;
/** A tick that comes this much late, or a machine's time that moves this much otherwise, tells that it slept or was set; ms. */
const lateAfter = 1_500;

interface Known {
  readonly clock: BenchClockView | null;
  /** When it was answered, on the page's steady clock, ms. */
  readonly at: number;
}

export interface RunningClock {
  readonly clock: BenchClockView;
  /** Whole seconds since the moment that its label names. */
  readonly elapsed: number;
  /** Whole seconds that are left of a countdown, less than nothing where it is over; null where it counts up. */
  readonly left: number | null;
}

/**
 * The run's clock, second by second. Only the service knows it: the page counts on by its own steady clock from one answer to
 * the next, and asks again every few seconds and whenever it may have slept.
 */
export function useBenchClock(study: string, run: string, shown: BenchClockView | null): RunningClock | null {
  const [known, setKnown] = useState<Known>({ clock: shown, at: performance.now() });
  const [now, setNow] = useState(() => performance.now());
  const asking = useRef<string | null>(null);

  // What came with the run is newer than what was asked before it.
  useEffect(() => {
    const at = performance.now();
    setKnown({ clock: shown, at });
    setNow(at);
  }, [shown]);

  const ask = useCallback(async () => {
    const key = `${study}/${run}`;
    if (asking.current === key || document.visibilityState === "hidden") return;
    asking.current = key;
    const answer = await askHost<"bench.clock">({ kind: "bench.clock", study, run });
    if (asking.current !== key) return;
    asking.current = null;
    if (!answer.ok) return;
    const at = performance.now();
    setKnown({ clock: answer.value, at });
    setNow(at);
  }, [study, run]);

  const isRunning = known.clock !== null;
  useEffect(() => {
    if (!isRunning) return;
    let last = { steady: performance.now(), wall: Date.now() };
    let asked = last.steady;
    const tick = () => {
      const steady = performance.now();
      const wall = Date.now();
      const slept = Math.abs(wall - last.wall - (steady - last.steady)) > lateAfter;
      const isLate = steady - last.steady > tickEvery + lateAfter;
      last = { steady, wall };
      setNow(steady);
      if (slept || isLate || steady - asked >= askClockEvery) {
        asked = steady;
        void ask();
      }
    };
    const timer = setInterval(tick, tickEvery);
    const again = () => void ask();
    document.addEventListener("visibilitychange", again);
    window.addEventListener("focus", again);
    window.addEventListener("pageshow", again);
    return () => {
      clearInterval(timer);
      document.removeEventListener("visibilitychange", again);
      window.removeEventListener("focus", again);
      window.removeEventListener("pageshow", again);
    };
  }, [isRunning, ask]);

  const { clock, at } = known;
  if (clock === null) return null;
  const elapsed = Math.floor(clock.elapsedSeconds + Math.max(0, now - at) / 1_000);
  return { clock, elapsed, left: clock.countDownSeconds === null ? null : clock.countDownSeconds - elapsed };
}
