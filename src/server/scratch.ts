/** A copy of the examples to try things on, for whoever has no outposts yet. */
import { cp, mkdtemp, readdir, readFile, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

export async function scratchOf(examples: string): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'overwinter-'))
  await cp(examples, folder, { recursive: true })
  return folder
}

/** Removes a copy in which nothing was changed, and says whether it did. */
export async function discardUnchanged(folder: string, examples: string): Promise<boolean> {
  const names = await namesIn(folder)
  if (names.join('\n') !== (await namesIn(examples)).join('\n')) return false
  for (const name of names) if (!(await isSameFile(join(folder, name), join(examples, name)))) return false
  await rm(folder, { recursive: true, force: true })
  return true
}

/** Recordings that were imported, which are hidden, can be imported again. */
const namesIn = async (folder: string): Promise<string[]> =>
  (await readdir(folder, { recursive: true })).filter((name) => !name.startsWith('.')).sort()

async function isSameFile(a: string, b: string): Promise<boolean> {
  const [isFile, isFileToo] = [(await stat(a)).isFile(), (await stat(b)).isFile()]
  return isFile && isFileToo ? (await readFile(a)).equals(await readFile(b)) : isFile === isFileToo
}
