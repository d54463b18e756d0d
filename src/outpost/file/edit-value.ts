/** Single values written into an outpost file from a form: comments, order and layout of the rest stay, byte for byte. */
import { isMap } from 'yaml'
import type { Path } from './diagnostic.ts'
import type { OutpostDocument } from './document.ts'
import { edited } from './edit-check.ts'
import { editedInLongForm, pathInShort } from './edit-long-form.ts'
import { put } from './edit-put.ts'
import { removed } from './edit-remove.ts'
import { wayTo } from './edit-tree.ts'
import { valueAt } from './field-value.ts'
import { type Edited, NotEditable } from './splice.ts'

/**
 * The text at `path`, which is made with all that leads to it where it is missing, the key where the format has it. Of
 * `{ is: …, source: … }` it is what `is` says. A number is written as one, unless the field is for text. An empty text
 * removes the key, the comments that belong to it, and what is left empty above it.
 */
export function withValue(document: OutpostDocument, path: Path, text: string): Edited {
  const at = pathInShort(document, path)
  if (text === '') return edited(document, path, (data) => removed(document, at, data))
  return editedInLongForm(document, at, (open, data) => {
    const stands = valueAt(open, at)
    if (stands.kind === 'map' || stands.kind === 'list')
      throw new NotEditable(
        `a ${stands.kind === 'map' ? 'mapping' : 'list'} stands there, not a single value`,
      )
    if (stands.kind === 'text' && stands.text === text) return { splices: [], data }
    const isSourced = stands.kind === 'text' && isMap(wayTo(open, at).node)
    return put(open, isSourced ? [...at, 'is'] : at, text, data)
  })
}
