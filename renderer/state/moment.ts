const two = (n: number) => String(n).padStart(2, "0");

/** "2026-11-25 14:07": a moment (ISO 8601) on this machine's clock, written as the dates of runs are. */
export function shownMoment(iso: string): string {
  const moment = new Date(iso);
  if (Number.isNaN(moment.getTime())) return iso;
  const date = [String(moment.getFullYear()), two(moment.getMonth() + 1), two(moment.getDate())].join("-");
  return `${date} ${two(moment.getHours())}:${two(moment.getMinutes())}`;
}
