/** How far apart two words are, for "did you mean": Damerau (1964) in its restricted form, "optimal string alignment". */

/** Fewest insertions, deletions, replacements and swaps of neighbours that turn `a` into `b`; no place edited twice. */
export function editDistance(a: string, b: string): number {
  let before: number[] = []
  let row = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      const replaced = row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1)
      next[j] = Math.min(replaced, row[j] + 1, next[j - 1] + 1)
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      if (swapped) next[j] = Math.min(next[j], before[j - 2] + 1)
    }
    before = row
    row = next
  }
  return row[b.length]
}

/** The word of `words` nearest to `word`, whatever its case; the first of equals. Throws RangeError on no words. */
export function nearestWord(word: string, words: readonly string[]): string {
  if (words.length === 0) throw new RangeError('no words to compare with')
  const distances = words.map((other) => editDistance(word.toLowerCase(), other.toLowerCase()))
  return words[distances.indexOf(Math.min(...distances))]
}
