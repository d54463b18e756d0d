/** All that is wrong within a row of a table, below it: a narrow cell has no room for a sentence. */
import { type Path, pathText } from '../../outpost/file/diagnostic.ts'
import { useAnswers } from '../verdict/answers.ts'
import { onceEach, Problem, problemId } from './field.tsx'

interface RowProblemsProps {
  readonly path: Path
  /** Keys whose fields are open below, and tell it themselves. */
  readonly except: readonly string[]
  readonly span: number
}

export function RowProblems({ path, except, span }: RowProblemsProps) {
  const { diagnostics } = useAnswers()
  const problems = onceEach(diagnostics)
    .filter((each) => path.every((part, i) => each.path[i] === part))
    .filter((each) => !except.includes(String(each.path[path.length] ?? '')))
  if (problems.length === 0) return null
  const places = problems.map((each) => problemId(fieldOf(each.path)))
  return (
    <tr className="row-problems">
      <td colSpan={span}>
        {problems.map((each, i) => {
          const isFirst = places.indexOf(places[i]) === i
          const key = `${pathText(each.path)} ${each.code} ${each.variant ?? ''}`
          return <Problem key={key} {...each} {...(isFirst ? { id: places[i] } : {})} />
        })}
      </td>
    </tr>
  )
}

/** What is wrong with a number that is written with its source is told at the number. */
const fieldOf = (path: Path): Path =>
  path.at(-1) === 'is' || path.at(-1) === 'source' ? path.slice(0, -1) : path
