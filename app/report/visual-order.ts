/** Letters of scripts that run from right to left, with their marks and the punctuation that belongs to them. */
const rightToLeft =
  /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}\p{Script=Samaritan}\p{Script=Mandaic}\u060c\u061b\u061f\u0640]/u;
const piece = new RegExp(
  `${rightToLeft.source}(?:${rightToLeft.source}|\\p{Mark}|['\u2019-](?=${rightToLeft.source}))*|\\p{Letter}[\\p{Letter}\\p{Mark}]*|\\p{Number}+(?:[.,:/]\\p{Number}+)*|.`,
  "gsu",
);
const mirrored = new Map([..."()[]{}<>«»‹›"].map((sign, index, all) => [sign, all[index ^ 1] ?? sign]));
const opening = "([{<«‹";

/**
 * A line that runs from left to right with stretches of right-to-left words in it, put into the order in which its words are
 * seen. The letters of a word stay in the order of reading: the font's own shaping turns them. A short form of the Unicode
 * Bidirectional Algorithm (Unicode Standard Annex 9, from memory) for names within a sentence: numbers and signs between two
 * such words go with them, those at their outer ends stay with the sentence.
 */
export function visualOrder(text: string): string {
  if (!rightToLeft.test(text)) return text;
  const pieces = text.match(piece) ?? [];
  const seen: string[] = [];
  for (let from = 0; from < pieces.length; ) {
    if (!rightToLeft.test(pieces[from] ?? "")) {
      seen.push(pieces[from] ?? "");
      from++;
      continue;
    }
    const to = endOfStretch(pieces, from);
    for (const one of pieces.slice(from, to).reverse()) seen.push(mirrored.get(one) ?? one);
    from = to;
  }
  return seen.join("");
}

/** Where a stretch of right-to-left words ends: after its last such word, and after the bracket that closes one opened in it. */
function endOfStretch(pieces: readonly string[], from: number): number {
  let end = from + 1;
  for (let at = end; at < pieces.length; at++) {
    const one = pieces[at] ?? "";
    if (rightToLeft.test(one)) end = at + 1;
    else if (/\p{Letter}/u.test(one)) break;
  }
  const open = pieces.slice(from, end).reduce((depth, one) => depth + depthOf(one), 0);
  const closesNext = open > 0 && depthOf(pieces[end] ?? "") < 0;
  return closesNext ? end + 1 : end;
}

function depthOf(one: string): number {
  if (!mirrored.has(one)) return 0;
  return opening.includes(one) ? 1 : -1;
}
