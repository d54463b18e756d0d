/** Every kind of long work that a page can ask for. */
import { z } from 'zod'
import type { Work } from '../../api/work.ts'
import { adopt } from './adopt.ts'
import { check } from './check.ts'
import { comparing } from './compare-recordings.ts'
import { forecast } from './forecast.ts'
import { handoff } from './handoff.ts'
import { importing } from './import.ts'
import { matters } from './matters.ts'
import { read } from './read.ts'
import { recording } from './record.ts'
import { reporting } from './report.ts'
import { size } from './size.ts'
import { thrift } from './thrift.ts'
import { variants } from './variants.ts'
import type { AskedOf, Doing, WorkOf } from './work.ts'

const WORKS = {
  forecast,
  variants,
  size,
  matters,
  thrift,
  handoff,
  import: importing,
  read,
  adopt,
  check,
  'compare recordings': comparing,
  record: recording,
  report: reporting,
} satisfies { [W in Work]: WorkOf<W> }

type Known = keyof typeof WORKS
export type KnownAsked = AskedOf<Known>

const [first, ...others] = Object.values(WORKS).map(({ asked }) => asked)

/** What a request for work may be. */
export const askedWork: z.ZodType<KnownAsked> = z.discriminatedUnion('work', [first, ...others])

/** The answer, as the contract has it for the work that was asked. */
export function runWork(asked: KnownAsked, doing: Doing): Promise<unknown> {
  const { run } = WORKS[asked.work] as WorkOf<Known>
  return run(asked, doing)
}
