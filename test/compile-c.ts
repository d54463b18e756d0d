/** The system's compilers, for tests of C that the program writes. */
import { spawnSync } from 'node:child_process'
import { copyFileSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'

const STRICT = ['-Wall', '-Wextra', '-Werror', '-pedantic', '-O2']

/** Why a compiler cannot be used; null where it answers. */
export function missing(compiler: 'cc' | 'c++'): string | null {
  const { status, error } = spawnSync(compiler, ['--version'])
  return status === 0 ? null : `there is no "${compiler}" here (${error?.message ?? `exit code ${status}`})`
}

/** A fresh folder with `files`, name to text, and the driver. */
export function folderWith(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'overwinter-handoff-'))
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text)
  copyFileSync(resolve('test/handoff-driver.c'), join(folder, 'driver.c'))
  return folder
}

/** Compiles C11 without a single warning; returns what the compiler has to say, which should be nothing. */
export function compileC(folder: string, sources: readonly string[], program: string): string {
  return run(folder, 'cc', ['-std=c11', ...STRICT, ...sources, '-o', program])
}

export function compileCpp(folder: string, source: string): string {
  return run(folder, 'c++', ['-std=c++11', ...STRICT, '-fsyntax-only', source])
}

function run(folder: string, command: string, options: readonly string[]): string {
  const { status, stderr } = spawnSync(command, options, { cwd: folder, encoding: 'utf8' })
  return status === 0 ? stderr : `exit code ${status}\n${stderr}`
}
