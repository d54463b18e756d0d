/** One kind of long work: what a page may ask, and the use case that answers. */
import type { z } from 'zod'
import type { Live } from '../../api/bench.ts'
import type { Answers, Asked, Work } from '../../api/work.ts'
import type { Playing } from '../../workbench/playing.ts'

export interface Doing extends Required<Playing> {
  /** Absolute: the fence around every file that is named. */
  readonly folder: string
  readonly calendarYear: number
  /** Aborted once the user has enough: what came until then is the answer. */
  readonly enough: AbortSignal
  /** Of a recording under way. */
  readonly onPicture: (picture: Live) => void
}

export type AskedOf<W extends Work> = Extract<Asked, { readonly work: W }>

export interface WorkOf<W extends Work> {
  /** An object that says `work`. */
  readonly asked: z.ZodType<AskedOf<W>> & z.core.$ZodTypeDiscriminable
  /**
   * Runs in a thread of its own. Throws a Refusal or Refused for what the user can mend, and ends soon after the signal.
   * It loads the use case itself, so that the server holds none while it is idle.
   */
  readonly run: (asked: AskedOf<W>, doing: Doing) => Promise<Answers[W]>
}
