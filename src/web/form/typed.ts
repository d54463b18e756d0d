/** Whether a field still shows what was typed into it, or what the file says by now. Pure. */

export interface Typed {
  readonly text: string
  /** What the file said once this was typed: the same, trimmed; or what it said before, where that was not taken. */
  readonly left: string
  /** Undos and redos until then. */
  readonly turns: number
}

/** What the file says at the field now. */
export interface Standing {
  readonly written: string
  readonly turns: number
}

/**
 * Another hand that changed the value (the text beside, the disk), and every undo and redo, put an end to what was typed:
 * the next key would write it again.
 */
export const isStillTyped = ({ left, turns }: Typed, now: Standing): boolean =>
  left === now.written && turns === now.turns
