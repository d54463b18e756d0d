/** The Web Worker behind the verdict: the newest question wins, and is looked for between portions of runs. */
import { WhatIfMemory } from '../../outlook/what-if-memory.ts'
import { answersTo, writtenFrom } from './answer.ts'
import type { Answer, Question, Sentence } from './messages.ts'
import { sameFiles } from './same-files.ts'

/** So long is played before it is looked whether a newer question has come. */
const PORTION_MS = 15
/** The outlook is told for the first time after so long, then so far apart, and when it is whole. */
const FIRST_MS = 45
const TOLD_MS = 120
/** What would be whole within so long is not told before. */
const NEARLY_MS = 30

const memory = new WhatIfMemory()
const known = sameFiles()
let newest = 0
/** How fast the last portion went. */
let runsPer_ms = 0.5

const say = (answer: Answer) => self.postMessage(answer)

self.onmessage = ({ data }: MessageEvent<Question | Sentence>) => {
  newest = data.id
  try {
    if ('blanks' in data) say(writtenFrom(data))
    else drive({ ...data, files: known(data.files) })
  } catch (error) {
    broken(data.id, error)
  }
}

function broken(id: number, error: unknown): void {
  say({ id, kind: 'broken', why: error instanceof Error ? error.message : String(error) })
}

/** Runs are played in portions, with a turn for messages after each. */
function drive(question: Question): void {
  let runs = 0
  let began = performance.now()
  let tellAt = began + FIRST_MS
  const answers = answersTo(question, memory, () => {
    runs = Math.max(1, Math.round(runsPer_ms * PORTION_MS))
    began = performance.now()
    return runs
  })
  const turn = () => {
    if (newest !== question.id) return
    try {
      const { done, value } = answers.next()
      if (done) return
      if ('kind' in value) say(value)
      else {
        const now = performance.now()
        runsPer_ms = runs / Math.max(now - began, 0.5)
        if (value.left === 0 || (now > tellAt && value.left > runsPer_ms * NEARLY_MS)) {
          tellAt = now + TOLD_MS
          say(value.look())
        }
      }
      queue.port2.postMessage(null)
    } catch (error) {
      broken(question.id, error)
    }
  }
  const queue = new MessageChannel()
  queue.port1.onmessage = turn
  turn()
}
