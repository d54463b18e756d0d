import { PassThrough } from 'node:stream'
import { expect, it } from 'vitest'
import { bearGoneReaders } from './gone-reader.ts'

const broken = (code: string) => Object.assign(new Error(`write ${code}`), { code })

function streams() {
  const told: string[] = []
  const answer = new PassThrough()
  const remarks = new PassThrough()
  bearGoneReaders(answer, remarks, ({ code }) => told.push(String(code)))
  return { answer, remarks, told }
}

it('bears a reader that goes away, of the answer or of remarks, however often it is written to', () => {
  const { answer, remarks, told } = streams()
  for (const stream of [answer, remarks, answer, remarks]) stream.emit('error', broken('EPIPE'))
  expect(told).toEqual([])
})

it('tells once that the answer cannot be written, and never that remarks cannot: telling is one', () => {
  const { answer, remarks, told } = streams()
  for (const stream of [remarks, answer, answer]) stream.emit('error', broken('ENOSPC'))
  expect(told).toEqual(['ENOSPC'])
})
