/** What a machine says of the time at one moment. */
export interface MachineTime {
  /** Wall clock, ms since 1970, UTC; it may be set. */
  readonly wall: number;
  /**
   * Seconds since the machine was started. On Linux and Windows it goes on through sleep and does not follow a time that is
   * set; on macOS it is reckoned from the wall clock and follows it, so that a set time cannot be seen there (from memory).
   */
  readonly uptime: number;
  /** Other at each start of the machine; null where the system names none. */
  readonly boot: string | null;
}

/** A moment that was stamped, as the machine's clocks had it. */
export interface ClockAnchor extends MachineTime {
  /** What was written into the cell: an anchor stands for that text only. */
  readonly text: string;
}

/** How far the wall clock may drift from the other one before its time counts as set, s. */
export const driftLimit = 2;

/** Time since an anchor, and by how much the machine's time was set meanwhile. */
export interface Elapsed {
  readonly seconds: number;
  /** Seconds; positive: forward. 0 where it was not set, or nothing tells. */
  readonly set: number;
}

/** Whether the machine has not been started anew since. */
function isSameBoot(anchor: MachineTime, now: MachineTime): boolean {
  if (anchor.boot !== null && now.boot !== null) return anchor.boot === now.boot;
  if (now.uptime < anchor.uptime) return false;
  // Without a name of the start: a machine that has been up for less than the wall clock went on may have been started since.
  const byWall = (now.wall - anchor.wall) / 1000;
  return Math.abs(byWall - (now.uptime - anchor.uptime)) <= driftLimit || now.uptime >= byWall;
}

/** Time since an anchor: by the clock that nobody sets, or by the wall clock where the machine was started anew. */
export function elapsedSince(anchor: MachineTime, now: MachineTime): Elapsed {
  const byWall = (now.wall - anchor.wall) / 1000;
  if (!isSameBoot(anchor, now)) return { seconds: byWall, set: 0 };
  const byUptime = now.uptime - anchor.uptime;
  const drift = byWall - byUptime;
  return { seconds: byUptime, set: Math.abs(drift) > driftLimit ? drift : 0 };
}

/** The wall time of now on the time scale of an anchor: as if the machine's time had not been set since. */
export function wallSince(anchor: MachineTime, now: MachineTime): number {
  return anchor.wall + elapsedSince(anchor, now).seconds * 1000;
}

const two = (value: number) => String(value).padStart(2, "0");

/** Local time of day as HH:MM:SS. */
export function clockTextOf(wall: number): string {
  const at = new Date(wall);
  return `${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}`;
}

/** Local date, ISO 8601. */
export function dateTextOf(wall: number): string {
  const at = new Date(wall);
  return `${String(at.getFullYear()).padStart(4, "0")}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** A run that was begun the day before goes on in the night: times of it before this hour are of today. */
const nightEnds = 6;

/**
 * Time since a moment that was typed in, s: only where the run is of today, or goes on from yesterday, and the moment is not
 * still to come; null otherwise.
 *
 * @param time HH:MM, with seconds or without
 * @param date of the run, ISO 8601
 */
export function elapsedSinceTyped(time: string, date: string | null, now: MachineTime): number | null {
  const [, hours, minutes, seconds = "0"] = /^(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?$/.exec(time) ?? [];
  if (hours === undefined || minutes === undefined) return null;
  const since = (day: Date) => {
    const at = new Date(day);
    at.setHours(Number(hours), Number(minutes), Number(seconds), 0);
    return (now.wall - at.getTime()) / 1000;
  };
  const today = new Date(now.wall);
  const yesterday = new Date(now.wall);
  yesterday.setDate(yesterday.getDate() - 1);
  if (date === dateTextOf(today.getTime())) return since(today) >= 0 ? since(today) : null;
  if (date !== dateTextOf(yesterday.getTime())) return null;
  // A run that goes on over midnight keeps its date.
  const isOfNight = Number(hours) < nightEnds && today.getHours() < nightEnds;
  const elapsed = isOfNight ? since(today) : since(yesterday);
  return elapsed >= 0 ? elapsed : null;
}
