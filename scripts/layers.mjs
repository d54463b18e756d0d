// Holds every folder to what it may import. The table is `layers.json`; the cruise must have seen every source file,
// so that a parser that reads nothing cannot pass.
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { cruise } from 'dependency-cruiser'
import extractTSConfig from 'dependency-cruiser/config-utl/extract-ts-config'

const root = process.argv[2] ?? dirname(dirname(fileURLToPath(import.meta.url)))
process.chdir(root)

/** Folder → what it may import: folders of ours, and packages. */
const table = JSON.parse(readFileSync(new URL('layers.json', import.meta.url), 'utf8'))

function sources(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name)
    if (entry.isDirectory()) return sources(path)
    return /\.tsx?$/.test(entry.name) && !/\.(test|contract)\.tsx?$/.test(entry.name) ? [path] : []
  })
}

const folders = Object.keys(table).sort((a, b) => b.length - a.length)
const folderOf = (path) => folders.find((folder) => path.startsWith(`src/${folder}/`)) ?? null

const { output } = await cruise(
  ['src'],
  {
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '\\.(test|contract)\\.tsx?$' },
    enhancedResolveOptions: { extensions: ['.ts', '.tsx', '.js', '.mjs', '.json'] },
  },
  undefined,
  { tsConfig: extractTSConfig('tsconfig.json') },
)

const files = sources('src')
const seen = new Set(output.modules.map((module) => module.source))
const unseen = files.filter((file) => !seen.has(file))
const problems = unseen.map((file) => `${file}: the layer check did not see this file`)

for (const module of output.modules) {
  if (!module.source.startsWith('src/')) continue
  const from = folderOf(module.source)
  if (from === null) {
    problems.push(`${module.source}: its folder is not in the table (scripts/layers.json)`)
    continue
  }
  for (const dependency of module.dependencies) {
    const to = dependency.resolved
    if (dependency.circular) problems.push(`${module.source}: imports ${to} in a circle`)
    if (to.startsWith('src/')) {
      const folder = folderOf(to)
      if (folder !== from && !table[from].folders.includes(folder))
        problems.push(`${module.source}: ${from}/ may not import ${folder}/ (${to})`)
    } else if (dependency.coreModule) {
      if (!table[from].packages.includes('node'))
        problems.push(`${module.source}: ${from}/ may not import Node's own ${dependency.module}`)
    } else if (to.endsWith('.css')) {
      // Style sheets lie beside what they dress.
    } else if (
      !table[from].packages.some(
        (name) => dependency.module === name || dependency.module.startsWith(`${name}/`),
      )
    )
      problems.push(`${module.source}: ${from}/ may not import the package ${dependency.module}`)
  }
}

for (const problem of problems) console.error(problem)
console.error(`layers: ${files.length} files, ${problems.length} problems`)
process.exit(problems.length > 0 ? 1 : 0)
