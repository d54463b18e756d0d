/**
 * A design drawn from its tolerances. Each uncertain number is drawn by its own name from a stream of its own, so that
 * run k of two designs draws alike whatever they have in common: adding a step to one leaves the draws of the others be.
 */
import { normalQuantile } from '../numeric/normal.ts'
import { stream } from '../numeric/random.ts'
import { resolve } from '../outpost/inputs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { best, quantileOf } from '../quantity/spread.ts'

/** A share that a tolerance may not carry past 0 or 1. */
const SHARE = /\.(chance|probability|soiling|efficiency|initial|albedo)$/

/** Nothing of a cell is left below this many standard deviations of its lot. */
const LEAST_OF_LOT = 0.1

/** Gives each name its probability 0..1, exclusive; the same name always the same. */
export type Probabilities = (name: string) => number

/** The cell's place within its lot, beside the names of the file's numbers. */
const LOT = 'supply.pack.cell.scatter'

/** Purposes of streams that belong to names have their highest bit set; those of other uses are small. */
const BY_NAME = 0x80000000

export const atBest = (outpost: Outpost): Outpost<number> => resolve(outpost, best)

/** The probabilities of one run: one stream a name. */
export const probabilitiesOf =
  (seed: number, run: number): Probabilities =>
  (name) =>
    stream(seed, run, (hashOf(name) | BY_NAME) >>> 0).uniform()

/** The design with each uncertain number at its probability, and a cell from the lot. */
export function drawn(outpost: Outpost, probabilityOf: Probabilities): Outpost<number> {
  const names = namesOf(outpost)
  const design = resolve(outpost, (value, path, index) => {
    if (value.kind === 'exact') return value.value
    names[index] ??= { name: nameOf(outpost, path), isShare: SHARE.test(path) }
    const { name, isShare } = names[index]
    const number = quantileOf(value, probabilityOf(name))
    if (isShare) return Math.min(Math.max(number, 0), 1)
    // A quantity that is positive at its best never turns negative by its tolerance.
    return best(value) > 0 ? Math.max(number, 0) : number
  })
  const { pack } = design.supply
  const lot = Math.max(LEAST_OF_LOT, 1 + pack.cell.scatter * normalQuantile(probabilityOf(LOT)))
  return { ...design, supply: { ...design.supply, pack: { ...pack, capacity_C: pack.capacity_C * lot } } }
}

/** By index of the number; the same for all draws of a design. */
const allNames = new WeakMap<Outpost, { name: string; isShare: boolean }[]>()

function namesOf(outpost: Outpost): { name: string; isShare: boolean }[] {
  const names = allNames.get(outpost) ?? []
  allNames.set(outpost, names)
  return names
}

/** `wake.steps[2].duration_s` as `wake.steps.send.duration_s`: a step keeps its name when others come before it. */
function nameOf({ wake }: Outpost, path: string): string {
  const [, list, index, rest] = /^wake\.(steps|boot|standing)\[(\d+)\](.*)$/.exec(path) ?? []
  if (list === undefined) return path
  const items: readonly { readonly name: string }[] = wake[list as 'steps' | 'boot' | 'standing']
  const { name } = items[Number(index)]
  const before = items.slice(0, Number(index)).filter((item) => item.name === name).length
  return `wake.${list}.${name}${before > 0 ? ` ${before + 1}` : ''}${rest}`
}

/** FNV-1a, 32 bits (Fowler, Noll & Vo), over UTF-16 units. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
  return hash >>> 0
}
