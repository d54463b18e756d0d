/** One wake as a wave: read out part by part, and changed by dragging the ends of its steps. */
import { momentsOf } from '../../wake/moments.ts'
import type { Frame } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { labelRows } from '../figure/label-rows.ts'
import { ReadAlong } from '../figure/read-along.tsx'
import { useWidth } from '../figure/use-width.ts'
import { useForm } from '../form/form.ts'
import { go, useRoute } from '../route.ts'
import { toleranceWords } from './retimed.ts'
import { useEdgeDrag } from './use-edge-drag.ts'
import { durationText, useWave, type WaveNow } from './use-wave.ts'
import { NAME_ROW_px, WaveDrawing } from './wave-drawing.tsx'
import { WaveEdges } from './wave-edges.tsx'
import { partAt } from './wave-parts.ts'
import { stepWidths, timeAxis, timeScale, type Widths } from './wave-scale.ts'
import { partWords, waveCaption, waveTable } from './wave-words.ts'

const MARGINS = { left: 58, right: 10, bottom: 42 }
const HEIGHT = 330
const NAME_ROWS = 3
const HEAD_px = 20

export function WaveFigure() {
  const wave = useWave()
  if (wave === null || wave.steps.length === 0)
    return <p className="waiting">The wave is drawn once the steps below can be read.</p>
  return <Wave {...wave} />
}

function Wave({ wake, steps, fixed }: WaveNow) {
  const [ref, width] = useWidth()
  const form = useForm()
  const { more } = useRoute()
  const widths: Widths = more.parts === 'evened' ? 'evened' : 'to scale'
  const bare: Frame = { ...MARGINS, width, top: 0, height: HEIGHT }
  const own = stepWidths(steps, bare, widths)
  const edgeDrag = useEdgeDrag(form, steps, own)
  const x = timeScale(steps, edgeDrag.widthsNow(own), bare)
  const parts = steps.flatMap((step) => step.parts)
  const { total } = momentsOf(wake)
  const names = labelRows(
    steps.map(({ step, from_s, to_s, parts: its }) => ({
      text: step.name,
      x: (x(from_s) + x(to_s)) / 2,
      weight: its.reduce((sum, part) => sum + part.shareOfCharge, 0),
    })),
    { left: bare.left, right: width - bare.right, rows: NAME_ROWS },
  )
  const rows = Math.max(1, ...names.map(({ row }) => row + 1))
  const frame: Frame = { ...bare, top: HEAD_px + rows * NAME_ROW_px }
  return (
    <FigureFrame
      name="wave"
      title="One wake"
      caption={waveCaption(steps, total)}
      table={waveTable(steps)}
      controls={
        <label className="inline">
          <input
            type="checkbox"
            checked={widths === 'evened'}
            onChange={({ target }) =>
              go(
                { more: target.checked ? { ...more, parts: 'evened' } : without(more, 'parts') },
                { quietly: true },
              )
            }
          />{' '}
          short steps wider
        </label>
      }
    >
      <div ref={ref} className="wave">
        <ReadAlong
          label="Parts of the wake, read out"
          count={parts.length}
          wordsOf={(index) => partWords(parts[index])}
          indexAt={(at) => partAt(parts, x.invert(at))}
          width={width}
        >
          {(read) => (
            <WaveDrawing
              steps={steps}
              rest_A={wake.rest_A}
              frame={frame}
              x={x}
              axis={timeAxis(steps, x, widths, width - frame.left - frame.right)}
              names={names}
              read={read === null ? null : parts[read]}
            />
          )}
        </ReadAlong>
        {fixed === null && <WaveEdges steps={steps} frame={frame} x={x} edgeDrag={edgeDrag} />}
      </div>
      <p className="hint">
        {fixed ?? dragHint(steps.map((step) => toleranceWords(durationText(form, step))))}
      </p>
    </FigureFrame>
  )
}

/** Told of the kinds of tolerance that the steps have. */
function dragHint(tolerances: readonly (string | null)[]): string {
  const kinds = [...new Set(tolerances.filter((words) => words !== null))]
  const kept = kinds.length === 0 ? '' : ` Of a duration with a tolerance: ${kinds.join('; ')}.`
  return `Drag the end of a step, or focus it and press the arrow keys, to make it longer or shorter; the file follows.${kept}`
}

function without(more: Readonly<Record<string, string>>, key: string): Record<string, string> {
  return Object.fromEntries(Object.entries(more).filter(([each]) => each !== key))
}
