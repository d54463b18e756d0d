/** How a question is played, for whoever wants other runs, years, seed or sky than the usual ones. */
import { useId, useState } from 'react'
import type { Play } from '../../api/work.ts'
import { useFolder } from '../draft/folder.ts'
import { useAsked } from '../form/asked-field.tsx'
import { SEED } from '../verdict/answers.ts'
import { wholeNumberFrom } from './quantity-from.ts'

export interface PlayChoices {
  /** What is counted, and how many may be asked for; left out where nothing is. */
  readonly runs?: { readonly label: string; readonly low: number; readonly high: number }
  readonly years?: boolean
  readonly weather?: boolean
}

export interface Played extends Required<Play> {
  readonly seed: number
}

const MOST_YEARS = 60

/** What was chosen, whether it will do, and the fields. */
export function usePlay(choices: PlayChoices) {
  const [texts, field] = useAsked({ runs: '', years: '', seed: '' })
  const [weather, setWeather] = useState('')
  const runs = wholeNumberFrom(texts.runs, choices.runs?.low ?? 1, choices.runs?.high ?? 1)
  const years = wholeNumberFrom(texts.years, 1, MOST_YEARS)
  const seed = wholeNumberFrom(texts.seed, 0, Number.MAX_SAFE_INTEGER)
  const play: Played = {
    runs: runs.value,
    years: years.value,
    seed: seed.value ?? SEED,
    weather: weather === '' ? null : weather,
  }
  return {
    play,
    isWrong: [runs, years, seed].some(({ problem }) => problem !== null),
    fields: (
      <div className="fields">
        {choices.runs !== undefined && field('runs', choices.runs.label, runs, 'as many as tell enough')}
        {choices.years === true && field('years', 'Years', years, 'the usual ones')}
        {field('seed', 'Seed', seed, String(SEED))}
        {choices.weather === true && <WeatherField weather={weather} onWeather={setWeather} />}
      </div>
    ),
  }
}

function WeatherField(props: { readonly weather: string; readonly onWeather: (weather: string) => void }) {
  const id = useId()
  const folder = useFolder()
  const files = folder.is === 'there' ? folder.folder.weather : []
  if (files.length === 0) return null
  return (
    <div className="field">
      <label htmlFor={id}>Weather</label>
      <select id={id} value={props.weather} onChange={(event) => props.onWeather(event.target.value)}>
        <option value="">that of the outpost</option>
        {files.map((file) => (
          <option key={file}>{file}</option>
        ))}
      </select>
    </div>
  )
}
