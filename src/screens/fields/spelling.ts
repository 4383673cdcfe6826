/** The word that was most likely meant. */

/** The one of `words` nearest to `word`, small and capital letters alike; null when none is near. */
export function nearestWord(word: string, words: readonly string[]): string | null {
  const given = word.toLowerCase();
  let best: string | null = null;
  // Up to a third of the letters may be wrong.
  let least = Math.floor(given.length / 3) + 1;
  for (const one of words) {
    const wrong = lettersApart(given, one.toLowerCase());
    if (wrong < least) [best, least] = [one, wrong];
  }
  return best;
}

/** Letters to put in, leave out or change to make one word of the other (Levenshtein 1966). */
function lettersApart(a: string, b: string): number {
  let before = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const change = before[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(change, before[j]! + 1, row[j - 1]! + 1));
    }
    before = row;
  }
  return before[b.length]!;
}
