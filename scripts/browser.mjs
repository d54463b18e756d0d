// Finds a Chromium for the tests that need a real browser, or brings one: an installed one, else Debian's package when
// root, else playwright's own download. Prints the path and returns it; null where there is none to be had.
import { spawnSync } from 'node:child_process'
import { existsSync, readdirSync } from 'node:fs'
import { homedir } from 'node:os'
import { join } from 'node:path'
import { run } from './prepare.mjs'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']
const MAC = '/Applications/Chromium.app/Contents/MacOS/Chromium'

function onPath() {
  for (const folder of (process.env.PATH ?? '').split(':'))
    for (const name of NAMES) if (folder && existsSync(join(folder, name))) return join(folder, name)
  return existsSync(MAC) ? MAC : null
}

function fromPlaywright() {
  const folder = process.env.PLAYWRIGHT_BROWSERS_PATH ?? join(homedir(), '.cache', 'ms-playwright')
  if (!existsSync(folder)) return null
  for (const entry of readdirSync(folder))
    for (const tail of ['chrome-linux/chrome', 'chrome-linux64/chrome', 'chrome-linux/headless_shell'])
      if (existsSync(join(folder, entry, tail))) return join(folder, entry, tail)
  return null
}

export function findBrowser() {
  const set = process.env.OVERWINTER_CHROMIUM
  if (set && existsSync(set)) return set
  return onPath() ?? fromPlaywright()
}

export function installBrowser() {
  const found = findBrowser()
  if (found) return found
  console.error('Installing a browser for the tests …')
  const quiet = {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  }
  if (process.getuid?.() === 0 && spawnSync('apt-get', ['--version']).status === 0) {
    run('apt-get', ['update', '-qq'], quiet)
    run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet)
  } else run(process.execPath, ['node_modules/playwright-core/cli.js', 'install', 'chromium'], quiet)
  return findBrowser()
}
