/** Text for a terminal that may hold words of a file: none of them can move the cursor, write over lines or turn them round. */

/** Control and direction characters become spaces, but for line ends and the marks of `Ink`. */
export const forTerminal = (text: string): string =>
  text.replace(CONTROLS, (_, kept: string | undefined) => kept ?? ' ')

const CONTROLS =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  /(\u001b\[(?:1|22|2|33|39)m|\n)|[\p{Cc}\p{Zl}\p{Zp}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu
