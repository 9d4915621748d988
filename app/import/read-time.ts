/** A time of day, or a moment with its date; milliseconds after midnight, days after 1970-01-01. */
export type TimeRead =
  | { readonly kind: "time"; readonly milliseconds: number }
  | { readonly kind: "dateTime" | "utcDateTime"; readonly day: number; readonly milliseconds: number };

export const millisecondsPerDay = 86_400_000;

/** Days after 1970-01-01 of a date of the calendar; null where there is no such day. */
function dayOf(year: number, month: number, day: number): number | null {
  const time = Date.UTC(year, month - 1, day);
  const date = new Date(time);
  const exists = date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
  return exists && year >= 1900 ? Math.round(time / millisecondsPerDay) : null;
}

/** `2026-03-14` as days after 1970-01-01; null where it is no such date from 1900 on. */
export function readDate(cell: string): number | null {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(cell.trim());
  return parts === null ? null : dayOf(Number(parts[1]), Number(parts[2]), Number(parts[3]));
}

/** Days after 1970-01-01 as `2026-03-14`. */
export function dateText(day: number): string {
  return new Date(day * millisecondsPerDay).toISOString().slice(0, 10);
}

function timeOfDay(hours: string, minutes: string, seconds = "0", fraction = ""): number | null {
  const [h, m, s] = [Number(hours), Number(minutes), Number(seconds)];
  if (h > 23 || m > 59 || s > 59) return null;
  return ((h * 60 + m) * 60 + s) * 1000 + Number(fraction.padEnd(3, "0"));
}

const clock = String.raw`(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,3}))?)?`;
const bareTime = new RegExp(`^${clock}$`);
const dateAndTime = new RegExp(String.raw`^(\d{4})-(\d{2})-(\d{2})[Tt ]${clock}\s*(Z|z|[+-]\d{2}(?::?\d{2})?)?$`);

/** Milliseconds by which a local time is ahead of UTC; null where no place has such an offset. */
function offsetMilliseconds(text: string): number | null {
  if (text.toUpperCase() === "Z") return 0;
  const hours = Number(text.slice(1, 3));
  const minutes = Number(text.slice(3).replace(":", "") || "0");
  if (hours > 14 || minutes > 59) return null;
  return (text.startsWith("-") ? -1 : 1) * (hours * 60 + minutes) * 60_000;
}

/** hh:mm[:ss[.fff]], or an ISO 8601 date-time with or without an offset from UTC; null where it is neither. */
export function readTime(cell: string): TimeRead | null {
  const text = cell.trim();
  if (text.length > 40) return null;
  const bare = bareTime.exec(text);
  if (bare !== null) {
    const milliseconds = timeOfDay(bare[1] ?? "", bare[2] ?? "", bare[3], bare[4]);
    return milliseconds === null ? null : { kind: "time", milliseconds };
  }
  const parts = dateAndTime.exec(text);
  if (parts === null) return null;
  const day = dayOf(Number(parts[1]), Number(parts[2]), Number(parts[3]));
  const milliseconds = timeOfDay(parts[4] ?? "", parts[5] ?? "", parts[6], parts[7]);
  if (day === null || milliseconds === null) return null;
  if (parts[8] === undefined) return { kind: "dateTime", day, milliseconds };
  const ahead = offsetMilliseconds(parts[8]);
  if (ahead === null) return null;
  const utc = day * millisecondsPerDay + milliseconds - ahead;
  const utcDay = Math.floor(utc / millisecondsPerDay);
  return { kind: "utcDateTime", day: utcDay, milliseconds: utc - utcDay * millisecondsPerDay };
}

/** A duration with colons, in minutes; null where it is not written that way. */
export function readClockDuration(cell: string, form: "h:mm:ss" | "mm:ss"): number | null {
  const parts = /^(\d{1,3}):(\d{2})(?::(\d{2})(?:[.,](\d{1,3}))?)?$/.exec(cell.trim());
  if (parts === null) return null;
  const [first, second, third] = [Number(parts[1]), Number(parts[2]), Number(parts[3] ?? "0")];
  if (second > 59 || third > 59) return null;
  const fraction = Number((parts[4] ?? "").padEnd(3, "0"));
  // Two numbers are hours and minutes, or minutes and seconds, as the heading has it.
  if (form === "mm:ss" && parts[3] === undefined) return (first * 60 + second) / 60;
  return (((first * 60 + second) * 60 + third) * 1000 + fraction) / 60_000;
}
