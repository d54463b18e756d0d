/** The texts of outpost files: read with their version, and saved only over what they were made from. */
import { readFile, stat } from 'node:fs/promises'
import type { Conflict, FileText, Save, Saved } from '../api/files.ts'
import { Refusal } from '../workbench/refusal.ts'
import { replaceFile } from '../workbench/replace-file.ts'
import { writeWhole } from '../workbench/write-file.ts'
import { Refused, refusedByDisk } from './refused.ts'
import { MOST_TEXT } from './request-body.ts'
import { freshFile, servedFile } from './served-file.ts'
import { versionOf } from './version.ts'

export async function readText(folder: string, file: string): Promise<FileText> {
  const path = servedFile(folder, file, 'outpost')
  try {
    if ((await stat(path)).size > MOST_TEXT)
      throw new Refused(413, `${file} is longer than 1 MB, which is no outpost.`)
    const bytes = await readFile(path)
    return { file, text: textOf(file, bytes), version: versionOf(bytes) }
  } catch (error) {
    throw refusedByDisk(file, 'read', error)
  }
}

function textOf(file: string, bytes: Uint8Array): string {
  try {
    // A mark of the byte order stays, so that a saved file keeps it.
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    throw new Refused(422, `${file} is not UTF-8. Save it as UTF-8 in an editor, and open it again.`)
  }
}

/** Saves in the order of asking, so that of two saves over the same version one is told of the other. */
export function textSaver(folder: string): (save: Save) => Promise<Saved | Conflict> {
  let last: Promise<unknown> = Promise.resolve()
  return (save) => {
    const saved = last.then(() => (save.before === null ? create(folder, save) : replace(folder, save)))
    last = saved.catch(() => {})
    return saved
  }
}

async function create(folder: string, { file, text }: Save): Promise<Saved | Conflict> {
  const path = freshFile(folder, file, 'outpost')
  try {
    await writeWhole(path, text, { fresh: true })
    return { version: versionOf(text) }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return { now: await readText(folder, file) }
    throw refusedByDisk(file, 'written', error)
  }
}

async function replace(folder: string, { file, text, before }: Save): Promise<Saved | Conflict> {
  const now = await textNow(folder, file)
  if (now === null || now.version !== before) return { now }
  if (now.text === text) return { version: now.version }
  try {
    await replaceFile(servedFile(folder, file, 'outpost'), now.text, text)
    return { version: versionOf(text) }
  } catch (error) {
    if (error instanceof Refusal) return { now: await textNow(folder, file) } // changed at this very moment
    throw refusedByDisk(file, 'written', error)
  }
}

async function textNow(folder: string, file: string): Promise<FileText | null> {
  try {
    return await readText(folder, file)
  } catch (error) {
    if (error instanceof Refused && error.status === 404) return null
    throw error
  }
}
