/** Designs handed over, compiled with the driver in C, and asked in bulk. */
import { spawnSync } from 'node:child_process'
import { rmSync } from 'node:fs'
import { endianness } from 'node:os'
import { join } from 'node:path'
import { expect } from 'vitest'
import { cHeader } from '../src/handoff/c-header.ts'
import { cSource } from '../src/handoff/c-source.ts'
import { handoffOf } from '../src/handoff/compile.ts'
import type { ClockKeeps, Handoff } from '../src/handoff/handoff.ts'
import type { Outpost } from '../src/outpost/outpost.ts'
import { compileC, folderWith } from './compile-c.ts'

export const YEAR = 2025
const LITTLE = endianness() === 'LE'

/** Made here, to be removed by `removeFolders`. */
export const folders: string[] = []

export function removeFolders(): void {
  for (const folder of folders) rmSync(folder, { recursive: true })
}

const origin = {
  title: 'A title with */ and /* and ??/ in it',
  file: 'test.outpost.yaml',
  fingerprint: '0123456789ab',
  variant: null,
  version: '0',
  seed: 1,
  draws: 20,
}

export function handedOver(outpost: Outpost, clock: ClockKeeps = 'local time'): Handoff {
  const result = handoffOf(outpost, { origin, clock, year: YEAR })
  if (!result.ok) throw new Error(JSON.stringify(result.obstacles))
  return result.handoff
}

/** Compiles a design's C with the driver; returns what runs it. */
export function driverOf(handoff: Handoff, bcd: boolean): (questions: ArrayBuffer) => DataView {
  const style = { prefix: 'outpost', bcd }
  const folder = folderWith({ 'outpost.h': cHeader(handoff, style), 'outpost.c': cSource(handoff, style) })
  folders.push(folder)
  expect(compileC(folder, ['outpost.c', 'driver.c'], 'driver')).toBe('')
  return (questions) => {
    const { status, stdout } = spawnSync(join(folder, 'driver'), {
      input: new Uint8Array(questions),
      maxBuffer: ANSWER_BYTES * (1 + questions.byteLength / QUESTION_BYTES),
    })
    expect(status).toBe(0)
    return new DataView(stdout.buffer, stdout.byteOffset, stdout.byteLength)
  }
}

const QUESTION_BYTES = 8
export const ANSWER_BYTES = 16
export const AS_ANSWERED = 2

export interface Question {
  readonly now_s: number
  readonly battery_mV: number
  readonly wasLow: 0 | 1 | typeof AS_ANSWERED
}

export function packed(questions: readonly Question[]): ArrayBuffer {
  const view = new DataView(new ArrayBuffer(QUESTION_BYTES * questions.length))
  for (const [i, { now_s, battery_mV, wasLow }] of questions.entries()) {
    view.setUint32(QUESTION_BYTES * i, now_s, LITTLE)
    view.setUint16(QUESTION_BYTES * i + 4, battery_mV, LITTLE)
    view.setUint16(QUESTION_BYTES * i + 6, wasLow, LITTLE)
  }
  return view.buffer
}

export const answerAt = (view: DataView, i: number) => ({
  at_s: view.getUint32(ANSWER_BYTES * i, LITTLE),
  ahead_s: view.getUint32(ANSWER_BYTES * i + 4, LITTLE),
  skips: view.getUint16(ANSWER_BYTES * i + 8, LITTLE),
  hour: view.getUint8(ANSWER_BYTES * i + 10),
  minute: view.getUint8(ANSWER_BYTES * i + 11),
  second: view.getUint8(ANSWER_BYTES * i + 12),
  row: view.getUint8(ANSWER_BYTES * i + 13),
  low: view.getUint8(ANSWER_BYTES * i + 14),
})
