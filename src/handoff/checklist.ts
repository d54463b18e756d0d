/** What to shut down before each rest, drawn from the design: what the forecast takes for granted, in order of doing. */
import { atBest } from '../outlook/draw.ts'
import { packCurrent_A, standing } from '../outlook/load.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { Dimension } from '../quantity/dimension.ts'
import { formatQuantity } from '../quantity/format.ts'
import { formatMeasured } from '../quantity/measured.ts'
import { best, standardUncertainty } from '../quantity/spread.ts'
import type { Uncertain } from '../quantity/uncertain.ts'
import type { Step } from '../wake/wake.ts'
import type { ChecklistItem, ChecklistPart, Handoff } from './handoff.ts'
import { keepingOf } from './keeping.ts'

type Made = Pick<Handoff, 'alarm' | 'rows' | 'latch' | 'budget' | 'clock'>

const MILLIAMPERE_HOUR_mC = 3600

const words = (n: number, digits = 2) => String(Number(n.toPrecision(digits)))

const stated = (value: Uncertain, dimension: Dimension) =>
  formatMeasured(best(value), standardUncertainty(value), dimension)

interface PlacedStep {
  readonly step: Step
  readonly path: string
}

export function checklistOf(outpost: Outpost, made: Made): ChecklistPart[] {
  const { wake } = outpost
  const placed = (list: 'boot' | 'steps') =>
    wake[list].map((step, i): PlacedStep => ({ step, path: `wake.${list}[${i}]` }))
  const steps = [...(wake.resume === 'restart' ? placed('boot') : []), ...placed('steps')]
  const leftOn = leftOnFor(outpost, made)
  const radios = steps.filter(({ step }) => isRadio(step))
  const others = steps.filter(({ step }) => !isRadio(step))
  return [
    { title: 'Radio', items: radios.flatMap((placed) => radioItems(placed, leftOn, outpost)) },
    { title: 'Sensors and the rest of the board', items: others.map((placed) => offItem(placed, leftOn)) },
    { title: 'Rails', items: railItems(steps) },
    { title: 'Pins', items: PINS },
    { title: 'Memory', items: keepingOf(wake, made) },
    { title: 'Battery and alarm', items: lastItems(steps, made) },
    { title: 'Then measure', items: meterItems(outpost, made) },
  ].filter(({ items }) => items.length > 0)
}

/** A step that delivers a report, or may fail and be tried again, or is named like one. */
function isRadio({ name, reports, retries, rail }: Step): boolean {
  return (
    reports > 0 ||
    retries !== null ||
    /radio|modem|network|wi-?fi|send|transmit|join|uplink/i.test(`${name} ${rail}`)
  )
}

/** How soon a step that goes on through the rest empties a full battery. */
function leftOnFor(outpost: Outpost, { budget }: Made): (step: Step) => string {
  const { wake, supply } = atBest(outpost)
  const drains = standing(wake, supply)
  const pack_V = supply.pack.cell.openCircuit_V.y.at(-1)! * supply.pack.series
  return ({ current_A }) => {
    const left_A = packCurrent_A(supply, drains, best(current_A), pack_V)
    const hours = budget.capacity_mC.best / 1000 / left_A / 3600
    const time = hours < 48 ? `${words(hours)} hours` : `${words(hours / 24)} days`
    return `Left on, it empties a full battery in ${time}`
  }
}

const offItem = ({ step, path }: PlacedStep, leftOn: (step: Step) => string): ChecklistItem => ({
  what: `Switch off what "${step.name}" switched on.`,
  why: sentences(
    `It draws ${stated(step.current_A, 'current')}`,
    leftOn(step),
    step.note === null ? null : `The file notes: ${step.note}`,
  ),
  path,
})

