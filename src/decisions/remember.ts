/** Remembers the last few answers of a costly function: designs that differ in one number share most of their tables. */
export function remember<Arguments extends unknown[], Result>(
  f: (...given: Arguments) => Result,
  keyOf: (...given: Arguments) => string,
  most = 8,
): (...given: Arguments) => Result {
  const known = new Map<string, Result>()
  return (...given) => {
    const key = keyOf(...given)
    const before = known.get(key)
    if (before !== undefined) return before
    const result = f(...given)
    const oldest = known.keys().next()
    if (known.size >= most && !oldest.done) known.delete(oldest.value)
    known.set(key, result)
    return result
  }
}
