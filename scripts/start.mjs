// `npm start`: installs what is missing, builds, forecasts the example outpost and writes its report beside it.
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { build, checkNode, installPackages, ROOT, run } from './prepare.mjs'

const EXAMPLE = 'examples/fjord-tide-hut.outpost.yaml'

checkNode()
installPackages()
build()
const folder = join(ROOT, 'dist', 'reports')
mkdirSync(folder, { recursive: true })
const report = join(folder, 'fjord-tide-hut.html')
const code = run(process.execPath, [join('dist', 'cli', 'main.js'), 'forecast', EXAMPLE, '--html', report])
process.exit(code)
