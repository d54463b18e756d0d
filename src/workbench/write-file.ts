/** Writes beside the file and renames, so that a reader, or a power cut, never sees half of it. */
import { randomBytes } from 'node:crypto'
import { rename, rm, writeFile } from 'node:fs/promises'

/** Writes `text` to `path` whole or not at all; with `fresh`, throws an EEXIST error when the file is there already. */
export async function writeWhole(path: string, text: string, { fresh = false } = {}): Promise<void> {
  if (fresh) {
    await writeFile(path, text, { flag: 'wx' })
    return
  }
  const temporary = `${path}.${randomBytes(4).toString('hex')}.part`
  try {
    await writeFile(temporary, text)
    await rename(temporary, path)
  } finally {
    await rm(temporary, { force: true })
  }
}
