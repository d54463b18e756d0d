/** What cannot be, or will not last, in what the device does: overruns, restarts, memory, aims out of reach. */
import { formatQuantity } from '../../quantity/format.ts'
import { best } from '../../quantity/spread.ts'
import { durationLaw } from '../../wake/duration-law.ts'
import { type ExpectedWakes, expectedWakes } from '../../wake/expected-wakes.ts'
import { timesOfYear } from '../../wake/local-times.ts'
import { momentsOf } from '../../wake/moments.ts'
import type { Wake } from '../../wake/wake.ts'
import { keptProblems, wearOf } from '../../wake/wear.ts'
import { resolvePart } from '../inputs.ts'
import type { Aims } from '../outpost.ts'
import type { Findings } from './findings.ts'

/** An overrun rarer than this is no news. */
const RARE = 0.01
/** Times of day repeat with the year's rules; any year shows how many there are. */
const REFERENCE_YEAR = 2025
const STEP_s = 3600

const count = (perDay: number) => String(Number(perDay.toPrecision(3)))
const duration = (s: number) => formatQuantity(s, 'duration', { digits: 3 })

export function checkWake(design: Wake, zone_h: number | null, aims: Aims, findings: Findings): void {
  const wake = resolvePart(design, best)
  checkResume(wake, findings)
  checkKeeps(wake, findings)
  const { duration_s } = momentsOf(wake).total
  checkOverrun(wake, duration_s, findings)
  checkBetweenTimes(wake, duration_s, findings)
  const wakes = wakesOf(wake, zone_h)
  if (wakes === null) return
  checkWear(wake, wakes, aims, findings)
  if (aims.reportsPerDay !== null && wakes.reportsPerDay < aims.reportsPerDay)
    findings.error(['aims', 'reports per day'], {
      code: 'aim-out-of-reach',
      message: `${aims.reportsPerDay} reports a day are wanted, and the cadence makes ${count(wakes.reportsPerDay)} at best`,
      expected: `at most ${count(wakes.reportsPerDay)} reports a day`,
      cure: 'wake more often, let a step deliver more reports, or lower the aim',
    })
}

/** Null where the cadence cannot be told: nothing wakes it, or its times of day have no zone. */
export function wakesOf(wake: Wake<number>, zone_h: number | null): ExpectedWakes | null {
  const { schedule } = wake.cadence
  if (schedule === null && wake.cadence.events === null) return null
  if (schedule?.kind !== 'times-of-day') return expectedWakes(wake, null, STEP_s)[0]
  if (zone_h === null || schedule.times.length === 0) return null
  return expectedWakes(wake, timesOfYear(schedule.times, schedule.zone, zone_h, REFERENCE_YEAR), STEP_s)[0]
}

function checkResume(wake: Wake<number>, findings: Findings): void {
  if (wake.resume === 'continue' && wake.boot.length > 0)
    findings.warn(
      ['wake', 'boot'],
      {
        code: 'boot-unused',
        message: 'boot steps happen only when the device restarts, and it continues',
        expected: '"resume: restart" beside boot steps',
        cure: 'write "resume: restart", or remove the boot steps',
      },
      'key',
    )
  if (wake.resume === 'restart' && wake.boot.length === 0)
    findings.warn(['resume'], {
      code: 'restart-without-boot',
      message: 'it restarts in each wake, and booting takes neither time nor charge here',
      expected: 'boot steps under "wake"',
      cure: 'measure the boot and add it: "boot: [{ name: boot, for: 300 ms, draws: 12 mA }]"',
    })
}

function checkKeeps(wake: Wake<number>, findings: Findings): void {
  for (const { index, code, message, cure } of keptProblems(wake))
    findings.error(['keeps', index, code === 'lost-on-restart' ? 'memory' : 'size'], {
      code,
      message,
      expected:
        code === 'lost-on-restart'
          ? 'a memory that outlives a restart'
          : 'something that fits into its pages',
      cure,
    })
}

function checkWear(wake: Wake<number>, wakes: ExpectedWakes, aims: Aims, findings: Findings): void {
  if (aims.years === null) return
  for (const [i, { kept, years }] of wearOf(wake.keeps, wakes.wakesPerDay).entries())
    if (years !== null && years < aims.years)
      findings.warn(['keeps', i], {
        code: 'memory-worn-out',
        message: `"${kept.name}" is written ${count(wakes.wakesPerDay)} times a day and wears its ${kept.memory} out in ${years.toPrecision(2)} years, and ${aims.years} are wanted`,
        expected: `memory that bears ${aims.years} years`,
        cure: 'spread it over more pages, write less often, or keep it in clock-ram or fram',
      })
}

function checkOverrun(wake: Wake<number>, mean_s: number, findings: Findings): void {
  const { schedule } = wake.cadence
  if (schedule?.kind !== 'rate') return
  const { period_s } = schedule
  const law = durationLaw(wake)
  const often = law.reduce(
    (sum, { duration_s, probability }) => sum + (duration_s > period_s ? probability : 0),
    0,
  )
  if (often <= RARE) return
  const always = mean_s > period_s
  const enough_s = always ? mean_s : law[law.length - 1].duration_s
  findings[always ? 'error' : 'warn'](['cadence', 'rate'], {
    code: always ? 'work-overruns' : 'work-sometimes-overruns',
    message: always
      ? `the steps take ${duration(mean_s)} on average, longer than the ${duration(period_s)} from wake to wake`
      : `in ${(100 * often).toPrecision(2)} % of all wakes the steps take longer than the ${duration(period_s)} from wake to wake`,
    expected: `at least ${duration(enough_s)} from wake to wake`,
    cure: 'wake less often, shorten the steps, or use "rest" to count from the end of the work',
  })
}

function checkBetweenTimes(wake: Wake<number>, mean_s: number, findings: Findings): void {
  const { schedule } = wake.cadence
  if (schedule?.kind !== 'times-of-day' || schedule.times.length < 2) return
  const moments = schedule.times.map((t) => t.hour * 3600 + t.minute * 60 + t.second).sort((a, b) => a - b)
  const gap_s = Math.min(
    ...moments.map((moment, i) =>
      i === 0 ? moment + 86_400 - moments[moments.length - 1] : moment - moments[i - 1],
    ),
  )
  if (mean_s <= gap_s) return
  findings.error(['cadence', 'times of day'], {
    code: 'work-overruns',
    message: `the steps take ${duration(mean_s)} on average, longer than the ${duration(gap_s)} between two of the times`,
    expected: `times at least ${duration(mean_s)} apart`,
    cure: 'move the times apart, or shorten the steps',
  })
}
