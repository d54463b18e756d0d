// What every entry needs first, on Node's own modules only: packages installed, and the program built when its
// sources are newer than what was built.
import { spawnSync } from 'node:child_process'
import { existsSync, readdirSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const ROOT = dirname(dirname(fileURLToPath(import.meta.url)))

/** Runs a command in the project's folder, its output shown; returns the exit code. */
export function run(command, args, options = {}) {
  const { status, error } = spawnSync(command, args, { cwd: ROOT, stdio: 'inherit', ...options })
  if (error) console.error(`${command} could not be started: ${error.message}`)
  return status ?? 1
}

export function checkNode() {
  const major = Number(process.versions.node.split('.')[0])
  if (major >= 20) return
  console.error(
    `Overwinter needs Node 20 or newer; this is ${process.version}. Install a newer Node and try again.`,
  )
  process.exit(2)
}

export function installPackages() {
  const installed = join(ROOT, 'node_modules', '.package-lock.json')
  const wanted = join(ROOT, 'package-lock.json')
  if (existsSync(installed) && statSync(installed).mtimeMs >= statSync(wanted).mtimeMs) return
  console.error('Installing packages …')
  const code = run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    stdio: ['ignore', 'ignore', 'inherit'],
  })
  if (code !== 0) {
    console.error('npm could not install the packages. Is the npm registry reachable? Try `npm ci` by hand.')
    process.exit(1)
  }
}

/** Newest change below a folder, in milliseconds. */
function newest(folder) {
  let latest = 0
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name)
    latest = Math.max(latest, entry.isDirectory() ? newest(path) : statSync(path).mtimeMs)
  }
  return latest
}

export function build() {
  const built = [join(ROOT, 'dist', 'cli', 'main.js'), join(ROOT, 'dist', 'web', 'index.html')]
  const changed = newest(join(ROOT, 'src'))
  if (built.every((file) => existsSync(file) && statSync(file).mtimeMs >= changed)) return
  console.error('Building …')
  const steps = [
    ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.build.json'],
    ['scripts/bundle.mjs'],
    ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn'],
  ]
  for (const step of steps) {
    const code = run(process.execPath, step)
    if (code !== 0) process.exit(code)
  }
}
