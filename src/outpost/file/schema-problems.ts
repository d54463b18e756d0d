/** What the schema finds wrong, in words of this format: one finding for each key, with the nearest right one. */
import type { z } from 'zod'
import { editDistance, nearestWord } from '../../numeric/edit-distance.ts'
import type { Finding, Path } from './diagnostic.ts'
import type { Aim } from './document.ts'
import type { Findings } from './findings.ts'
import { type FieldWords, fieldAt, keysOf, wordsOf } from './schema-walk.ts'
import type { FieldProblem } from './sourced-field.ts'

type Issue = z.core.$ZodIssue

/** Where an issue is looked up: the schema and data that were read, and the path at which they stand in the file. */
export interface Reading {
  readonly schema: z.core.$ZodType
  readonly data: unknown
  readonly at: Path
}

/** One thing that is wrong, before it is placed in the text. */
interface Problem {
  readonly path: Path
  readonly aim: Aim
  readonly words: Omit<Finding, 'severity'>
  /** The path of the key that belongs there, where a key is missing or misspelt. */
  readonly belongs?: Path
}

export function reportIssues(issues: readonly Issue[], reading: Reading, findings: Findings): void {
  const problems = issues.flatMap((issue) => problemsOf(issue, reading))
  for (const problem of problems)
    if (!isMisspelt(problem, problems)) findings.error(problem.path, problem.words, problem.aim)
}

/** A key that is missing only because it is misspelt: said once, where it is misspelt. */
function isMisspelt({ words, belongs }: Problem, problems: readonly Problem[]): boolean {
  return (
    words.code === 'missing-key' &&
    problems.some(
      (other) => other.words.code === 'unknown-key' && other.belongs?.join('\n') === belongs?.join('\n'),
    )
  )
}

function problemsOf(issue: Issue, reading: Reading): Problem[] {
  const { schema, data, at } = reading
  const inside = issue.path as (string | number)[]
  const path = [...at, ...inside]
  const value = valueAt(data, inside)
  const words = wordsOf(fieldAt(schema, data, inside))

  if (issue.code === 'custom') return [fieldProblem(issue.params?.problem as FieldProblem, path)]
  if (issue.code === 'unrecognized_keys') {
    const keys = keysOf(fieldAt(schema, data, inside) ?? schema, value)
    return issue.keys.map((key): Problem => {
      const near = nearKey(key, keys)
      const words = unknownKey(key, keys)
      return { path: [...path, key], aim: 'key', words, ...(near && { belongs: [...path, near] }) }
    })
  }
  if (value === undefined) return [missingKey(path, words)]
  if (value === null) return [emptyValue(path, words)]
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    const branch = bestBranch(issue.errors, value)
    if (branch !== null)
      return branch.flatMap((each) => problemsOf({ ...each, path: [...inside, ...each.path] }, reading))
  }
  const message = `${show(value)} does not belong here`
  return [{ path, aim: 'value', words: { message, ...wordsFor(issue, value, words) } }]
}

function fieldProblem(problem: FieldProblem, path: Path): Problem {
  const { code, message, expected, cure, start, end } = problem
  if (code === 'missing-key') return missingKey(path, { description: expected, example: null })
  if (code === 'empty-value') return emptyValue(path, { description: expected, example: null })
  const whole = code === 'unknown-key' ? 'key' : 'value'
  const aim = start === undefined || end === undefined ? whole : { start, end }
  return { path, aim, words: { code, message, expected, cure } }
}

function missingKey(path: Path, words: FieldWords | null): Problem {
  const key = path.at(-1)
  const owner = path.at(-2)
  const where = owner === undefined ? 'the file' : typeof owner === 'number' ? 'this entry' : `"${owner}"`
  return {
    path: path.slice(0, -1),
    aim: 'key',
    belongs: path,
    words: {
      code: 'missing-key',
      message: `"${key}" is missing from ${where}`,
      expected: expectedOf(words),
      cure: words?.example ? `add "${key}: ${words.example}"` : `add "${key}"`,
    },
  }
}

function emptyValue(path: Path, words: FieldWords | null): Problem {
  return {
    path,
    aim: 'key',
    words: {
      code: 'empty-value',
      message: `nothing follows "${path.at(-1)}"`,
      expected: expectedOf(words),
      cure: cureOfEmpty(path),
    },
  }
}

/** `10 mA:90 %` is one key to YAML. */
const cureOfEmpty = (path: Path): string =>
  /:\S/.test(String(path.at(-1))) ? 'put a space after the colon' : 'write a value, or remove the key'

