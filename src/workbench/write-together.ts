/** Several files that belong together: all are written beside their places first, and only then put there. */
import { randomBytes } from 'node:crypto'
import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { Refusal } from './refusal.ts'

/**
 * Writes `files`, name to text, into `folder`, which is made where it is missing. A file that is there already is
 * replaced only if it holds `mark`, by which an earlier one of ours is known; otherwise a Refusal is thrown and nothing
 * is touched. Returns the paths.
 */
export async function writeTogether(
  folder: string,
  files: Readonly<Record<string, string>>,
  mark: string,
): Promise<string[]> {
  const suffix = `.${randomBytes(4).toString('hex')}.part`
  const all = Object.entries(files).map(([name, text]) => ({ path: join(folder, name), text }))
  const unwritable = (error: unknown) => {
    throw new Refusal(`The files cannot be written into ${folder}: ${(error as Error).message}`)
  }
  await mkdir(folder, { recursive: true }).catch(unwritable)
  for (const { path } of all)
    if (!(await isOurs(path, mark)))
      throw new Refusal(
        `${path} is there already and was not written by this command. Name another folder or prefix, or move it away.`,
      )
  try {
    for (const { path, text } of all) await writeFile(path + suffix, text)
    for (const { path } of all) await rename(path + suffix, path)
  } catch (error) {
    unwritable(error)
  } finally {
    for (const { path } of all) await rm(path + suffix, { force: true })
  }
  return all.map(({ path }) => path)
}

async function isOurs(path: string, mark: string): Promise<boolean> {
  try {
    return (await readFile(path, 'utf8')).includes(mark)
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ENOENT'
  }
}
