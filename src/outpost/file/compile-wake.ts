/** From what the file says of the device to the engine's wake. */
import { formatQuantity } from '../../quantity/format.ts'
import { best } from '../../quantity/spread.ts'
import { exactly, type Uncertain } from '../../quantity/uncertain.ts'
import { stepsOf } from '../../wake/outcomes.ts'
import { MOST_PERIODS } from '../../wake/turns.ts'
import type { Drain, Kept, Step, Wake } from '../../wake/wake.ts'
import type { Path } from './diagnostic.ts'
import type { Findings } from './findings.ts'
import type { OutpostFile } from './schema.ts'

type StepEntry = OutpostFile['wake']['steps'][number]
type KeptEntry = NonNullable<OutpostFile['keeps']>[number]
type Schedule = Wake['cadence']

/** What a page bears where the data sheet is not at hand: common practice, from memory, on the careful side. */
const USUAL_ENDURANCE: Readonly<Record<KeptEntry['memory'], number | null>> = {
  ram: null,
  'clock-ram': null,
  flash: 10_000,
  eeprom: 100_000,
  fram: null,
}

/** Digits in a message. */
const DIGITS = { digits: 3 } as const

type WakeSections = Pick<OutpostFile, 'wake' | 'rest' | 'standing' | 'resume' | 'keeps'>

export function compileWake(file: WakeSections, cadence: Schedule, findings: Findings): Wake {
  const resume = file.resume ?? 'continue'
  if (file.resume === undefined)
    findings.assume(['resume'], 'it goes on after a rest where it was, memory kept', 'default')
  if (file.standing === undefined)
    findings.assume(['standing'], 'nothing is drawn beside the steps and the rest', 'default')
  checkNames(file.standing ?? [], ['standing'], findings)
  checkNames(file.keeps ?? [], ['keeps'], findings)
  const boot = compileSteps(file.wake.boot ?? [], ['wake', 'boot'], findings)
  const steps = compileSteps(file.wake.steps, ['wake', 'steps'], findings)
  checkPeriods({ resume, boot, steps }, findings)
  return {
    boot,
    steps: withReports(steps, file.wake.steps, findings),
    cadence,
    rest_A: file.rest.value,
    standing: (file.standing ?? []).map(
      (drain): Drain => ({ name: drain.name, current_A: drain.draws.value, from: drain.from ?? 'rail' }),
    ),
    resume,
    keeps: (file.keeps ?? []).map((kept, i) => compileKept(kept, ['keeps', i], findings)),
  }
}

/** Where no step says that it delivers a reading, the last one does. */
function withReports(steps: readonly Step[], entries: readonly StepEntry[], findings: Findings): Step[] {
  if (entries.some((entry) => entry.reports !== undefined)) return [...steps]
  const last = steps.length - 1
  findings.assume(['wake', 'steps', last, 'reports'], `"${steps[last].name}" delivers one report`, 'default')
  return steps.map((step, i) => (i === last ? { ...step, reports: 1 } : step))
}

function compileSteps(entries: readonly StepEntry[], at: Path, findings: Findings): Step[] {
  checkNames(entries, at, findings)
  return entries.map((entry, i): Step => {
    const path = [...at, i]
    checkPeak(entry, path, findings)
    return {
      name: entry.name,
      duration_s: entry.for.value,
      current_A: entry.draws.value,
      peak: entry.peak ? { current_A: entry.peak.value[0], duration_s: entry.peak.value[1] } : null,
      chance: entry.chance?.value ?? exactly(1),
      every: entry.every ?? 1,
      retries: compileRetries(entry, path, findings),
      reports: entry.reports ?? 0,
      rail: entry.rail ?? null,
      note: entry.note ?? null,
    }
  })
}

