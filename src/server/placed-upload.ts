/** Under which name an upload goes into the folder. */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { placeFresh } from '../workbench/write-file.ts'
import { Refused } from './refused.ts'

const MOST_NUMBER = 9999
/** Loggers call their tables of text by many names. */
const TEXT = /\.(txt|log|dat|asc|tab)(\.gz)?$/i

/** A table of text by another ending gets the one by which tables are known: `log.txt.csv`. */
export const readableName = (name: string): string =>
  name.replace(TEXT, (_, ending: string, packed = '') => `.${ending}.csv${packed}`)

/** Never over another file: where the name is taken, with a number. Returns the name. */
export async function placed(partial: string, folder: string, name: string): Promise<string> {
  const [, stem, ending] = /^(.+?)((?:\.\w+)(?:\.gz)?)$/i.exec(name) ?? ['', name, '']
  for (let number = 1; number <= MOST_NUMBER; number++) {
    const file = number === 1 ? name : `${stem}-${number}${ending}`
    const path = join(folder, file)
    if (existsSync(path)) continue
    try {
      await placeFresh(partial, path)
      return file
    } catch (error) {
      // Of two that come at once, the second gets the next number.
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
    }
  }
  throw new Refused(422, `${name} is taken, with every number behind it. Give it another name.`)
}
