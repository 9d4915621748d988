/** Number of single-character changes between two short texts (Levenshtein). */
function editDistance(left: string, right: string): number {
  let previous = Array.from({ length: right.length + 1 }, (_, index) => index);
  for (let row = 1; row <= left.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= right.length; column += 1) {
      const change = (previous[column - 1] ?? 0) + (left[row - 1] === right[column - 1] ? 0 : 1);
      current.push(Math.min(change, (previous[column] ?? 0) + 1, (current[column - 1] ?? 0) + 1));
    }
    previous = current;
  }
  return previous[right.length] ?? 0;
}

/** The name that somebody probably meant; null where none is near. Capitals, blanks and underscores make no difference. */
export function nearestName(written: string, names: readonly string[]): string | null {
  const plain = (name: string) => name.toLowerCase().replaceAll(/[\s_]/g, "");
  const wanted = plain(written.slice(0, 60));
  let best: string | null = null;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const name of names.slice(0, 2000)) {
    if (name.length > 60) continue;
    const candidate = plain(name);
    const farthest = Math.max(1, Math.floor(Math.min(wanted.length, candidate.length) / 4));
    // Each character more or less is a change already.
    if (Math.abs(wanted.length - candidate.length) > farthest) continue;
    const distance = editDistance(wanted, candidate);
    if (distance < bestDistance && distance <= farthest) {
      best = name;
      bestDistance = distance;
    }
  }
  return best;
}
