/** Writes beside the file and renames, so that a reader, or a power cut, never sees half of it. */
import { randomBytes } from 'node:crypto'
import { constants, copyFile, link, open, rename, rm } from 'node:fs/promises'

/** Writes `text` to `path` whole or not at all; with `fresh`, throws an EEXIST error when the file is there already. */
export async function writeWhole(path: string, text: string, { fresh = false } = {}): Promise<void> {
  const temporary = `${path}.${randomBytes(4).toString('hex')}.part`
  try {
    await writeThrough(temporary, text)
    if (fresh) await placeFresh(temporary, path)
    else await rename(temporary, path)
  } finally {
    await rm(temporary, { force: true })
  }
}

async function writeThrough(path: string, text: string): Promise<void> {
  const file = await open(path, 'wx')
  try {
    await file.writeFile(text)
    await file.sync()
  } finally {
    await file.close()
  }
}

/** A second name for the file is given only where there is none; file systems without second names get a copy. */
export async function placeFresh(temporary: string, path: string): Promise<void> {
  try {
    await link(temporary, path)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') throw error
    await copyFile(temporary, path, constants.COPYFILE_EXCL)
  }
}
