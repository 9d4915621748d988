/** Minutes after midnight of the run's first day as a clock shows them; seconds where there are some. */
export function clockText(minutes: number): string {
  const seconds = Math.round(minutes * 60);
  const two = (value: number) => String(value).padStart(2, "0");
  const inDay = ((seconds % 86_400) + 86_400) % 86_400;
  const text = `${two(Math.floor(inDay / 3600))}:${two(Math.floor(inDay / 60) % 60)}`;
  return inDay % 60 === 0 ? text : `${text}:${two(inDay % 60)}`;
}
