/**
 * Frames a second while a recording of 100 million samples is moved and zoomed in the browser, at widths from the whole to
 * single samples. Beside it stands the page's own time a frame, of the 16.7 ms that there are: headless browsers draw by the
 * processor, so what is left of a frame is theirs.
 */
import { mkdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { identify } from '../src/store/fingerprint.ts'
import { openWorkbench } from '../test/workbench.ts'
import { row } from './measure.ts'
import { longRecording } from './recording.ts'

const SAMPLES = 100_000_000
const RATE_Hz = 50_000
const SOURCE = 'long.f32'
const FRAMES = 240
const WIDTHS_s = [1500, 150, 15, 1.5, 0.15, 0.005]
/** Pixels a frame: across the window in two thirds of a second. */
const STEP_PX = 20
const ZOOM = 18

interface Frames {
  /** Between frames, and within our own code, in ms, rising. */
  readonly between: readonly number[]
  readonly own: readonly number[]
}

/** Turns the wheel once a frame, sideways or up and down by turns, and takes the times. */
function playFrames({ frames, dx, dy }: { frames: number; dx: number; dy: number }): Promise<Frames> {
  const field = document.querySelector('.trace-field') as HTMLElement
  const { left, width } = field.getBoundingClientRect()
  const between: number[] = []
  const own: number[] = []
  const timed = window as unknown as { ownTime: number }
  return new Promise((resolve) => {
    let last = 0
    let count = 0
    const frame = (now: number) => {
      if (count > 0) {
        between.push(now - last)
        own.push(timed.ownTime)
      }
      timed.ownTime = 0
      last = now
      const began = performance.now()
      const sign = count < frames / 2 ? 1 : -1
      const turn = { deltaX: sign * dx, deltaY: sign * dy, ctrlKey: dy !== 0, clientX: left + width / 2 }
      field.dispatchEvent(new WheelEvent('wheel', { ...turn, bubbles: true, cancelable: true }))
      timed.ownTime += performance.now() - began
      if (count++ < frames)
        (window as unknown as { plainFrame: typeof requestAnimationFrame }).plainFrame(frame)
      else resolve({ between: between.sort((a, b) => a - b), own: own.sort((a, b) => a - b) })
    }
    requestAnimationFrame(frame)
  })
}

/** Before the page loads: what its own frames take is added up. */
function timeFrames(): void {
  const timed = window as unknown as { ownTime: number; plainFrame: typeof requestAnimationFrame }
  timed.ownTime = 0
  timed.plainFrame = window.requestAnimationFrame.bind(window)
  window.requestAnimationFrame = (callback) =>
    timed.plainFrame((now) => {
      const began = performance.now()
      callback(now)
      timed.ownTime += performance.now() - began
    })
}

export async function benchOfWorkbench(): Promise<void> {
  const workbench = await openWorkbench({ files: { [SOURCE]: new Uint8Array(8) } })
  try {
    // The recording is put where its source would be kept, so that nothing has to be imported.
    const kept = join(workbench.folder, '.overwinter', 'recordings')
    mkdirSync(kept, { recursive: true })
    const { fingerprint } = await identify(join(workbench.folder, SOURCE), { rate_Hz: RATE_Hz })
    longRecording(join(kept, fingerprint), SAMPLES).close()
    row(`moving ${SAMPLES / 1e6} million samples`, 'frames a s', '95 % within', 'own, median', 'own, 95 %')
    const page = await workbench.open('/')
    // The loader that runs this file wraps functions in a helper of its own.
    await page.addInitScript('globalThis.__name = (value) => value')
    await page.addInitScript(timeFrames)
    for (const width_s of WIDTHS_s) {
      const from = SAMPLES / RATE_Hz / 4
      await page.goto(
        `${workbench.url}/bench?recording=${SOURCE}&rate=${RATE_Hz}&from=${from}&to=${from + width_s}`,
      )
      await page.getByRole('application').waitFor()
      await page.waitForTimeout(1000)
      const name = `${width_s} s in sight`
      frameRow(`${name}, moved`, await page.evaluate(playFrames, { frames: FRAMES, dx: STEP_PX, dy: 0 }))
      frameRow(`${name}, zoomed`, await page.evaluate(playFrames, { frames: FRAMES / 4, dx: 0, dy: -ZOOM }))
    }
  } finally {
    await workbench.close()
    rmSync(workbench.folder, { recursive: true, force: true })
  }
}

function frameRow(name: string, { between, own }: Frames): void {
  const at = (sorted: readonly number[], share: number) => sorted[Math.floor(share * (sorted.length - 1))]
  const mean = between.reduce((sum, each) => sum + each, 0) / between.length
  const ms = (time: number) => `${time.toFixed(1)} ms`
  row(name, (1000 / mean).toFixed(1), ms(at(between, 0.95)), ms(at(own, 0.5)), ms(at(own, 0.95)))
}
