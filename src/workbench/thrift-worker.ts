/** One thread that tries thrift tables; the runs on which it does are made once. */
import { workerData } from 'piscina'
import { type ThriftAnswer, type ThriftTask, thriftDesk } from '../decisions/thrift-desk.ts'
import type { ThriftProblem } from '../decisions/thrift-runs.ts'

const desk = thriftDesk(workerData as ThriftProblem)

export const work = (task: ThriftTask): ThriftAnswer => desk(task)
