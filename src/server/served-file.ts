/** From the name that a request gives to the real file inside the folder, or a refusal. */
import { basename, dirname, join } from 'node:path'
import { insideFolder } from '../workbench/inside-folder.ts'
import { type FileKind, isOfKind, KIND_WORDS } from './file-kinds.ts'
import { Refused } from './refused.ts'

const MOST_CHARACTERS = 1000
/** What most file systems allow. */
const MOST_BYTES_A_PART = 255
// biome-ignore lint/suspicious/noControlCharactersInRegex: that they never come is the point
const CONTROL = /[\u0000-\u001f\u007f]/
/** A dot, slash, backslash or NUL that was encoded twice. */
const ENCODED = /%(25)*(2e|2f|5c|00)/i

/** The name itself, where it can be one of a file of the folder; throws Refused where it cannot. */
export function checkedName(name: string, kind: FileKind): string {
  const parts = name.split('/')
  const isName =
    name.length <= MOST_CHARACTERS &&
    !CONTROL.test(name) &&
    !ENCODED.test(name) &&
    !name.includes('\\') &&
    !/\p{Surrogate}/u.test(name) &&
    parts.every((part) => part !== '' && Buffer.byteLength(part) <= MOST_BYTES_A_PART) &&
    // A colon names a drive or a second stream of a file there.
    !(process.platform === 'win32' && name.includes(':'))
  if (!isName)
    throw new Refused(
      400,
      'That is no name of a file: give one relative to the folder, with / between its parts.',
    )
  if (parts.some((part) => part.startsWith('.')))
    throw new Refused(403, `${name} is not served: it lies outside the folder, or is hidden.`)
  if (!isOfKind(kind, name))
    throw new Refused(403, `${name} is not served here: ${KIND_WORDS[kind]} is wanted.`)
  return name
}

/** The real path of a file that is there. */
export function servedFile(folder: string, name: string, kind: FileKind): string {
  const found = insideFolder(folder, checkedName(name, kind))
  if (found.is === 'missing') throw new Refused(404, `There is no file ${name} in the folder.`)
  // A link may lead to a file of another kind, which is not served under this one's name.
  if (found.is !== 'file' || !isOfKind(kind, found.path))
    throw new Refused(403, `${name} is not served: it leads outside the folder, or to another kind of file.`)
  return found.path
}

/** Where a file that is not there yet would stand: its folder is there, inside, and not hidden. */
export function freshFile(folder: string, name: string, kind: FileKind): string {
  const parent = dirname(checkedName(name, kind))
  if (parent === '.') return join(folder, name)
  const found = insideFolder(folder, parent)
  if (found.is === 'folder') return join(found.path, basename(name))
  if (found.is === 'missing') throw new Refused(404, `There is no folder ${parent} in the folder.`)
  throw new Refused(403, `${name} is not written: ${parent} is no folder, or leads outside.`)
}
