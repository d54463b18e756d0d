/** Timing with a warm-up and several rounds: the least and the spread, for ratios within one run. */
export interface Timed {
  readonly name: string
  readonly best_s: number
  readonly worst_s: number
}

/** Runs `rounds` times after one warm-up; several contenders are interleaved, so that all meet the same machine. */
export async function interleaved(
  rounds: number,
  contenders: Readonly<Record<string, () => number | Promise<number>>>,
): Promise<Timed[]> {
  const times = new Map<string, number[]>(Object.keys(contenders).map((name) => [name, []]))
  for (const run of Object.values(contenders)) await run()
  for (let round = 0; round < rounds; round++)
    for (const [name, run] of Object.entries(contenders)) times.get(name)?.push(await run())
  return [...times].map(([name, all]) => ({ name, best_s: Math.min(...all), worst_s: Math.max(...all) }))
}

/** Seconds that `work` takes. */
export async function seconds(work: () => unknown): Promise<number> {
  const began = performance.now()
  await work()
  return (performance.now() - began) / 1000
}

export function row(...cells: (string | number)[]): void {
  const [first, ...rest] = cells.map((cell) => (typeof cell === 'number' ? cell.toPrecision(3) : cell))
  console.log(`  ${first.padEnd(58)}${rest.map((cell) => `  ${cell.padStart(12)}`).join('')}`)
}
