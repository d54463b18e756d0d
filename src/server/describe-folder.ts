/** `GET /api/folder`: the files of the folder, told apart by name and by a look at how they begin. */
import { open, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Folder } from '../api/files.ts'
import { dataOf, isReadable, parseOutpostDocument } from '../outpost/file/document.ts'
import { BUILT_IN_PLACES } from '../sky/built-in-place.ts'
import { looksLikeEpw } from '../sky/epw.ts'
import { looksLikeTmy3 } from '../sky/tmy3.ts'
import { linesOf } from '../sky/weather-text.ts'
import { identify } from '../store/fingerprint.ts'
import { isRecordingFolder } from '../store/recording-folder.ts'
import { RECORDINGS } from '../workbench/read-recording.ts'
import { isOfKind } from './file-kinds.ts'
import { type ListedFile, listFolder } from './list-folder.ts'
import type { Setting } from './setting.ts'

/** Longer files are not read for their title. */
const TITLE_BYTES = 256 << 10
const HEAD_BYTES = 16 << 10

type About =
  | { readonly is: 'outpost'; readonly title: string | null }
  | { readonly is: 'recording'; readonly fingerprint: string | null }
  | { readonly is: 'weather' | 'instrument' | 'parts' | 'other' }

/** Looks at each file once, and again when it was written. */
export function folderDescriber({
  folder,
  isScratch,
  threads,
}: Pick<Setting, 'folder' | 'isScratch' | 'threads'>) {
  let known = new Map<string, Promise<About>>()
  return async (): Promise<Folder> => {
    const { files } = await listFolder(folder)
    const now = new Map<string, Promise<About>>()
    const all = await Promise.all(
      files.map(async (each) => {
        const key = `${each.file} ${each.stamp}`
        const about = known.get(key) ?? aboutFile(each)
        now.set(key, about)
        return { ...each, about: await about }
      }),
    )
    known = now
    const those = (kind: About['is']) => all.flatMap(({ file, about }) => (about.is === kind ? [file] : []))
    return {
      path: folder,
      isScratch,
      outposts: all.flatMap(({ file, about }) =>
        about.is === 'outpost' ? [{ file, title: about.title }] : [],
      ),
      recordings: all.flatMap(({ file, bytes, about }) =>
        about.is === 'recording' ? [{ file, bytes, kept: isKept(folder, about.fingerprint) }] : [],
      ),
      instruments: those('instrument'),
      partsLists: those('parts'),
      weather: those('weather'),
      places: BUILT_IN_PLACES.map(({ name }) => name),
      threads,
    }
  }
}

const isKept = (folder: string, fingerprint: string | null): boolean =>
  fingerprint !== null && isRecordingFolder(join(folder, RECORDINGS, fingerprint))

/** A file that cannot be read, or is gone meanwhile, is nothing that can be opened. */
async function aboutFile(file: ListedFile): Promise<About> {
  try {
    return await lookAt(file)
  } catch {
    return { is: 'other' }
  }
}

async function lookAt({ file, path, bytes }: ListedFile): Promise<About> {
  if (isOfKind('outpost', file)) {
    const title = bytes <= TITLE_BYTES ? titleOf(await readFile(path, 'utf8')) : null
    return { is: 'outpost', title }
  }
  if (isOfKind('list', file)) {
    const head = await headOf(path)
    if (/^instrument\s*:/m.test(head)) return { is: 'instrument' }
    return { is: /^(cells|panels)\s*:/m.test(head) ? 'parts' : 'other' }
  }
  const isWeather =
    isOfKind('weather', file) && (!isOfKind('recording', file) || looksLikeWeather(await headOf(path)))
  if (isWeather) return { is: 'weather' }
  return { is: 'recording', fingerprint: (await identify(path, {})).fingerprint }
}

function titleOf(text: string): string | null {
  try {
    const document = parseOutpostDocument(text)
    if (!isReadable(document)) return null
    const read = dataOf(document)
    const title = 'data' in read ? (read.data as { title?: unknown } | null)?.title : null
    return typeof title === 'string' ? title : null
  } catch {
    return null // nested more deeply than the reader can follow
  }
}

/** As the readers tell them apart; a table of hours has global horizontal irradiance among its columns. */
function looksLikeWeather(head: string): boolean {
  const lines = linesOf(head)
  const columns = lines.find((line) => line.trim() !== '' && !line.startsWith('#')) ?? ''
  return looksLikeEpw(lines) || looksLikeTmy3(lines) || /\bghi\b/i.test(columns)
}

async function headOf(path: string): Promise<string> {
  const file = await open(path)
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES, 0)
    return buffer.toString('utf8', 0, bytesRead)
  } finally {
    await file.close()
  }
}
