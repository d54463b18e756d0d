/** The bytes that give a CSV text its form, in ASCII. */
export const LINE_END = 10
export const RETURN = 13
export const SPACE = 32
export const QUOTE = 34
export const PLUS = 43
export const MINUS = 45
export const POINT = 46
export const SLASH = 47
export const E_LOW = 101
