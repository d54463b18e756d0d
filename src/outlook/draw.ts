/** A design drawn from its tolerances: run k gets the k-th draw of every uncertain number, and a cell from the lot. */
import type { Stream } from '../numeric/random.ts'
import { resolve } from '../outpost/inputs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { best, quantileOf } from '../quantity/spread.ts'

/** A share that a tolerance may not carry past 0 or 1. */
const SHARE = /\.(chance|probability|soiling|efficiency|initial|albedo)$/

/** Nothing of a cell is left below this many standard deviations of its lot. */
const LEAST_OF_LOT = 0.1

export const atBest = (outpost: Outpost): Outpost<number> => resolve(outpost, best)

/** Draws in the order of the file's numbers, exact ones without using up the stream; then the cell's capacity. */
export function drawn(outpost: Outpost, stream: Stream): Outpost<number> {
  const design = resolve(outpost, (value, path) => {
    if (value.kind === 'exact') return value.value
    const number = quantileOf(value, stream.uniform())
    if (SHARE.test(path)) return Math.min(Math.max(number, 0), 1)
    // A quantity that is positive at its best never turns negative by its tolerance.
    return best(value) > 0 ? Math.max(number, 0) : number
  })
  const { pack } = design.supply
  const lot = Math.max(LEAST_OF_LOT, 1 + pack.cell.scatter * stream.normal())
  return { ...design, supply: { ...design.supply, pack: { ...pack, capacity_C: pack.capacity_C * lot } } }
}
