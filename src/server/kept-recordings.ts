/** Where the recordings of a folder are kept once they are imported, and by which options a source is read. */
import { lstatSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { ReadOptions } from '../store/import-recording.ts'
import { RECORDINGS } from '../workbench/read-recording.ts'
import { Refused } from './refused.ts'

/** Throws Refused where links lead elsewhere: nothing outside the folder is written. */
export function keptIn(folder: string): string {
  const kept = join(folder, RECORDINGS)
  for (const path of [dirname(kept), kept])
    if (lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink())
      throw new Refused(
        403,
        `Recordings are kept in ${RECORDINGS} of the folder, and that is a link to elsewhere. Put a folder in its place.`,
      )
  return kept
}

/** The same for the same rate: it is part of what a kept recording is known by. */
export const readOptions = (rate_Hz: number | null): ReadOptions => (rate_Hz === null ? {} : { rate_Hz })
