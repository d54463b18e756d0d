/** Versions of files: a hash of their bytes, so that the same text is the same version wherever it comes from. */
import { createHash } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import type { Version } from '../api/files.ts'

/** Larger files are told apart by size and time of change: nobody edits them as text. */
const HASHED_BYTES = 8 << 20

export const versionOf = (bytes: Uint8Array | string): Version =>
  createHash('sha256').update(bytes).digest('hex')

/** `stamp` changes whenever the file is written. */
export async function versionOfFile(path: string, bytes: number, stamp: string): Promise<Version> {
  return versionOf(bytes <= HASHED_BYTES ? await readFile(path) : stamp)
}
