/** Which numbers to measure better, and which parts to mend first. */
import type { Answers } from '../../api/work.ts'
import type { InputMatter, MendMatter } from '../../decisions/matters.ts'
import type { Estimate } from '../../numeric/sobol-indices.ts'
import { lifeInWords } from '../../outlook/verdict.ts'
import { mattersInWords } from '../../report/matters.ts'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { localised, numberShown, shareShown } from '../look/shown.ts'
import { useWork } from '../server/work.ts'
import { WorkPart } from '../work/work-part.tsx'

const MOST_ROWS = 12

type MattersReport = Answers['matters']

export function MattersPart() {
  const desk = useWork<'matters'>()
  return (
    <WorkPart
      title="What matters"
      lead="How much of the spread each uncertain number of the file brings about, and what mending a part would gain."
      desk={desk}
      press="Find what matters"
      name="matters"
      plays={{ runs: { label: 'Rows of the sample', low: 8, high: 65_536 }, years: true, weather: true }}
      asks={(outpost, play) => ({ work: 'matters', ...outpost, ...play })}
    >
      {desk.state.is === 'done' && <Found matters={desk.state.answer} />}
    </WorkPart>
  )
}

function Found({ matters }: { readonly matters: MattersReport }) {
  const { of, spread, inputs, mends, futures, rows } = matters
  const width = (value: number) => (of === 'life' ? lifeInWords(value) : `${shareShown(value)} of charge`)
  const [unit, scale] = of === 'life' ? (['days', 1] as const) : (['% of charge', 100] as const)
  const shown = (inputs ?? []).slice(0, MOST_ROWS)
  return (
    <>
      <p className="found">{localised(mattersInWords(matters))}</p>
      {inputs !== null && (
        <FigureFrame
          name="measure-better"
          title="Measure this better"
          caption={`Share of the variance of ${of === 'life' ? 'life' : 'the least charge of a winter'}: the dark bar is what the number does alone, the pale one what it does together with others. Nine in ten lie within ${localised(width(spread.p95 - spread.p5))} now. ${numberShown(futures)} futures from ${numberShown(rows)} rows of a Sobol' sequence; indices by Saltelli (2010) and Jansen (1999).`}
          table={{
            head: [
              'number',
              ...['alone', 'in all'].flatMap((share) => intervalHead(`${share} (%)`)),
              `left if known (${unit})`,
            ],
            rows: inputs.map((input) => [
              input.name,
              ...cellsOf(input.index.first, 100),
              ...cellsOf(input.index.total, 100),
              input.kind === 'weather' ? 'not to be known' : plain(scale * input.leftWidth, 3),
            ]),
          }}
        >
          <Bars
            rows={shown.map((input) => ({
              name: input.name,
              pale: input.index.total.value,
              dark: input.index.first.value,
              end: leftWords(input, width),
            }))}
            label="Share of the variance by number"
          />
        </FigureFrame>
      )}
      <FigureFrame
        name="mend-first"
        title="Mend this first"
        caption={`What each change would gain ${of === 'life' ? 'in life' : 'in the least charge of a winter'}, the largest first.`}
        table={{
          head: ['part', 'change', ...intervalHead(`gain (${unit})`)],
          rows: mends.map((mend) => [mend.part, mend.change, ...cellsOf(mend.gain, scale)]),
        }}
      >
        <Bars
          rows={mends.slice(0, MOST_ROWS).map((mend) => ({
            name: `${mend.part}, ${mend.change}`,
            pale: mend.gain.value / Math.max(...mends.map(({ gain }) => gain.value), 1e-12),
            dark: 0,
            end: gained(mend, of),
          }))}
          label="Gain by part"
        />
      </FigureFrame>
    </>
  )
}

const intervalHead = (name: string): string[] => [name, `${name}, at least`, `${name}, at most`]

const cellsOf = ({ value, low, high }: Estimate, scale: number): (number | string)[] =>
  [value, low, high].map((each) => plain(scale * each, 3))

const leftWords = (input: InputMatter, width: (value: number) => string): string =>
  input.kind === 'weather' ? 'not to be known' : `leaves ${localised(width(input.leftWidth))}`

function gained({ gain, winters }: MendMatter, of: MattersReport['of']): string {
  if (of === 'life') return `${numberShown(gain.value, 2)} days`
  const most = winters === null ? '' : `${numberShown(100 * winters.value, 2)} winters of 100, `
  return `${most}${shareShown(gain.value)} of charge`
}

interface Bar {
  readonly name: string
  /** Shares of the whole width. */
  readonly pale: number
  readonly dark: number
  readonly end: string
}

const ROW = 40

function Bars({ rows, label }: { readonly rows: readonly Bar[]; readonly label: string }) {
  const [ref, width] = useWidth()
  const longest = Math.max(...rows.map(({ pale }) => pale), 1e-9)
  const length = (share: number) => Math.max(0, (share / longest) * (width - 4))
  return (
    <div ref={ref}>
      <svg viewBox={`0 0 ${width} ${rows.length * ROW}`} role="img" aria-label={label}>
        {rows.map(({ name, pale, dark, end }, i) => (
          <g key={name} transform={`translate(0,${i * ROW})`}>
            <text y={14}>{name}</text>
            <text x={width} y={14} textAnchor="end" className="faint">
              {end}
            </text>
            <rect className="wash-wide" y={20} height={10} width={length(pale)} />
            <rect className="wash" y={20} height={10} width={length(dark)} />
          </g>
        ))}
      </svg>
    </div>
  )
}
