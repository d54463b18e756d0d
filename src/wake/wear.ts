/** What is kept over a rest: how long its memory bears the writing, and whether it is still there after a restart. */
import type { Kept, Wake } from './wake.ts'

const YEAR_DAYS = 365

export interface Wear {
  readonly kept: Kept
  readonly writesPerDay: number
  /** Until the last page has borne its erase cycles; null with the reason where nothing wears out. */
  readonly years: number | null
  readonly reason: 'does not wear' | 'never written' | null
}

/**
 * Wear of each thing kept, which is written once in each wake.
 *
 * Flash is filled page after page and a page erased when it comes round again, so with whole records to a page
 * years = floor(page / record) · pages · endurance / (writes per year); a record longer than a page takes
 * ceil(record / page) of them. EEPROM and FRAM cells wear with every write: there a page takes one record.
 */
export function wearOf(keeps: readonly Kept[], wakesPerDay: number): Wear[] {
  return keeps.map((kept) => {
    const bears = writesBorne(kept)
    if (bears === null) return { kept, writesPerDay: wakesPerDay, years: null, reason: 'does not wear' }
    if (wakesPerDay === 0) return { kept, writesPerDay: 0, years: null, reason: 'never written' }
    return { kept, writesPerDay: wakesPerDay, years: bears / wakesPerDay / YEAR_DAYS, reason: null }
  })
}

function writesBorne({ memory, bytes, endurance, pageBytes, pages }: Kept): number | null {
  if (memory === 'ram' || memory === 'clock-ram' || endurance === null) return null
  const size = pageBytes ?? bytes
  const recordsPerPage =
    memory === 'flash' && bytes <= size ? Math.floor(size / bytes) : 1 / Math.ceil(bytes / size)
  return recordsPerPage * pages * endurance
}

export interface KeptProblem {
  /** Index in `keeps`. */
  readonly index: number
  readonly code: 'lost-on-restart' | 'does-not-fit'
  readonly message: string
  readonly cure: string
}

/** Things that would not be there after a rest: in RAM although the device restarts, or larger than their pages. */
export function keptProblems(wake: Pick<Wake<unknown>, 'resume' | 'keeps'>): KeptProblem[] {
  return wake.keeps.flatMap((kept, index): KeptProblem[] => {
    const { name, memory, bytes, pageBytes, pages } = kept
    if (memory === 'ram' && wake.resume === 'restart')
      return [
        {
          index,
          code: 'lost-on-restart',
          message: `"${name}" is kept in RAM, but the device restarts on each wake and RAM is lost`,
          cure: 'keep it in clock-ram, flash, eeprom or fram, or let the device continue instead of restarting',
        },
      ]
    if (pageBytes !== null && bytes > pageBytes * pages)
      return [
        {
          index,
          code: 'does-not-fit',
          message: `"${name}" has ${bytes} bytes, but its ${pages} × ${pageBytes} bytes of ${memory} hold less`,
          cure: 'give it more pages, or keep fewer bytes',
        },
      ]
    return []
  })
}
