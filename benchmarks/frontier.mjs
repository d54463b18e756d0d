/** The frontier alone, on two threads of the built package: prints nothing, so that a benchmark can time it. */
import { readFileSync } from 'node:fs'
import { sizingSpace } from '../dist/decisions/sizing-space.js'
import { frontierStudy } from '../dist/decisions/sizing-study.js'
import { readOutpost } from '../dist/outpost/file/read.js'
import { yearCut } from '../dist/sky/year-cut.js'
import { playStudy } from '../dist/workbench/play-study.js'

const read = readOutpost(readFileSync('examples/fjord-tide-hut.outpost.yaml', 'utf8'))
if (!read.ok) throw new Error('the example does not read')
const { place } = read.outpost
const cutDay = yearCut(place.latitude_deg, place.climate.clearness)
const settings = { years: 5, seed: 1, stepsPerHour: 1, cutDay, calendarYear: 2026 }
const sizing = sizingSpace(read.outpost, settings)
await playStudy(frontierStudy(sizing, { wanted: 0.95, runs: null }), sizing.space, { threads: 2 })
