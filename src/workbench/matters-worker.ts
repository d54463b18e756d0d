/** One thread that plays rows of a design of samples. */
import { workerData } from 'piscina'
import { type MattersProblem, playRows, type Row } from '../decisions/matters-rows.ts'

export function work({ from, to }: { from: number; to: number }): Row[] {
  return playRows(workerData as MattersProblem, from, to)
}
