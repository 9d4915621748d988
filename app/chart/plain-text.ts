/**
 * Text from data made safe to show: control characters and the invisible marks that turn the direction of what follows are
 * taken out, line breaks and tabs become spaces, halves of surrogate pairs become U+FFFD. Everything visible stays.
 */
export function plainText(text: string): string {
  return (
    text
      .toWellFormed()
      .replace(/[\t\n\v\f\r\u0085\u2028\u2029]+/g, " ")
      // C0, DEL and C1; soft direction marks, embeddings, overrides and isolates; byte order mark and interlinear marks.
      .replace(/[\p{Cc}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff\ufff9-\ufffb\ufffe\uffff]/gu, "")
  );
}