/** What to say of a key that nothing has; `keys` are those that could stand there. */
export function unknownKey(key: string, keys: readonly string[]): Problem['words'] {
  const near = nearKey(key, keys)
  return {
    code: 'unknown-key',
    message: `"${key}" is not known here`,
    expected: keys.length > 0 ? `one of ${keys.join(', ')}` : 'no key at all',
    cure: near === null ? `choose one of those, or remove "${key}"` : `did you mean "${near}"?`,
  }
}

/** The key that was probably meant: no more than half of its letters differ. */
function nearKey(key: string, keys: readonly string[]): string | null {
  if (keys.length === 0) return null
  const near = nearestWord(key, keys)
  return editDistance(key.toLowerCase(), near.toLowerCase()) <= near.length / 2 ? near : null
}

function wordsFor(issue: Issue, value: unknown, words: FieldWords | null) {
  const expected = expectedOf(words)
  const options = optionsOf(issue)
  if (options.length > 0)
    return { code: 'unknown-value', expected: `one of ${options.join(', ')}`, cure: cureOf(value, options) }
  switch (issue.code) {
    case 'too_small':
      return issue.origin === 'number'
        ? {
            code: 'out-of-range',
            expected: `${expected}, at least ${issue.minimum}`,
            cure: 'check the number',
          }
        : { code: 'empty-value', expected, cure: 'write something, or remove the key' }
    case 'too_big':
      return {
        code: 'out-of-range',
        expected: `${expected}, at most ${issue.maximum}`,
        cure: 'check the number',
      }
    case 'invalid_type':
      return issue.expected === 'int'
        ? { code: 'not-whole', expected: `a whole number: ${expected}`, cure: 'round it' }
        : {
            code: 'wrong-type',
            expected: `${NAMES[issue.expected] ?? issue.expected}: ${expected}`,
            cure: 'see the example',
          }
    default:
      return { code: 'wrong-type', expected, cure: 'see the example' }
  }
}

function cureOf(value: unknown, options: readonly string[]): string {
  if (typeof value !== 'string') return `write ${options.length === 1 ? options[0] : 'one of them'}`
  if (options.includes(value)) return `write ${value} without quotes`
  const plain = value
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, '-')
  const meant = Object.hasOwn(EVERYDAY_KINDS, plain) ? EVERYDAY_KINDS[plain] : nearKey(value, options)
  return meant !== null && options.includes(meant) ? `did you mean "${meant}"?` : 'choose one of those'
}

/** What the trade calls regulators and chargers of the kinds that the format knows. */
const EVERYDAY_KINDS: Readonly<Record<string, string>> = {
  ldo: 'linear',
  'low-drop-out': 'linear',
  'step-down': 'buck',
  'step-up': 'boost',
  'step-up-down': 'buck-boost',
  mppt: 'maximum-power',
  'maximum-power-point': 'maximum-power',
  schottky: 'diode',
}

const NAMES: Readonly<Record<string, string>> = {
  object: 'a mapping ("key: value" lines)',
  record: 'a mapping ("key: value" lines)',
  array: 'a list (lines that begin with "- ")',
  string: 'text',
  number: 'a number without a unit',
  boolean: 'true or false',
}

function optionsOf(issue: Issue): string[] {
  if (issue.code === 'invalid_value') return issue.values.map(String)
  if (issue.code === 'invalid_union' && 'options' in issue && Array.isArray(issue.options))
    return issue.options.map(String)
  return []
}

/**
 * The branch of a union that came closest: one that failed deeper inside, else one that took the value's type; null
 * where the value is of no type that the union knows. A mapping without `is` is not a number with its source.
 */
function bestBranch(branches: readonly (readonly Issue[])[], value: unknown): readonly Issue[] | null {
  const tookType = branches.filter((issues) =>
    issues.every(({ code, path }) => path.length > 0 || !['invalid_type', 'invalid_value'].includes(code)),
  )
  const isNumber = typeof value !== 'object' || value === null || 'is' in value
  const fitting = isNumber ? tookType : tookType.filter((issues) => !issues.some(isStrayKey))
  const inner = (fitting.length > 0 ? fitting : tookType).find((issues) =>
    issues.some(({ path }) => path.length > 0),
  )
  return inner ?? tookType[0] ?? null
}

const isStrayKey = (issue: Issue): boolean =>
  issue.code === 'custom' && (issue.params?.problem as FieldProblem | undefined)?.code === 'unknown-key'

const expectedOf = (words: FieldWords | null): string =>
  words === null
    ? 'what the format documentation shows'
    : words.example === null
      ? words.description
      : `${words.description}, as in "${words.example}"`

const valueAt = (data: unknown, path: Path): unknown =>
  path.reduce<unknown>((value, part) => (value as Record<string | number, unknown> | null)?.[part], data)

function show(value: unknown): string {
  if (Array.isArray(value)) return 'a list'
  if (typeof value === 'object') return 'a mapping'
  return `"${String(value)}"`
}
