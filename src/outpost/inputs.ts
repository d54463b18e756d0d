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
export const uncertainInputs = (outpost: Outpost): UncertainInput[] =>
  templateOf(outpost).inputs.filter((input): input is UncertainInput => input.value.kind !== 'exact')

/**
 * The design with `pick`'s number in place of every uncertain one, exact ones included, so that `pick` decides what
 * "best value" means. Parts that hold no uncertain number (cells, curves, typed arrays) are shared, not copied.
 */
export function resolve(
  outpost: Outpost,
  pick: (value: Uncertain, path: string, index: number) => number,
): Outpost<number> {
  return resolvePart(outpost, pick)
}

/** The same for a part of a design; paths count from the part. */
export function resolvePart<T>(
  part: T,
  pick: (value: Uncertain, path: string, index: number) => number,
): Resolved<T> {
  const { inputs, build } = templateOf(part)
  return build(inputs.map(({ value, path }, index) => pick(value, path, index))) as Resolved<T>
}

/** `T` with a number in place of every `Uncertain`. */
export type Resolved<T> = T extends Uncertain
  ? number
  : T extends Float64Array
    ? T
    : T extends object
      ? { readonly [K in keyof T]: Resolved<T[K]> }
      : T

/** A design taken apart once, to be put together from other numbers for every run. */
interface Template {
  readonly inputs: readonly { readonly path: string; readonly value: Uncertain }[]
  readonly build: Build
}

type Build = (numbers: readonly number[]) => unknown

const templates = new WeakMap<object, Template>()

function templateOf(part: unknown): Template {
  const known = isNode(part) ? templates.get(part) : undefined
  if (known !== undefined) return known
  const inputs: { path: string; value: Uncertain }[] = []
  const template = { inputs, build: takenApart(part, '', inputs) ?? (() => part) }
  if (isNode(part)) templates.set(part, template)
  return template
}

/** What puts `node` together again; null where it holds no uncertain number. Adds the numbers it finds to `inputs`. */
function takenApart(node: unknown, path: string, inputs: { path: string; value: Uncertain }[]): Build | null {
  if (!isNode(node)) return null
  if (isUncertain(node)) {
    const index = inputs.push({ path, value: node }) - 1
    return (numbers) => numbers[index]
  }
  if (Array.isArray(node)) {
    const builds = node.map((item, i) => takenApart(item, `${path}[${i}]`, inputs))
    if (builds.every((build) => build === null)) return null
    return (numbers) => node.map((item, i) => builds[i]?.(numbers) ?? item)
  }
  const builds = Object.entries(node).flatMap(([key, value]) => {
    const build = takenApart(value, path === '' ? key : `${path}.${key}`, inputs)
    return build === null ? [] : [{ key, build }]
  })
  if (builds.length === 0) return null
  return (numbers) => {
    const built: Record<string, unknown> = { ...node }
    for (const { key, build } of builds) built[key] = build(numbers)
    return built
  }
}

const isNode = (node: unknown): node is object =>
  typeof node === 'object' && node !== null && !ArrayBuffer.isView(node)

function isUncertain(node: object): node is Uncertain {
  return 'kind' in node && KINDS.has(node.kind)
}
