/** The last seconds of a recording under way: the highest current of each moment, and what it comes to so far. */
import type { Live } from '../../api/bench.ts'
import { formatQuantity } from '../../quantity/format.ts'
import { totals } from '../../report/live-picture.ts'
import { duration } from '../../report/recording-words.ts'
import { useWidth } from '../figure/use-width.ts'
import { localised } from '../look/shown.ts'

const HEIGHT = 90
const BINS = 60
const DECADES = 5

export function LivePictureView({ live: { picture, problem } }: { readonly live: Live }) {
  const [box, width] = useWidth()
  const { highest_A, bin_s, now } = picture
  const most = Math.max(...highest_A.map((x) => x ?? 0), 1e-12)
  const bar = width / BINS
  const height = (x: number) =>
    Math.max(1 + Math.log10(Math.max(x, 1e-15) / most) / DECADES, 0.02) * (HEIGHT - 4)
  const highest = localised(formatQuantity(most, 'current', { digits: 3 }))
  const spanned = duration(highest_A.length * bin_s)
  return (
    <div ref={box} className="live-picture">
      <svg
        viewBox={`0 0 ${width} ${HEIGHT}`}
        role="img"
        aria-label={`The last ${spanned}, up to ${highest}, on a logarithmic scale`}
      >
        <line x1={0} x2={width} y1={HEIGHT - 0.5} y2={HEIGHT - 0.5} className="axis-line" />
        {highest_A.map((x, k) =>
          x === null ? null : (
            <rect
              // biome-ignore lint/suspicious/noArrayIndexKey: bars have no name but their place
              key={k}
              x={width - (highest_A.length - k) * bar}
              width={Math.max(bar - 1, 1)}
              y={HEIGHT - height(x)}
              height={height(x)}
              className="live-bar"
            />
          ),
        )}
      </svg>
      <p>
        The last {localised(spanned)}, highest {highest}.{' '}
        {now === null
          ? 'Which level it is at cannot be told yet.'
          : `Now ${localised(formatQuantity(now.current_A, 'current', { digits: 4 }))} for ${localised(duration(now.since_s))}: level ${now.state + 1} of ${now.of} seen lately.`}
      </p>
      {totals({ ...picture, highest_A: [] }).map((line) => (
        <p key={line}>{localised(`${line[0].toUpperCase()}${line.slice(1)}.`)}</p>
      ))}
      {problem !== null && (
        <p className="problem error">It cannot be read so far: {problem}. Lines are kept as they come.</p>
      )}
    </div>
  )
}
