/** What is left in a primary cell that has lain for a while before it is put out. Seconds, shares 0..1. */
import type { Uncertain } from '../quantity/uncertain.ts'
import { selfDischargeRate_per_s, shareKept } from './self-discharge.ts'
import type { Cell } from './supply.ts'

/** Where cells lie. */
export const SHELF_C = 20

/**
 * Share of its charge that a cell full when made still holds at an age, self-discharge alone. Limits, medians and 90 %
 * ranges go through the law itself, a standard uncertainty by its slope (JCGM 100, 5.1.2); what lies between is within
 * 0.3 % of full for ages known to some years, and 1.1 % for one that may be three times as much.
 */
export function chargeAtAge(cell: Cell, age_s: Uncertain): Uncertain {
  const kept = (s: number) => shareKept(cell, SHELF_C, s)
  switch (age_s.kind) {
    case 'exact':
      return { kind: 'exact', value: kept(age_s.value) }
    case 'normal': {
      const value = kept(age_s.value)
      return { kind: 'normal', value, u: selfDischargeRate_per_s(cell, SHELF_C) * value * age_s.u }
    }
    case 'uniform':
      return { kind: 'uniform', low: kept(age_s.high), high: kept(age_s.low) }
    case 'below':
      return { kind: 'uniform', low: kept(age_s.limit), high: 1 }
    case 'skewed':
      return {
        kind: 'skewed',
        typical: kept(age_s.typical),
        p5: kept(age_s.p95),
        p95: kept(age_s.p5),
      }
  }
}
