/** The text of a file that a user named; a Refusal where it cannot be read. */
import { readFile } from 'node:fs/promises'
import { Refusal } from './refusal.ts'

export async function textOf(path: string): Promise<string> {
  try {
    return await readFile(path, 'utf8')
  } catch (error) {
    throw unreadable(path, error)
  }
}

/** Why the file system does not give a file. */
export function unreadable(path: string, error: unknown): Refusal {
  const code = (error as NodeJS.ErrnoException).code
  const why =
    code === 'ENOENT' ? 'there is no such file' : code === 'EISDIR' ? 'it is a folder' : String(code)
  return new Refusal(`${path} cannot be read: ${why}.`)
}
