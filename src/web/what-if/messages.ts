/** What the page asks of its Web Worker, and what that answers: the newest question ends all earlier ones. */
import type { Diagnostic } from '../../outpost/file/diagnostic.ts'
import type { AnswerProblem, Answers as Blanks } from '../../outpost/file/new.ts'
import type { Outpost } from '../../outpost/outpost.ts'
import type { Forecast } from '../../report/forecast.ts'

export interface Question {
  readonly id: number
  /** Its base name, for the report. */
  readonly file: string
  readonly text: string
  /** Weather files that the design names, as far as they were fetched. */
  readonly files: Readonly<Record<string, Uint8Array>>
  readonly variant: string | null
  readonly seed: number
  readonly calendarYear: number
}

/** The five numbers of the first page: answered with the file that they make, by `written`. */
export interface Sentence {
  readonly id: number
  readonly blanks: Blanks
}

export type Answer = { readonly id: number } & (
  | {
      /** First, at once. */
      readonly kind: 'read'
      readonly diagnostics: readonly Diagnostic[]
      readonly variants: readonly string[]
      /** Weather files that are named and were not sent: fetch them, and ask again. */
      readonly wanted: readonly string[]
      /** The compiled design, of the variant where one is asked for; null where the text has errors. */
      readonly outpost: Outpost | null
      /** What the file leaves out and the program takes as usual, by path: shown in empty fields. */
      readonly assumptions: readonly {
        readonly path: string
        readonly text: string
        readonly source: string
      }[]
    }
  | {
      /** Again and again with more runs, `isWhole` the last time. */
      readonly kind: 'forecast'
      readonly forecast: Forecast
      readonly isWhole: boolean
    }
  | {
      readonly kind: 'written'
      /** Null where a blank will not do. */
      readonly text: string | null
      readonly problems: readonly AnswerProblem[]
    }
  /** Our fault. */
  | { readonly kind: 'broken'; readonly why: string }
)
