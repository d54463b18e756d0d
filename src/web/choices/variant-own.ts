/** Whether a value of the file is also that of its variant: only then does writing it change what the variant plays. */
import type { Path } from '../../outpost/file/diagnostic.ts'
import { dataOf, type OutpostDocument } from '../../outpost/file/document.ts'
import { mergePatch } from '../../outpost/file/merge-patch.ts'

/** True too where neither has one. */
export function isPlayedAsWritten(document: OutpostDocument, variant: string | null, path: Path): boolean {
  if (variant === null) return true
  const read = dataOf(document)
  if ('problem' in read) return false
  const patch = at(read.data, ['variants', variant])
  if (patch === undefined) return false
  const { value } = mergePatch(read.data, patch, [])
  return JSON.stringify(at(read.data, path)) === JSON.stringify(at(value, path))
}

const at = (data: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (each, part) =>
      typeof each === 'object' && each !== null && Object.hasOwn(each, part)
        ? Reflect.get(each, part)
        : undefined,
    data,
  )
