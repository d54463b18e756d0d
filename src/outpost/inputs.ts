/**
 * The numbers of a design, found by walking it. A path reads like code, `wake.steps[2].duration_s`, and the order is
 * that of the contract's fields, so that the n-th uncertain number is the same in every run and thread.
 */
import type { Uncertain } from '../quantity/uncertain.ts'
import type { Outpost } from './outpost.ts'

export interface UncertainInput {
  readonly path: string
  readonly value: Exclude<Uncertain, { kind: 'exact' }>
}

const KINDS: ReadonlySet<unknown> = new Set<Uncertain['kind']>([
  'exact',
  'normal',
  'uniform',
  'below',
  'skewed',
])

/** Every number of the design that is not exact, in a fixed order. */
export function uncertainInputs(outpost: Outpost): UncertainInput[] {
  const found: UncertainInput[] = []
  mapUncertain(outpost, '', (value, path) => {
    if (value.kind !== 'exact') found.push({ path, value })
    return value
  })
  return found
}

/**
 * The design with `pick`'s number in place of every uncertain one, exact ones included, so that `pick` decides what
 * "best value" means. Parts that hold no uncertain number (cells, curves, typed arrays) are shared, not copied.
 */
export function resolve(outpost: Outpost, pick: (value: Uncertain, path: string) => number): Outpost<number> {
  return resolvePart(outpost, pick)
}

/** The same for a part of a design; paths count from the part. */
export function resolvePart<T>(part: T, pick: (value: Uncertain, path: string) => number): Resolved<T> {
  return mapUncertain(part, '', pick) as Resolved<T>
}

/** `T` with a number in place of every `Uncertain`. */
export type Resolved<T> = T extends Uncertain
  ? number
  : T extends Float64Array
    ? T
    : T extends object
      ? { readonly [K in keyof T]: Resolved<T[K]> }
      : T

function mapUncertain(
  node: unknown,
  path: string,
  map: (value: Uncertain, path: string) => unknown,
): unknown {
  if (typeof node !== 'object' || node === null || !holdsUncertain(node)) return node
  if (isUncertain(node)) return map(node, path)
  if (Array.isArray(node)) {
    const items = node.map((item, i) => mapUncertain(item, `${path}[${i}]`, map))
    return items.every((item, i) => item === node[i]) ? node : items
  }
  const entries = Object.entries(node).map(([key, value]) => ({
    key,
    before: value,
    after: mapUncertain(value, path === '' ? key : `${path}.${key}`, map),
  }))
  return entries.every(({ before, after }) => before === after)
    ? node
    : Object.fromEntries(entries.map(({ key, after }) => [key, after]))
}

/** A design is walked once for every run, and most of it (curves, climate) holds no uncertain number: remembered. */
const holding = new WeakMap<object, boolean>()

function holdsUncertain(node: object): boolean {
  let holds = holding.get(node)
  if (holds === undefined) {
    holds =
      isUncertain(node) ||
      (!ArrayBuffer.isView(node) &&
        Object.values(node).some((item) => typeof item === 'object' && item !== null && holdsUncertain(item)))
    holding.set(node, holds)
  }
  return holds
}

function isUncertain(node: object): node is Uncertain {
  return 'kind' in node && KINDS.has(node.kind)
}
