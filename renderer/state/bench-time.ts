const two = (n: number) => String(n).padStart(2, "0");

/** "1042", "104215", "10.42" as they are written in haste, with the colons that the record has; all else as it was typed. */
export function timeAsRecorded(typed: string): string {
  const text = typed.trim();
  const digits = /^(\d{1,2})(\d{2})(\d{2})?$/.exec(text.length === 5 ? `0${text}` : text);
  const parted = /^(\d{1,2})[.,; -](\d{2})(?:[.,; -](\d{2}))?$/.exec(text);
  const found = digits ?? parted;
  if (found === null) return /^\d:\d{2}(:\d{2})?$/.test(text) ? `0${text}` : text;
  const [, hour = "", minute = "", second] = found;
  return [hour.padStart(2, "0"), minute, ...(second === undefined ? [] : [second])].join(":");
}

/** The same for a run's day: "20260314" and "2026.3.14". */
export function dateAsRecorded(typed: string): string {
  const found = /^(\d{4})(?:(\d{2})(\d{2})|[-./](\d{1,2})[-./](\d{1,2}))$/.exec(typed.trim());
  if (found === null) return typed.trim();
  const [, year = "", month = found[4] ?? "", day = found[5] ?? ""] = found;
  return `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
}

/** "3:12", "1:02:03". */
export function clockText(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor((whole % 3600) / 60);
  return hours === 0 ? `${minutes}:${two(whole % 60)}` : `${hours}:${two(minutes)}:${two(whole % 60)}`;
}

/** The day of a moment on this machine's clock, as runs are dated. */
export const dayOf = (moment: Date): string =>
  `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;

/** The time of day of a moment on this machine's clock, as times are recorded. */
export const timeOf = (moment: Date): string =>
  `${two(moment.getHours())}:${two(moment.getMinutes())}:${two(moment.getSeconds())}`;
