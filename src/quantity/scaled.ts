/** A number that is another one times an exact factor, its spread included. */
import type { Uncertain } from './uncertain.ts'

/** `factor` must be above zero. */
export function times(u: Uncertain, factor: number): Uncertain {
  switch (u.kind) {
    case 'exact':
      return { kind: 'exact', value: u.value * factor }
    case 'normal':
      return { kind: 'normal', value: u.value * factor, u: u.u * factor }
    case 'uniform':
      return { kind: 'uniform', low: u.low * factor, high: u.high * factor }
    case 'below':
      return { kind: 'below', limit: u.limit * factor }
    case 'skewed':
      return { kind: 'skewed', typical: u.typical * factor, p5: u.p5 * factor, p95: u.p95 * factor }
  }
}
