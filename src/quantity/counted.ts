/** `1 year`, `15 years`, `0.5 years`: a count with its noun, whose plural must be regular. */
export const counted = (n: number, noun: string, shown: (n: number) => string = String): string =>
  `${shown(n)} ${n === 1 ? noun : `${noun}s`}`
