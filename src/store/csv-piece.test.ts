import { closeSync, mkdtempSync, openSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { PIECE_BYTES, PieceReader } from './csv-piece.ts'

let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'overwinter-piece-'))
})
afterAll(() => rmSync(folder, { recursive: true }))

/** The lines of a text that each piece of so many bytes holds. */
function linesByPiece(text: string, firstByte: number, pieceBytes: number): string[] {
  const path = join(folder, 'text')
  writeFileSync(path, text, 'latin1')
  const fd = openSync(path, 'r')
  try {
    const reader = new PieceReader(fd)
    const pieces: string[] = []
    for (let start = firstByte; start < text.length; start += pieceBytes) {
      const end = Math.min(start + pieceBytes, text.length)
      const { bytes, from, to } = reader.read({ start, end, first: start === firstByte })
      pieces.push(Buffer.from(bytes.subarray(from, to)).toString('latin1'))
    }
    return pieces
  } finally {
    closeSync(fd)
  }
}

test('pieces of any size hold every line once, whole and in order', () => {
  const text = fc.array(fc.constantFrom('\n', 'a', 'bc', '12,5\r\n', 'x'.repeat(30)), {
    minLength: 1,
    maxLength: 60,
  })
  fc.assert(
    fc.property(text, fc.integer({ min: 1, max: 90 }), fc.nat(5), (parts, size, skipped) => {
      const whole = parts.join('')
      fc.pre(skipped < whole.length)
      const pieces = linesByPiece(whole, skipped, size)
      const rest = whole.slice(skipped)
      expect(pieces.join('')).toBe(rest.endsWith('\n') ? rest : `${rest}\n`)
      for (const piece of pieces) expect(piece === '' || piece.endsWith('\n')).toBe(true)
    }),
    { seed: 3, numRuns: 300 },
  )
})

test('a line may be as long as a piece; a longer one is refused', () => {
  const long = (length: number) => `1\n${'x'.repeat(length - 1)}\n2\n`
  const text = long(PIECE_BYTES)
  expect(linesByPiece(text, 0, 100_000).join('')).toBe(text)
  expect(() => linesByPiece(long(3 * PIECE_BYTES), 0, PIECE_BYTES)).toThrow(/no line ends within 2 MB/)
})
