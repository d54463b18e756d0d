/** A file that someone else may be editing: replaced only while it still holds what was read. */
import { randomBytes } from 'node:crypto'
import { open, readFile, realpath, rename, rm, stat } from 'node:fs/promises'
import { Refusal } from './refusal.ts'

/**
 * Writes beside the file and renames. Keeps its permissions, and what a link points to is replaced, not the link. Throws
 * a Refusal, and leaves everything as it is, where the file no longer holds `before`.
 */
export async function replaceFile(path: string, before: string, after: string): Promise<void> {
  const target = await realpath(path)
  const { mode } = await stat(target)
  const temporary = `${target}.${randomBytes(4).toString('hex')}.part`
  try {
    const file = await open(temporary, 'wx', mode)
    try {
      await file.writeFile(after)
      await file.sync()
    } finally {
      await file.close()
    }
    if (!(await readFile(target)).equals(Buffer.from(before)))
      throw new Refusal(`${path} has changed since it was read, and is left as it is. Run the command again.`)
    await rename(temporary, target)
  } finally {
    await rm(temporary, { force: true })
  }
}
