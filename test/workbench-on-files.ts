/** The tests of one page of the workbench: a browser on example files, which are as they were before each test. */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect } from 'vitest'
import { openWorkbench, type Workbench } from './workbench.ts'

type Options = Parameters<Workbench['open']>[1]

/** What stands in the address before the name of the file, and what shows that the page is there. */
interface Place {
  readonly address: string
  readonly ready: (page: Page) => Locator
}

/** Registers what a test file does before and after; the first of `files` is meant where none is named. */
export function onFiles(files: readonly string[], { address, ready }: Place) {
  const [usual] = files
  const originals = Object.fromEntries(
    files.map((name) => [name, readFileSync(join('examples', name), 'utf8')]),
  )
  let bench: Workbench
  let page: Page
  beforeAll(async () => {
    bench = await openWorkbench({ examples: files })
  })
  afterEach(async () => {
    await page.close()
    for (const [name, text] of Object.entries(originals)) writeFileSync(join(bench.folder, name), text)
  })
  afterAll(async () => {
    await bench.close()
    expect([...bench.strangers]).toEqual([])
    expect(bench.complaints).toEqual([])
  })
  const onDisk = (name = usual) => readFileSync(join(bench.folder, name), 'utf8')
  return {
    originals,
    onDisk,
    /** The page of the test that is running. */
    get page() {
      return page
    },
    async open(name = usual, options: Options = {}): Promise<void> {
      page = await bench.open(`${address}${name}`, options)
      await ready(page).waitFor()
    },
    untilOnDisk: (holds: (text: string) => boolean, name = usual) =>
      expect.poll(() => holds(onDisk(name)), { timeout: 15_000 }).toBe(true),
    field: (path: string) => page.locator(`[data-path="${path}"]`),
    figure: (title: string) => page.getByRole('figure', { name: title, exact: true }),
    undo: () => page.getByRole('button', { name: 'Undo', exact: true }).click(),
    /** The texts of the numbers behind a figure, row by row. */
    numbersOf: (title: string): Promise<string[][]> =>
      page
        .getByRole('figure', { name: title, exact: true })
        .locator('.figure-foot tbody tr')
        .evaluateAll((rows) => rows.map((row) => [...row.children].map((cell) => cell.textContent ?? ''))),
  }
}

export const commentsOf = (text: string): string[] =>
  text.split('\n').flatMap((line) => /(?:^|\s)#.*$/.exec(line)?.[0].trim() ?? [])
