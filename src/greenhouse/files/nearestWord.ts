/** The known word that is spelled most like the given one, where one is near enough (at most a third of its letters differ). */
export function nearestWord(given: string, known: readonly string[]): string | undefined {
  let best: { word: string; distance: number } | undefined;
  for (const word of known) {
    const distance = editDistance(given.toLowerCase(), word.toLowerCase());
    if (distance <= Math.max(2, word.length / 3) && (best === undefined || distance < best.distance)) best = { word, distance };
  }
  return best?.word;
}

/** Levenshtein 1966: fewest insertions, deletions and substitutions. Words beyond 64 letters are compared by their first 64. */
function editDistance(a: string, b: string): number {
  const [from, to] = [a.slice(0, 64), b.slice(0, 64)];
  let row = Array.from({ length: to.length + 1 }, (_, i) => i);
  for (let i = 1; i <= from.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= to.length; j += 1) {
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (from[i - 1] === to[j - 1] ? 0 : 1)));
    }
    row = next;
  }
  return row[to.length]!;
}
