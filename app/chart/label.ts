/** Width of a text in pixels, in the font that will be drawn. */
export type MeasureText = (text: string) => number;

const ellipsis = "…";
/** No chart has room for more; longer names are cut before they are measured. */
const longestMeasured = 300;

/** Cuts a text to a width, at a whole character (grapheme), with an ellipsis where something is missing. */
export function shortenText(text: string, width: number, measure: MeasureText): string {
  if (text.length <= longestMeasured && measure(text) <= width) return text;
  const graphemes = Array.from(new Intl.Segmenter().segment(text.slice(0, longestMeasured)), (part) => part.segment);
  let low = 0;
  let high = graphemes.length;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (measure(graphemes.slice(0, middle).join("").trimEnd() + ellipsis) <= width) low = middle;
    else high = middle - 1;
  }
  return graphemes.slice(0, low).join("").trimEnd() + ellipsis;
}

/** Breaks a text at spaces into at most so many lines; the last line, and any word wider than a line, is shortened. */
export function wrapLabel(text: string, width: number, mostLines: number, measure: MeasureText): string[] {
  const lines: string[] = [];
  let rest = text.trim();
  while (rest !== "" && lines.length < mostLines - 1) {
    if (rest.length <= longestMeasured && measure(rest) <= width) break;
    const words = rest.slice(0, longestMeasured).split(" ");
    let count = 0;
    while (count < words.length && measure(words.slice(0, count + 1).join(" ")) <= width) count++;
    const line = words.slice(0, count).join(" ");
    if (line === "" || line.length >= rest.length) break;
    lines.push(line);
    rest = rest.slice(line.length).trim();
  }
  if (rest !== "") lines.push(shortenText(rest, width, measure));
  return lines;
}
