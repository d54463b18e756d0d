/** Numbers and dates as the reader's browser writes them. Inside, and in files, a decimal point always. */
import { formatQuantity } from '../../quantity/format.ts'

const locale = navigator.language
const POINT =
  new Intl.NumberFormat(locale).formatToParts(1.5).find(({ type }) => type === 'decimal')?.value ?? '.'

/** `12.3 mA` as the reader writes it. Not for what is shown in their way already: `1.000` would become `1,000`. */
export const localised = (text: string): string => text.replace(/(?<=\d)\.(?=\d)/g, POINT)

/** A sentence as the reader writes it, in which no line ends between a number and its unit. */
export const unbroken = (text: string): string =>
  localised(text).replace(/(?<=\d) (?=[±%°Ωµ\p{L}])|(?<=±) (?=\d)/gu, '\u00a0')

export const quantityShown = (...given: Parameters<typeof formatQuantity>): string =>
  localised(formatQuantity(...given))

export const numberShown = (value: number, digits = 3): string =>
  new Intl.NumberFormat(locale, { maximumSignificantDigits: digits }).format(value)

/** `12 %`, apart as in the files and as ISO 80000-1 has it, whatever the locale. */
export const shareShown = (share: number, digits = 2): string => `${numberShown(100 * share, digits)}\u00a0%`

/** Day 0 is 1 January of a year without a 29 February. */
export const dayShown = (
  day: number,
  options: Intl.DateTimeFormatOptions = { day: 'numeric', month: 'long' },
): string =>
  new Intl.DateTimeFormat(locale, { ...options, timeZone: 'UTC' }).format(Date.UTC(2023, 0, 1 + day))

export const momentShown = (epoch_s: number): string =>
  new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'medium' }).format(1000 * epoch_s)

export const bytesShown = (bytes: number): string => {
  const power = bytes < 1000 ? 0 : Math.min(4, Math.floor(Math.log10(bytes) / 3))
  return `${numberShown(bytes / 1000 ** power)} ${['B', 'kB', 'MB', 'GB', 'TB'][power]}`
}
