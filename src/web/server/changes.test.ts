import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'

class Source {
  static open: Source[] = []
  onmessage: ((event: { data: string }) => void) | null = null
  onopen: (() => void) | null = null
  onerror: (() => void) | null = null
  constructor() {
    Source.open.push(this)
  }
  close() {
    Source.open = Source.open.filter((each) => each !== this)
  }
}

let page: EventTarget & { hidden: boolean }
const show = (isShown: boolean) => {
  page.hidden = !isShown
  page.dispatchEvent(new Event('visibilitychange'))
}
beforeEach(() => {
  Source.open = []
  page = Object.assign(new EventTarget(), { hidden: false })
  vi.stubGlobal('document', page)
  vi.stubGlobal('EventSource', Source)
})
afterEach(() => vi.unstubAllGlobals())

describe('the stream of changes', () => {
  it('is open while the page is seen, and what was missed is looked up when it is seen again', async () => {
    const { watchFiles } = await import('./changes.ts')
    const changes: unknown[] = []
    let missed = 0
    const stop = watchFiles(
      (change) => changes.push(change),
      () => missed++,
    )
    expect(Source.open).toHaveLength(1)
    Source.open[0].onopen?.()
    Source.open[0].onmessage?.({ data: '{"file":"a"}' })
    expect([changes, missed]).toEqual([[{ file: 'a' }], 0])
    show(false)
    expect(Source.open).toHaveLength(0)
    show(true)
    show(true)
    expect(Source.open).toHaveLength(1)
    Source.open[0].onopen?.()
    expect(missed).toBe(1)
    // A server that was gone, too.
    Source.open[0].onerror?.()
    Source.open[0].onopen?.()
    expect(missed).toBe(2)
    stop()
    show(true)
    expect(Source.open).toHaveLength(0)
  })
})
