/** The file and its variants through the same draws and the same weather, side by side. */
import { scaleLinear } from 'd3-scale'
import type { Outlook } from '../../outlook/outlook.ts'
import { lifeInWords } from '../../outlook/verdict.ts'
import { counted } from '../../quantity/counted.ts'
import type { VariantsReport } from '../../report/variants.ts'
import {
  breakEvenInWords,
  dayCharge_C,
  differenceInWords,
  summaryOf,
} from '../../report/variants-terminal.ts'
import { AxisX } from '../figure/axes.tsx'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { PageLink } from '../frame/page-link.tsx'
import { localised, numberShown, shareShown } from '../look/shown.ts'
import { useWork } from '../server/work.ts'
import { useAnswers } from '../verdict/answers.ts'
import { WorkPart } from '../work/work-part.tsx'

const AS_WRITTEN = 'as written'

const C_PER_MAH = 3.6

export function VariantsPart() {
  const desk = useWork<'variants'>()
  const { variants } = useAnswers()
  if (variants.length === 0)
    return (
      <section className="part">
        <h2>Variants</h2>
        <p>
          The file has no variants. Written in its text as{' '}
          <code>variants: {'{ two cells: { supply: … } }'}</code>, each a patch over the file, they are played
          here side by side.
        </p>
      </section>
    )
  return (
    <WorkPart
      title="Variants"
      lead={`The file as written and ${variants.length === 1 ? 'its variant' : `its ${variants.length} variants`}: ${variants.join(', ')}. Each meets the same draws and the same weather, so that small differences are real.`}
      desk={desk}
      press="Play them side by side"
      name="variants"
      plays={{ runs: { label: 'Runs of each', low: 2, high: 100_000 }, years: true, weather: true }}
      asks={(outpost, play) => ({ work: 'variants', ...outpost, ...play, variant: null })}
    >
      {desk.state.is === 'done' && <Compared report={desk.state.answer} />}
    </WorkPart>
  )
}

/** Winters survived or days lived, with what lies about them; empty where it was not lived to see. */
const cellsOf = ({ rechargeable, winters, life }: Outlook): (number | string)[] =>
  rechargeable
    ? [winters.share, winters.low, winters.high].map((share) => plain(100 * share, 4))
    : [life.median_days, life.p5_days, life.p95_days].map((days) => plain(days, 4))

function Compared({ report }: { readonly report: VariantsReport }) {
  const { variants, rechargeable, breakEvens, runs, years } = report
  const head = [
    'design',
    'a day takes (mAh)',
    'reports a day',
    ...(rechargeable
      ? ['winters of 100', 'at least (95 %)', 'at most (95 %)']
      : ['life (days)', '5 % below (days)', '95 % below (days)']),
    'against the file as written',
  ]
  const rows = variants.map(({ name, outlook, differences }) => [
    name,
    plain(dayCharge_C(outlook) / C_PER_MAH, 4),
    plain(outlook.reportsPerDay.mean, 4),
    ...cellsOf(outlook),
    differences === null ? '–' : localised(differenceInWords(differences, rechargeable)),
  ])
  return (
    <>
      <p className="found">{localised(summaryOf(report))}</p>
      <FigureFrame
        name="variants"
        title="Side by side"
        caption={`${counted(runs, 'run', numberShown)} of ${counted(years, 'year', numberShown)} each; the line through each dot is ${rechargeable ? 'the 95 % interval of the survived share' : 'where nine lives in ten end'}. Differences are taken run by run.`}
        table={{ head, rows }}
      >
        <Dots report={report} />
      </FigureFrame>
      <ul className="verdicts">
        {variants.map(({ name, outlook }) => (
          <li key={name}>
            <PageLink to={{ page: 'outlook', variant: name === AS_WRITTEN ? null : name }}>{name}</PageLink>:{' '}
            {localised(outlook.verdict)}
          </li>
        ))}
      </ul>
      {breakEvens.length > 0 && (
        <>
          <h3>When the deeper sleep pays</h3>
          <ul>
            {breakEvens.map((each) => (
              <li key={`${each.deeper} ${each.lighter}`}>{localised(breakEvenInWords(each))}</li>
            ))}
          </ul>
        </>
      )}
    </>
  )
}

const ROW = 42

function Dots({ report: { variants, rechargeable, years } }: { readonly report: VariantsReport }) {
  const [ref, width] = useWidth()
  const frame = { width, height: variants.length * ROW + 58, left: 14, right: 20, top: 10, bottom: 44 }
  const days = years * 365
  const rows = variants.map(({ name, outlook: { winters, life } }) =>
    rechargeable
      ? { name, at: winters.share, low: winters.low, high: winters.high }
      : {
          name,
          at: (life.median_days ?? days) / 365,
          low: (life.p5_days ?? days) / 365,
          high: (life.p95_days ?? days) / 365,
        },
  )
  const least = rechargeable ? Math.min(0.9, ...rows.map(({ low }) => low)) : 0
  const x = scaleLinear(
    [least, rechargeable ? 1 : Math.max(...rows.map(({ high }) => high)) * 1.02],
    [frame.left, width - frame.right],
  )
  return (
    <div ref={ref}>
      <svg
        viewBox={`0 0 ${width} ${frame.height}`}
        role="img"
        aria-label="Each design's result with its interval"
      >
        {rows.map(({ name, at, low, high }, i) => {
          const y = frame.top + i * ROW + 28
          return (
            <g key={name}>
              <text x={frame.left} y={y - 13}>
                {name}
              </text>
              <text x={width - frame.right} y={y - 13} textAnchor="end" className="faint">
                {rechargeable ? shareShown(at, 3) : localised(lifeInWords(at * 365))}
              </text>
              <line className="axis-rule" x1={frame.left} x2={width - frame.right} y1={y} y2={y} />
              <line className="pen" x1={x(low)} x2={x(high)} y1={y} y2={y} />
              <circle className="ink-accent" cx={x(at)} cy={y} r={5} />
            </g>
          )
        })}
        <AxisX
          frame={frame}
          scale={x}
          label={rechargeable ? 'share of winters survived' : 'years of life'}
          ticks={x.ticks(width < 500 ? 4 : 7)}
          format={(value) => (rechargeable ? shareShown(value, 3) : numberShown(value))}
        />
      </svg>
    </div>
  )
}
