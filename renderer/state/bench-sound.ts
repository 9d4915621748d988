import { useSyncExternalStore } from "react";

/** Whether the cue is heard on this machine. */
const place = "boilbench.bench.sound";
const listeners = new Set<() => void>();
let silenced: boolean | null = null;

export function isSoundOn(): boolean {
  if (silenced !== null) return !silenced;
  try {
    return localStorage.getItem(place) !== "off";
  } catch {
    return true;
  }
}

export function chooseSound(isOn: boolean): void {
  try {
    localStorage.setItem(place, isOn ? "on" : "off");
    silenced = null;
  } catch {
    silenced = !isOn;
  }
  if (!isOn) dropCue();
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export const useSound = (): boolean => useSyncExternalStore(subscribe, isSoundOn);

let context: AudioContext | null = null;

/** Browsers let a page sound only after somebody has pressed something in it. */
function audio(): AudioContext | null {
  if (typeof AudioContext === "undefined") return null;
  context ??= new AudioContext();
  if (context.state === "suspended") void context.resume().catch(() => {});
  return context;
}

/** Makes ready while a key is pressed, so that the cue is heard when nobody touches anything. */
export function prepareSound(): void {
  if (isSoundOn()) audio();
}

/** Three pairs of soft rising tones: heard over a fire, no alarm. Pitches in Hz, times in seconds. */
const tones = [0, 0.9, 1.8].flatMap((start) => [
  { start, pitch: 587 },
  { start: start + 0.28, pitch: 784 },
]);

/** Sounds all tones from a moment on, by the sound's own clock. */
function sound(to: AudioContext, begin: number): OscillatorNode[] {
  return tones.map(({ start, pitch }) => {
    const from = begin + start;
    const tone = to.createOscillator();
    const volume = to.createGain();
    tone.type = "sine";
    tone.frequency.value = pitch;
    volume.gain.setValueAtTime(0.0001, from);
    volume.gain.exponentialRampToValueAtTime(0.35, from + 0.04);
    volume.gain.exponentialRampToValueAtTime(0.0001, from + 0.6);
    tone.connect(volume).connect(to.destination);
    tone.start(from);
    tone.stop(from + 0.65);
    return tone;
  });
}

/** Sounds the cue; false where this machine cannot, or is not to. */
export function soundCue(): boolean {
  if (!isSoundOn()) return false;
  const to = audio();
  if (to === null) return false;
  sound(to, to.currentTime);
  return true;
}

/** A cue that is set for later. */
let planned: { readonly at: number; readonly tones: readonly OscillatorNode[] } | null = null;

/** So far a cue may be from where it should be before it is set anew, s. Shown seconds are whole ones. */
const slack = 1.5;

/**
 * Sets the cue for so many seconds from now, in place of one that was set before. The sound's own clock goes on where the
 * timers of a window out of sight are woken once a minute, and where another page is looked at; while the machine sleeps it
 * stands still, so that it is set anew by whoever calls this again.
 */
export function planCue(seconds: number): void {
  if (!isSoundOn() || context?.state !== "running") return;
  const at = context.currentTime + seconds;
  if (planned !== null && Math.abs(planned.at - at) <= slack) return;
  dropCue();
  planned = { at, tones: sound(context, at) };
}

/** The cue is due: it sounds now, unless it was set and is heard without that. */
export function dueCue(): void {
  const isHeard = planned !== null && context?.state === "running" && planned.at <= context.currentTime + slack;
  if (isHeard) planned = null;
  else {
    dropCue();
    soundCue();
  }
}

/** No cue is to come. */
export function dropCue(): void {
  for (const tone of planned?.tones ?? []) tone.disconnect();
  planned = null;
}