function radioItems(
  { step, path }: PlacedStep,
  leftOn: (step: Step) => string,
  { wake }: Outpost,
): ChecklistItem[] {
  const { name, current_A, retries, peak, note } = step
  const items: ChecklistItem[] = [
    {
      what: `After "${name}", close the connection and put the radio into the sleep that the rest current was measured in.`,
      why: sentences(
        `It draws ${stated(current_A, 'current')}`,
        leftOn(step),
        note === null ? null : `The file notes: ${note}`,
      ),
      path,
    },
  ]
  if (peak !== null)
    items.push({
      what: `Let the burst of "${name}" stand alone: sensors off before it begins.`,
      why: `It draws ${stated(peak.current_A, 'current')} for ${stated(peak.duration_s, 'duration')}, and the forecast takes one step after another.`,
      path: `${path}.peak`,
    })
  if (retries !== null) {
    const backoff_s = best(retries.backoff_s)
    if (backoff_s > 0)
      items.push({
        what: `Between two tries of "${name}", rest: radio asleep, everything else off.`,
        why: `The wait of ${stated(retries.backoff_s, 'duration')} counts at the rest current of ${stated(wake.rest_A, 'current')}.`,
        path: `${path}.retries.backoff`,
      })
    items.push({
      what: `After ${1 + retries.times} tries of "${name}" in vain, give up: shut the radio down all the same, and rest.`,
      why: `It happens in ${formatQuantity(best(retries.probability) ** (1 + retries.times), 'ratio', { digits: 2 })} of the times; a radio forgotten on this path draws until the next wake.`,
      path: `${path}.retries`,
    })
  }
  return items
}

function railItems(steps: readonly PlacedStep[]): ChecklistItem[] {
  const rails = new Set(steps.flatMap(({ step }) => step.rail ?? []))
  return [...rails].map((rail) => {
    const on = steps.filter(({ step }) => step.rail === rail)
    return {
      what: `Switch the rail "${rail}" off.`,
      why: `It feeds ${on.map(({ step }) => `"${step.name}"`).join(', ')}.`,
      path: `${on[0].path}.rail`,
    }
  })
}

const PINS: readonly ChecklistItem[] = [
  {
    what: 'Drive no pin high into a part that has been switched off, and leave no input floating.',
    why: 'A part can be fed through its signal pins, and a floating input draws current. Common practice.',
    path: null,
  },
  {
    what: 'Switch off lamps, the debug port, converters and clocks that are not needed asleep.',
    why: 'None of them is in the forecast unless the rest current was measured with it. Common practice.',
    path: null,
  },
]

function lastItems(steps: readonly PlacedStep[], { alarm, rows, latch, clock }: Made): ChecklistItem[] {
  const bursts = steps.some(({ step }) => step.peak !== null || isRadio(step))
  const items: ChecklistItem[] = []
  if (rows.length > 1)
    items.push({
      what: `Read the battery under the rest load, ${bursts ? 'before the radio is switched on' : 'before the first step'}, and choose the row of the thrift table by it.`,
      why: 'The table holds for that reading; a cell that has just been drawn from reads lower.',
      path: 'cadence.thrift',
    })
  items.push({
    what: `Below ${latch.low_mV} mV do no work: set the alarm and rest, until the battery reads ${latch.restart_mV} mV.`,
    why: `In the coldest nights (${latch.temperature_C.toFixed(0)} °C) that is where ${latch.because}.`,
    path: 'supply.brownout',
  })
  if (alarm !== null)
    items.push({
      what: 'Clear the alarm that has fired, set the next one, read it back, and only then rest.',
      why: `The alarm is a time by the clock, which keeps ${clock}; one that has passed meanwhile would fire a day late. Common practice.`,
      path: 'cadence',
    })
  return items
}

function meterItems({ wake }: Outpost, { budget }: Made): ChecklistItem[] {
  const day_mAh = (nA: number) => words((nA * 86_400) / 1e6 / MILLIAMPERE_HOUR_mC, 3)
  const { low, best: usual, high } = budget.rest_nA
  const amount = (nA: number) => formatQuantity(nA * 1e-9, 'current', { digits: 3 })
  const isExact = amount(low) === amount(high)
  return [
    {
      what: `At the battery the rest current is ${amount(usual)}; ${isExact ? 'clearly above that' : `above ${amount(high)}`} something was left on.`,
      why: `${isExact ? '' : `Expected ${amount(low)} to ${amount(high)}, nine times in ten; `}${day_mAh(usual)} mAh a day.`,
      path: 'rest',
    },
    ...wake.standing.map((drain, i) => ({
      what: `In it is ${stated(drain.current_A, 'current')} of "${drain.name}", which stays.`,
      why: `It is drawn ${drain.from === 'cell' ? 'straight from the battery' : 'behind the regulator'}, awake and at rest; a switch for it would save it.`,
      path: `standing[${i}]`,
    })),
  ]
}

const sentences = (...parts: readonly (string | null)[]) =>
  parts
    .filter((part) => part !== null)
    .map((part) => (/[.?!]$/.test(part) ? part : `${part}.`))
    .join(' ')
