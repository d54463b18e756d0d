/** A request that is not answered: why, in sentences, and the status. */
import type { Context } from 'hono'
import type { Refused as RefusedBody } from '../api/files.ts'

export type RefusedStatus = 400 | 403 | 404 | 413 | 415 | 422

export class Refused extends Error {
  override readonly name = 'Refused'
  readonly status: RefusedStatus

  constructor(status: RefusedStatus, sentence: string) {
    super(sentence)
    this.status = status
  }
}

export const refuse = (c: Context, { status, message }: Refused): Response =>
  c.json({ refused: message } satisfies RefusedBody, status)

/** What the file system says where our own answer is to refuse. */
export function refusedByDisk(file: string, doing: 'read' | 'written', error: unknown): unknown {
  const { code, syscall } = error as NodeJS.ErrnoException
  if (syscall === undefined) return error
  switch (code) {
    case 'ENOENT':
      return new Refused(404, `There is no file ${file} in the folder any more.`)
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return new Refused(403, `${file} cannot be ${doing}: its permissions do not allow it.`)
    case 'ENOSPC':
    case 'EDQUOT':
      return new Refused(422, `${file} cannot be ${doing}: the disk is full.`)
    default:
      return new Refused(422, `${file} cannot be ${doing}: ${code}.`)
  }
}
