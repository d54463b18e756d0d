/** The verdict: the outlook in one or two plain sentences, with no more digits than it has earned. */
import { counted } from '../quantity/counted.ts'
import { DAYS, MONTH_OF_DAY, MONTH_STARTS } from '../sky/calendar.ts'
import type { Outlook } from './outlook.ts'

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]

/** `12 December` for day 345 of a year of 365 days, counted from 0. */
export function dateOfDay(dayOfYear: number): string {
  const day = ((Math.round(dayOfYear) % DAYS) + DAYS) % DAYS
  const month = MONTH_OF_DAY[day]
  return `${day - MONTH_STARTS[month] + 1} ${MONTHS[month]}`
}

/** `8.4 years`, `14 months`, `23 days`, `1 day`: two digits, in the unit that a person would pick. */
export function lifeInWords(days: number): string {
  const years = days / 365
  if (years >= 9.5) return `${Math.round(years)} years`
  if (years >= 2) return `${years.toFixed(1)} years`
  const months = days / 30.4
  if (months >= 3) return `${Math.round(months)} months`
  return days < 1 ? 'less than a day' : counted(Math.round(days), 'day')
}

type Told = Omit<Outlook, 'verdict'>

export function verdictOf(outlook: Told): string {
  const first = outlook.rechargeable ? wintersSentence(outlook) : lifeSentence(outlook)
  return [first, reasonSentence(outlook), aimsSentence(outlook)].filter((s) => s !== '').join(' ')
}

function wintersSentence({ winters, worstFortnight, runs, years }: Told): string {
  const whole = Math.round(100 * winters.share)
  const low = Math.floor(100 * winters.low)
  const high = Math.ceil(100 * winters.high)
  const worst = `the worst fortnight starts about ${dateOfDay(worstFortnight.startDay)}`
  if (winters.survived === winters.of)
    return `Alive through every one of ${winters.of} winters simulated (${counted(runs, 'run')} of ${counted(years, 'year')}; at least ${low} of 100 with 95 % confidence); ${worst}.`
  if (winters.survived === 0) return `Alive through no winter of the ${winters.of} simulated; ${worst}.`
  // A share that is not all must not be rounded up to all, nor one that is something down to nothing.
  const shown = whole === 100 ? 'more than 99' : whole === 0 ? 'fewer than 1' : String(whole)
  return `Alive through ${shown} winters of 100 (95 % interval ${low} to ${high}); ${worst}.`
}

function lifeSentence({ life, years, runs }: Told): string {
  if (life.median_days === null) {
    if (life.beyond === runs)
      return `Still alive after ${counted(years, 'year')} in every one of ${counted(runs, 'run')}.`
    return `Still alive after ${counted(years, 'year')} in ${Math.round((100 * life.beyond) / runs)} runs of 100${
      life.p5_days === null ? '' : `; one run in twenty ends before ${lifeInWords(life.p5_days)}`
    }.`
  }
  const early = life.p5_days === null ? '' : lifeInWords(life.p5_days)
  const late = life.p95_days === null ? `more than ${counted(years, 'year')}` : lifeInWords(life.p95_days)
  const median = lifeInWords(life.median_days)
  if (life.median_days < 1)
    return life.p95_days !== null && life.p95_days < 1
      ? 'Does not live a day.'
      : `Half live less than a day; one in twenty lives longer than ${late}.`
  return early === late && early === median
    ? `Lives about ${median}.`
    : `Lives about ${median}; nine runs in ten end between ${early} and ${late}.`
}

function reasonSentence({ causes }: Told): string {
  const [first] = causes
  if (first === undefined) return ''
  const words = {
    empty: 'It dies with the cell empty',
    'brown-out under the peak': 'It dies of a brown-out under the peak of a wake',
    cold: 'It dies of cold, with charge left that it cannot take out',
    'too old': 'It dies because the cell has grown too old',
    'flash worn out': 'It dies when the flash is worn out',
  }[first.cause]
  const share = first.share > 0.995 ? '' : `, in ${Math.round(100 * first.share)} of 100 first deaths`
  return `${words}${share}.`
}

function aimsSentence({ aims }: Told): string {
  const missed = aims.filter((a) => a.holds === 'no').map((a) => a.aim)
  const open = aims.filter((a) => a.holds === 'cannot tell').map((a) => a.aim)
  if (aims.length === 0) return ''
  if (missed.length > 0) return `Not kept: ${missed.join('; ')}.`
  if (open.length > 0) return `Too close to call in so many runs: ${open.join('; ')}.`
  return aims.length === 1 ? 'Its aim is kept.' : 'Its aims are kept.'
}
