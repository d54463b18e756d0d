/** So many at a time; the others wait in the order of their coming. */
export interface Turns {
  /** Resolves when it is one's turn, with what ends it; null where the signal came first. */
  take(signal: AbortSignal, onWaiting: () => void): Promise<(() => void) | null>
}

export function turnsFor(atOnce: number): Turns {
  let free = atOnce
  const waiting: (() => void)[] = []
  const give = () => {
    const next = waiting.shift()
    if (next === undefined) free++
    else next()
  }
  const once = () => {
    let isGiven = false
    return () => {
      if (!isGiven) give()
      isGiven = true
    }
  }
  return {
    async take(signal, onWaiting) {
      if (signal.aborted) return null
      if (free > 0) {
        free--
        return once()
      }
      onWaiting()
      return new Promise((resolve) => {
        const mine = () => {
          signal.removeEventListener('abort', leave)
          resolve(once())
        }
        const leave = () => {
          waiting.splice(waiting.indexOf(mine), 1)
          resolve(null)
        }
        waiting.push(mine)
        signal.addEventListener('abort', leave, { once: true })
      })
    },
  }
}