/** Each further period doubles the number of ways in which steps can meet in one wake. */
function checkPeriods(wake: Pick<Wake, 'resume' | 'boot' | 'steps'>, findings: Findings): void {
  const seen = new Set<number>([1])
  for (const step of stepsOf(wake)) {
    if (seen.has(step.every)) continue
    seen.add(step.every)
    if (seen.size <= MOST_PERIODS + 1) continue
    const at: Path = wake.boot.includes(step)
      ? ['wake', 'boot', wake.boot.indexOf(step)]
      : ['wake', 'steps', wake.steps.indexOf(step)]
    findings.error([...at, 'every'], {
      code: 'too-many-periods',
      message: `"${step.name}" brings in one "every" more than can be followed`,
      expected: `at most ${MOST_PERIODS} different "every" above 1 in one wake`,
      cure: 'give steps the same "every" where theirs are close',
    })
    return
  }
}

function compileRetries(entry: StepEntry, path: Path, findings: Findings): Step['retries'] {
  const { retries } = entry
  if (retries === undefined) return null
  const at = [...path, 'retries']
  if (best(retries.probability.value) >= 1)
    findings.error([...at, 'probability'], {
      code: 'retries-never-succeed',
      message: `"${entry.name}" fails in every try`,
      expected: 'a probability below 1',
      cure: 'lower it, or remove the step',
    })
  if (retries.backoff === undefined)
    findings.assume([...at, 'backoff'], 'a further try follows at once', 'default')
  if (retries.lasts === undefined)
    findings.assume(
      [...at, 'lasts'],
      `a failed try of "${entry.name}" lasts as long as one that succeeds`,
      'default',
    )
  return {
    probability: retries.probability.value,
    times: retries.times,
    backoff_s: retries.backoff?.value ?? exactly(0),
    failedDuration_s: retries.lasts?.value ?? entry.for.value,
  }
}

function checkPeak(entry: StepEntry, path: Path, findings: Findings): void {
  if (entry.peak === undefined) return
  const [current_A, duration_s] = entry.peak.value.map(best)
  const at = [...path, 'peak']
  if (duration_s > best(entry.for.value))
    findings.error(at, {
      code: 'peak-longer-than-step',
      message: `the peak of "${entry.name}" lasts ${formatQuantity(duration_s, 'duration', DIGITS)}, the step ${formatQuantity(best(entry.for.value), 'duration', DIGITS)}`,
      expected: 'a peak no longer than its step',
      cure: 'shorten the peak, or lengthen the step',
    })
  if (current_A < best(entry.draws.value))
    findings.error(at, {
      code: 'peak-below-mean',
      message: `the peak of "${entry.name}" is ${formatQuantity(current_A, 'current', DIGITS)}, its mean ${formatQuantity(best(entry.draws.value), 'current', DIGITS)}`,
      expected: 'a peak above the mean current',
      cure: 'check the units of both, or remove the peak',
    })
}

function compileKept(kept: KeptEntry, path: Path, findings: Findings): Kept {
  const usual = USUAL_ENDURANCE[kept.memory]
  if (kept.endurance === undefined && usual !== null)
    findings.assume(
      [...path, 'endurance'],
      `a page of ${kept.memory} bears ${usual} erase cycles`,
      'common practice, from memory',
    )
  return {
    name: kept.name,
    bytes: bytes(kept.size.value),
    memory: kept.memory,
    endurance: kept.endurance ?? usual,
    pageBytes: kept.page ? bytes(kept.page.value) : null,
    pages: kept.pages ?? 1,
  }
}

const bytes = (size: Uncertain): number => Math.round(best(size))

function checkNames(entries: readonly { readonly name: string }[], at: Path, findings: Findings): void {
  const seen = new Set<string>()
  for (const [i, { name }] of entries.entries()) {
    if (seen.has(name))
      findings.error([...at, i, 'name'], {
        code: 'duplicate-name',
        message: `"${name}" is the name of an earlier entry`,
        expected: 'names that differ, so that reports and variants can tell them apart',
        cure: 'rename one of the two',
      })
    seen.add(name)
  }
}
