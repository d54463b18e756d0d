// `npm test`: installs what is missing, a browser too, builds, runs every test and ends with `N passed, N failed`;
// then lint, types, layers, unused code, and whether generated files are current. `npm test -- PATTERN` runs the tests
// of the files that match, and nothing else.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { installBrowser } from './browser.mjs'
import { build, checkNode, installPackages, run } from './prepare.mjs'

checkNode()
installPackages()
const browser = installBrowser()
if (!browser) console.error('No browser could be found or installed: the tests that need one will fail.')
build()

const folder = mkdtempSync(join(tmpdir(), 'overwinter-test-'))
const results = join(folder, 'results.json')
const patterns = process.argv.slice(2)
const env = { ...process.env, ...(browser ? { OVERWINTER_CHROMIUM: browser } : {}) }
const code = run(
  process.execPath,
  [
    'node_modules/vitest/vitest.mjs',
    'run',
    '--reporter=dot',
    '--reporter=json',
    `--outputFile.json=${results}`,
    ...patterns,
  ],
  { env },
)
const counts = readCounts()
rmSync(folder, { recursive: true, force: true })
console.log(
  `${counts.passed} passed, ${counts.failed} failed${counts.skipped ? `, ${counts.skipped} skipped` : ''}`,
)
if (patterns.length > 0) process.exit(code)

const checks = [
  ['lint', ['node_modules/@biomejs/biome/bin/biome', 'check', '--error-on-warnings', '.']],
  ['promises and switches', ['node_modules/eslint/bin/eslint.js', 'src', 'test', 'benchmarks']],
  ['types', ['node_modules/typescript/bin/tsc', '--noEmit']],
  ['types of the pages', ['node_modules/typescript/bin/tsc', '-p', 'src/web/tsconfig.json']],
  ['layers', ['scripts/layers.mjs']],
  ['unused code', ['node_modules/knip/bin/knip.js']],
  ['generated files', ['node_modules/tsx/dist/cli.mjs', 'scripts/generate.ts', '--check']],
]
const broken = checks.filter(([name, args]) => {
  const failed = run(process.execPath, args) !== 0
  console.error(`${failed ? 'not good' : 'good'}: ${name}`)
  return failed
})
process.exit(code !== 0 || counts.passed === 0 || broken.length > 0 ? 1 : 0)

function readCounts() {
  try {
    const report = JSON.parse(readFileSync(results, 'utf8'))
    // A file that cannot be loaded has no tests to count, and is a failure all the same.
    const unloaded = report.testResults.filter(
      (f) => f.status === 'failed' && f.assertionResults.length === 0,
    ).length
    return {
      passed: report.numPassedTests,
      failed: report.numFailedTests + unloaded,
      skipped: report.numPendingTests + report.numTodoTests,
    }
  } catch {
    return { passed: 0, failed: 1, skipped: 0 }
  }
}
