import { describe, expect, it } from 'vitest'
import { Refused, refusedByDisk } from './refused.ts'

const disk = (code: string) =>
  Object.assign(new Error(code), { code, syscall: 'open', path: '/home/me/a.csv' })

describe('what the disk refuses', () => {
  it.each([
    ['ENOENT', 404, /no file a\.csv/],
    ['EACCES', 403, /permissions/],
    ['EPERM', 403, /permissions/],
    ['EROFS', 403, /permissions/],
    ['ENOSPC', 422, /disk is full/],
    ['EDQUOT', 422, /disk is full/],
    ['EIO', 422, /cannot be read: EIO/],
  ])('is refused in a sentence: %s', (code, status, sentence) => {
    const refused = refusedByDisk('a.csv', 'read', disk(code)) as Refused
    expect(refused).toBeInstanceOf(Refused)
    expect([refused.status, refused.message]).toEqual([status, expect.stringMatching(sentence)])
    expect(refused.message).not.toContain('/home/me')
  })

  it('is told from what is our own fault, and from refusals that were made already', () => {
    for (const error of [new TypeError('x is not a function'), new Refused(413, 'Too long.')])
      expect(refusedByDisk('a.csv', 'read', error)).toBe(error)
  })
})
