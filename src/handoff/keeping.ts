/** What must be saved where before a rest, and what is lost in it. */
import type { Outpost } from '../outpost/outpost.ts'
import { stepsOf } from '../wake/outcomes.ts'
import { wearOf } from '../wake/wear.ts'
import type { ChecklistItem, Handoff } from './handoff.ts'

const MEMORY = {
  ram: 'RAM, which must stay powered through the rest',
  'clock-ram': 'the RAM of the clock',
  flash: 'flash',
  eeprom: 'EEPROM',
  fram: 'FRAM',
} as const

export function keepingOf(wake: Outpost['wake'], { rows }: Pick<Handoff, 'rows'>): ChecklistItem[] {
  return [...savedItems(wake.keeps), ...ownItems(wake, rows.length), lossItem(wake.resume)]
}

function savedItems(keeps: Outpost['wake']['keeps']): ChecklistItem[] {
  // Wear is in proportion to the wakes: what one wake a day would leave is what the memory bears.
  return wearOf(keeps, 1).map(({ kept, years }, i) => ({
    what: `Save "${kept.name}" (${kept.bytes} bytes) to ${MEMORY[kept.memory]}${isSlow(kept.memory) ? ', and wait until it is written' : ''}.`,
    why:
      years === null
        ? 'It is needed after the rest.'
        : `Written once in each wake; the ${kept.pages === 1 ? 'page bears' : `${kept.pages} pages bear`} ${Math.floor(years * 365)} wakes.`,
    path: `keeps[${i}]`,
  }))
}

const isSlow = (memory: keyof typeof MEMORY) => memory === 'flash' || memory === 'eeprom'

/** The state that the C functions ask back, and counts that the design implies. */
function ownItems(wake: Outpost['wake'], rows: number): ChecklistItem[] {
  const where = wake.resume === 'restart' ? 'in a memory that outlives the restart' : 'in RAM'
  const items: ChecklistItem[] = [
    {
      what: `Keep ${rows > 1 ? 'the row of the thrift table and the low-battery latch' : 'the low-battery latch'} ${where}.`,
      why: 'Without them the hysteresis is forgotten at each wake.',
      path: rows > 1 ? 'cadence.thrift' : 'supply.brownout',
    },
  ]
  const turns = stepsOf(wake).filter(({ every }) => every > 1)
  if (turns.length > 0)
    items.push({
      what: `Keep the count of wakes ${where}.`,
      why: `By it steps have their turn: ${turns.map(({ name, every }) => `"${name}" in one wake of ${every}`).join(', ')}.`,
      path: turns.some((step) => wake.steps.includes(step)) ? 'wake.steps' : 'wake.boot',
    })
  return items
}

const lossItem = (resume: Outpost['wake']['resume']): ChecklistItem =>
  resume === 'restart'
    ? {
        what: 'Count on nothing in RAM: it is lost, and the device boots anew.',
        why: 'Only what is saved above is there after the rest; connections and keys of the radio are gone too, unless they are among it.',
        path: 'resume',
      }
    : {
        what: 'Choose a sleep that keeps RAM.',
        why: 'The device goes on after the rest where it was; the rest current must have been measured in that sleep.',
        path: 'resume',
      }
