/** What the user said of a reading's states and of where the instrument sat: one answer for adopting and for checking. */
import { useEffect, useState } from 'react'
import type { RecordingReading } from '../../report/recording-reading.ts'
import type { Chosen } from './match-form.tsx'

export interface MatchSaid {
  readonly chosen: Chosen
  readonly choose: (state: string, role: string) => void
  readonly where: 'rail' | 'cell'
  readonly setWhere: (where: 'rail' | 'cell') => void
}

export function useMatch(reading: RecordingReading | null): MatchSaid {
  const [chosen, setChosen] = useState<Chosen>({})
  const [where, setWhere] = useState<'rail' | 'cell'>('rail')
  // biome-ignore lint/correctness/useExhaustiveDependencies: the states of another reading are named anew
  useEffect(() => setChosen({}), [reading])
  return {
    chosen,
    choose: (state, role) => setChosen((now) => ({ ...now, [state]: role })),
    where,
    setWhere,
  }
}
