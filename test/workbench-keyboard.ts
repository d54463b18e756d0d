/** Somebody without a mouse, in front of a page: where the focus is by name, whether it can be seen, and Tab to a name. */
import type { CDPSession, Page } from 'playwright-core'

export interface Hands {
  readonly focus: () => Promise<Focus>
  /** Presses Tab until the focus is on what assistive technology calls so. Whatever is passed must be seen. */
  readonly tabTo: (name: string | RegExp, key?: 'Tab' | 'Shift+Tab') => Promise<Focus>
  /** Tabs to a field, which selects what stands in it, and types over it. */
  readonly fill: (name: string | RegExp, text: string) => Promise<void>
  /** Tabs to a button, link or the head of what folds, and presses Enter. */
  readonly press: (name: string | RegExp) => Promise<void>
  /** As often as it takes, on what has the focus. */
  readonly keys: (...keys: readonly string[]) => Promise<void>
}

export interface Focus {
  readonly name: string
  readonly role: string
  /** Of a slider, what is said of its value. */
  readonly valueText: string | null
  /** What keeps it from being seen; null where it is seen. */
  readonly unseen: string | null
  /** The focus did not move since it was asked for last. */
  readonly isSame: boolean
}

/** More stops than any page has. */
const MOST_STOPS = 250

export async function handsOn(page: Page): Promise<Hands> {
  const browser = await page.context().newCDPSession(page)
  await browser.send('Accessibility.enable')
  const focus = () => focusNow(browser)
  const tabTo: Hands['tabTo'] = async (name, key = 'Tab') => {
    const passed: string[] = []
    await focus()
    for (let stop = 0; stop < MOST_STOPS; stop++) {
      await page.keyboard.press(key)
      const now = await focus()
      const told = `${now.role} “${now.name}”`
      if (now.isSame) throw new Error(`${key} does not lead away from ${told}, on the way to ${name}`)
      if (now.unseen !== null) throw new Error(`The focus cannot be seen on ${told}: ${now.unseen}`)
      if (typeof name === 'string' ? now.name === name : name.test(now.name)) return now
      passed.push(told)
    }
    throw new Error(`${key} never led to ${name}. It passed ${[...new Set(passed)].join(', ')}`)
  }
  const keys = async (...keys: readonly string[]) => {
    for (const key of keys) await page.keyboard.press(key)
  }
  return {
    focus,
    tabTo,
    keys,
    async fill(name, text) {
      await tabTo(name)
      await page.keyboard.type(text)
    },
    async press(name) {
      await tabTo(name)
      await page.keyboard.press('Enter')
    },
  }
}

async function focusNow(browser: CDPSession): Promise<Focus> {
  const { result } = await browser.send('Runtime.evaluate', { expression: 'document.activeElement' })
  const { objectId } = result
  if (objectId === undefined) throw new Error('nothing has the focus, not even the page')
  const looked = await browser.send('Runtime.callFunctionOn', {
    objectId,
    functionDeclaration: lookAt.toString(),
    returnByValue: true,
  })
  const { nodes } = await browser.send('Accessibility.getPartialAXTree', { objectId, fetchRelatives: false })
  return { name: nodes[0]?.name?.value ?? '', role: nodes[0]?.role?.value ?? '', ...looked.result.value }
}

/** Runs in the page, on the element that has the focus. */
function lookAt(this: HTMLElement): Omit<Focus, 'name' | 'role'> {
  const memory = window as unknown as { focusedLast?: Element }
  const isSame = memory.focusedLast === this && this !== document.body
  memory.focusedLast = this
  const valueText = this.getAttribute('aria-valuetext')
  // Between its last stop and its first, the page as a whole has the focus.
  if (this === document.body) return { valueText, isSame, unseen: null }
  const { outlineStyle, outlineWidth, outlineColor, visibility } = getComputedStyle(this)
  const box = this.getBoundingClientRect()
  const isOutlined =
    outlineStyle !== 'none' && Number.parseFloat(outlineWidth) > 0 && !/, 0\)$/.test(outlineColor)
  const shown_px = {
    across: Math.min(box.right, innerWidth) - Math.max(box.left, 0),
    down: Math.min(box.bottom, innerHeight) - Math.max(box.top, 0),
  }
  const top = document.elementFromPoint(
    (Math.max(box.left, 0) + Math.min(box.right, innerWidth)) / 2,
    Math.max(box.top, 0) + Math.min(shown_px.down / 2, 10),
  )
  const isCovered = top?.closest('.verdict') != null && !top.contains(this)
  const where = `${Math.round(box.left)}, ${Math.round(box.top)}, ${Math.round(box.width)} × ${Math.round(box.height)}`
  const unseen =
    visibility === 'hidden'
      ? 'it is hidden'
      : !isOutlined
        ? `its outline is ${outlineStyle} ${outlineWidth} ${outlineColor}`
        : shown_px.across < Math.min(box.width, 4) || shown_px.down < Math.min(box.height, 4)
          ? `it lies outside the window, at ${where}`
          : isCovered
            ? `the verdict lies over it, at ${where}`
            : null
  return { valueText, isSame, unseen }
}
