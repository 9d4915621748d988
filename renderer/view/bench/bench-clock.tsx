import { useEffect, useRef, useState } from "react";
import type { BenchRunView } from "../../../app/contract/index.ts";
import { useBenchClock } from "../../state/bench-clock.ts";
import { chooseSound, dropCue, dueCue, planCue, soundCue, useSound } from "../../state/bench-sound.ts";
import { clockText } from "../../state/bench-time.ts";
import { useWords } from "../../state/language.tsx";

/** So long before a countdown is over it says so, s. */
const headsUp = 120;

/** The run clock, large; where it counts down, with a cue to see and to hear. */
export function BenchClock({ study, run }: { study: string; run: BenchRunView }) {
  const words = useWords().bench;
  const running = useBenchClock(study, run.id, run.clock);
  const left = running?.left ?? null;
  const phase = running?.clock.phase ?? null;
  const isOver = left !== null && left <= 0;
  const isSoon = left !== null && left > 0 && left <= headsUp;
  const isCued = useCue(phase, left);
  useTitle(isOver ? words.cueWord : null);
  if (running === null) return null;
  const { clock, elapsed } = running;
  const shown = left === null ? clockText(elapsed) : isOver ? words.over(clockText(-left)) : clockText(left);
  return (
    <section
      className={isOver ? "bench-clock is-over" : isSoon ? "bench-clock is-soon" : "bench-clock"}
      aria-label={words.clock}
    >
      <p className="soft small" id="bench-clock-label">
        {clock.label}
      </p>
      <p className="bench-time" role="timer" aria-live="off" aria-labelledby="bench-clock-label">
        {shown}
      </p>
      {isOver && <p className="bench-cue">{words.cueWord}</p>}
      {isSoon && <p className="mark small">{words.soon}</p>}
      {clock.note !== null && <p className="mark small">{clock.note}</p>}
      <p className="visually-hidden" role="alert">
        {isCued ? words.cue(clock.label) : ""}
      </p>
      {left !== null && <SoundChoice />}
    </section>
  );
}

function SoundChoice() {
  const words = useWords().bench;
  const isOn = useSound();
  const [isSilent, setIsSilent] = useState(false);
  return (
    <div className="bench-sound small">
      <label className="choice">
        <input type="checkbox" checked={isOn} onChange={(event) => chooseSound(event.target.checked)} />
        <span>{words.soundOn}</span>
      </label>
      {isOn && (
        <button type="button" className="plain" onClick={() => setIsSilent(!soundCue())}>
          {words.trySound}
        </button>
      )}
      <span role="status" className="soft">
        {isOn ? isSilent && words.noSound : words.silent}
      </span>
    </div>
  );
}

/**
 * Sounds once as a countdown passes its end before this page's eyes, also where the machine slept over it; true from then on. It
 * is set beforehand, and is heard on other pages of this window too.
 */
function useCue(phase: string | null, left: number | null): boolean {
  const waited = useRef<string | null>(null);
  const [cued, setCued] = useState<string | null>(null);
  useEffect(() => {
    if (phase === null || left === null) {
      waited.current = null;
      setCued(null);
      dropCue();
    } else if (left > 0) {
      waited.current = phase;
      planCue(left);
    } else if (waited.current === phase) {
      waited.current = null;
      setCued(phase);
      dueCue();
    }
  }, [phase, left]);
  return cued !== null && cued === phase && left !== null && left <= 0;
}

/** Stands before the window's title, where it is seen from other windows; also after the page has named itself anew. */
function useTitle(word: string | null): void {
  const prefix = word === null ? null : `${word}: `;
  useEffect(() => {
    if (prefix !== null && !document.title.startsWith(prefix)) document.title = prefix + document.title;
  });
  useEffect(() => {
    if (prefix === null) return;
    return () => {
      if (document.title.startsWith(prefix)) document.title = document.title.slice(prefix.length);
    };
  }, [prefix]);
}
