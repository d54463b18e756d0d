/** Bytes of a weather file, of whichever format, to a weather year. */
import { looksLikeEpw, readEpw } from './epw.ts'
import { csvHeader, readHourlyCsv } from './hourly-csv.ts'
import { looksLikeTmy3, readTmy3 } from './tmy3.ts'
import { assembleYear } from './weather-assemble.ts'
import { ProblemList, type WeatherHints, type WeatherResult } from './weather-result.ts'
import { emptyTable, type WeatherSite, type WeatherTable } from './weather-table.ts'
import { decodeText, linesOf } from './weather-text.ts'

/**
 * Reads EPW, TMY3 or a CSV with a header, told apart by their first lines. `hints` carries what a CSV does not say of
 * itself; the other formats need none. Never throws: whatever is wrong comes back as problems, at most twenty.
 */
export function readWeather(bytes: Uint8Array | string, hints: WeatherHints = {}): WeatherResult {
  const lines = linesOf(decodeText(bytes))
  const table = emptyTable()
  const problems = new ProblemList()
  const site = readAny(lines, hints, table, problems)
  const year = site && problems.problems.length === 0 ? assembleYear(site, table, problems) : null
  return year && problems.problems.length === 0
    ? { ok: true, year, notes: table.notes }
    : { ok: false, problems: problems.problems }
}

function readAny(
  lines: readonly string[],
  hints: WeatherHints,
  table: WeatherTable,
  problems: ProblemList,
): WeatherSite | null {
  if (looksLikeEpw(lines)) return readEpw(lines, table, problems)
  if (looksLikeTmy3(lines)) return readTmy3(lines, table, problems)
  const header = csvHeader(lines)
  if (header) return readHourlyCsv(lines, header, hints, table, problems)
  const empty = lines.every((line) => line.trim() === '')
  problems.add(
    empty ? 'weather.empty' : 'weather.format',
    empty ? null : 1,
    empty ? 'the file is empty' : 'this is no weather file that can be read here',
    'EPW (begins with LOCATION), TMY3 (second line begins with Date) or a CSV with time, ghi and temperature',
    'check that the file is whole and not compressed',
  )
  return null
}
