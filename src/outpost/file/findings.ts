/** Where reading and checking leave what they find: problems with their place in the file, and defaults that were used. */
import type { Finding, Path } from './diagnostic.ts'
import type { Aim } from './document.ts'

export interface Placed {
  readonly path: Path
  readonly aim: Aim
  readonly finding: Finding
}

/** A number that the file does not state, and what was taken instead. */
export interface Assumption {
  readonly path: Path
  readonly text: string
  readonly source: string
}

type Words = Omit<Finding, 'severity'>

export class Findings {
  readonly problems: Placed[] = []
  readonly assumptions: Assumption[] = []

  error(path: Path, words: Words, aim: Aim = 'value'): void {
    this.problems.push({ path, aim, finding: { ...words, severity: 'error' } })
  }

  warn(path: Path, words: Words, aim: Aim = 'value'): void {
    this.problems.push({ path, aim, finding: { ...words, severity: 'warning' } })
  }

  /** Puts `say` of it in place of each problem of this code. */
  reword(code: string, say: (problem: Placed) => Placed): void {
    for (const [i, problem] of this.problems.entries())
      if (problem.finding.code === code) this.problems[i] = say(problem)
  }

  assume(path: Path, text: string, source: string): void {
    this.assumptions.push({ path, text, source })
  }

  hasErrorsIn(sections: readonly string[]): boolean {
    return this.problems.some(
      ({ path, finding }) => finding.severity === 'error' && sections.includes(String(path[0])),
    )
  }
}
