/** The parts of an address that ask about a recording. */
import type { Context } from 'hono'
import type { Span } from '../recording/span.ts'
import { Refused } from './refused.ts'

export function numberAsked(c: Context, name: string): number {
  const text = c.req.query(name) ?? ''
  const value = Number(text)
  if (text.trim() !== '' && Number.isFinite(value)) return value
  throw new Refused(422, `${name} is a number, as in &${name}=12.5; "${text.slice(0, 40)}" is none.`)
}

/** In s from the start of the recording. */
export function spanAsked(c: Context): Span {
  const span = { from_s: numberAsked(c, 'from'), to_s: numberAsked(c, 'to') }
  if (span.from_s < span.to_s) return span
  throw new Refused(422, `A span ends after it begins: from ${span.from_s} s to ${span.to_s} s is none.`)
}

/** Null where the source has times of its own. */
export function rateAsked(c: Context): number | null {
  if (c.req.query('rate') === undefined) return null
  const rate_Hz = numberAsked(c, 'rate')
  if (rate_Hz > 0) return rate_Hz
  throw new Refused(422, `A sampling rate is above 0 Hz, not ${rate_Hz}.`)
}
