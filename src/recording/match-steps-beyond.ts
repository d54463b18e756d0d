/** What was measured with an instrument none of whose ranges reaches so far: how far off it was, nobody knows. */
import type { Role, Roles } from './match-steps.ts'
import type { Measured } from './match-steps-measure.ts'

/** `beyond`: of each state, whether it lies beyond every range. What is made of such states says so. */
export function beyondRanges(measured: Measured, roles: Roles, beyond: readonly boolean[]): Measured {
  const anyThat = (wanted: (role: Role) => boolean) =>
    roles.some((own, state) => beyond[state] && own.some(wanted))
  const { steps, cycle, shortfalls } = measured
  const inCycle = cycle !== null && anyThat(({ kind }) => kind !== 'drain')
  return {
    ...measured,
    steps: steps.map((step) =>
      step?.states.some((state) => beyond[state]) ? { ...step, shortfall: 'beyond ranges' } : step,
    ),
    shortfalls: {
      rest: anyThat(({ kind }) => kind === 'rest') ? 'beyond ranges' : shortfalls.rest,
      cycle: inCycle ? 'beyond ranges' : shortfalls.cycle,
    },
  }
}
