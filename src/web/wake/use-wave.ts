/** The wave that is drawn: that of the compiled design, with the durations that stand in the text at this moment. */
import type { Step, Wake } from '../../wake/wake.ts'
import { type Form, useForm } from '../form/form.ts'
import { type DesignNow, useDesign } from '../verdict/design.ts'
import { durationOf_s } from './retimed.ts'
import { type StepPlace, type WaveStep, waveSteps } from './wave-parts.ts'

export interface WaveNow {
  readonly wake: Wake<number>
  readonly steps: readonly WaveStep[]
  /** Why its edges cannot be dragged; null where they can. */
  readonly fixed: string | null
}

export function useWave(): WaveNow | null {
  const design = useDesign()
  const form = useForm()
  if (design === null) return null
  const fixed = whyFixed(form, design)
  const wake = fixed === null ? asTyped(form, design.best.wake) : design.best.wake
  return { wake, steps: waveSteps(wake), fixed }
}

export const stepPath = ({ list, index }: StepPlace) => ['wake', list, index] as const

export const durationText = (form: Form, place: StepPlace): string =>
  textOf(form, [...stepPath(place), 'for'])

function textOf(form: Form, path: readonly (string | number)[]): string {
  const value = form.valueAt(path)
  return value.kind === 'text' ? value.text : ''
}

function whyFixed(form: Form, { best, variant }: DesignNow): string | null {
  if (variant !== null)
    return `This is the wave of the variant “${variant}”. Choose “as written” above to drag its edges.`
  const isSame = (['boot', 'steps'] as const).every((list) => {
    const names = form.entriesAt(['wake', list]).map((index) => textOf(form, ['wake', list, index, 'name']))
    return names.join('\n') === best.wake[list].map(({ name }) => name).join('\n')
  })
  return isSame ? null : 'This is the wave of the text before: mend what is wrong in it, and it follows.'
}

function asTyped(form: Form, wake: Wake<number>): Wake<number> {
  const typed = (list: StepPlace['list']): readonly Step<number>[] =>
    wake[list].map((step, index) => {
      const duration_s = durationOf_s(durationText(form, { list, index }))
      return duration_s === null ? step : { ...step, duration_s }
    })
  return { ...wake, boot: typed('boot'), steps: typed('steps') }
}
