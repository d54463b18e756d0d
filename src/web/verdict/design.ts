/** The compiled design of the draft, each number at its best value: what pages draw their curves from. */
import { useMemo } from 'react'
import { atBest } from '../../outlook/draw.ts'
import type { Outpost } from '../../outpost/outpost.ts'
import { useDraft } from '../draft/keeper.ts'
import { useAnswers } from './answers.ts'

export interface DesignNow {
  readonly best: Outpost<number>
  /** Of this variant of the file; null for the file as written. */
  readonly variant: string | null
  /** False while the text has errors, or has not been read yet: it is the design of the last text that had none. */
  readonly isCurrent: boolean
}

/** Null until a text without errors was read. */
export function useDesign(): DesignNow | null {
  const { outpost, text, variant, diagnostics } = useAnswers()
  const draft = useDraft()
  const best = useMemo(() => (outpost === null ? null : atBest(outpost)), [outpost])
  const isSound = !diagnostics.some(({ severity }) => severity === 'error')
  return best === null ? null : { best, variant, isCurrent: isSound && draft?.text === text }
}
