/** The Web Worker behind the verdict: the newest question wins, and is looked for between portions of runs. */
import { WhatIfMemory } from '../../outlook/what-if-memory.ts'
import { answersTo, writtenFrom } from './answer.ts'
import type { Answer, Question, Sentence } from './messages.ts'

/** The first look at the outlook comes with so many runs, the last with all. */
const FIRST_RUNS = 40
/** So long is played before it is looked whether a newer question has come. */
const PORTION_MS = 25
/** Looks in between are told so far apart. */
const TOLD_MS = 120

const memory = new WhatIfMemory()
let newest = 0

const say = (answer: Answer) => self.postMessage(answer)

self.onmessage = ({ data }: MessageEvent<Question | Sentence>) => {
  newest = data.id
  try {
    if ('blanks' in data) say(writtenFrom(data))
    else drive(data)
  } catch (error) {
    broken(data.id, error)
  }
}

function broken(id: number, error: unknown): void {
  say({ id, kind: 'broken', why: error instanceof Error ? error.message : String(error) })
}

/** Runs are played in portions, with a turn for messages after each. */
function drive(question: Question): void {
  let runs = FIRST_RUNS
  let portion = performance.now()
  const answers = answersTo(question, memory, () => {
    portion = performance.now()
    return runs
  })
  let told = Number.NEGATIVE_INFINITY
  const turn = () => {
    if (newest !== question.id) return
    try {
      const { done, value } = answers.next()
      if (done) return
      const now = performance.now()
      if ('kind' in value) say(value)
      else {
        const took = Math.max(now - portion, 0.5)
        runs = Math.max(1, Math.round((runs * PORTION_MS) / took))
        if (value.isWhole || now - told > TOLD_MS) {
          told = now
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
