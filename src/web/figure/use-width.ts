/** The width, in CSS pixels, that a drawing has: it is drawn for it, so that letters stay letters on a telephone. */
import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

export function useWidth<E extends Element = HTMLDivElement>(
  least = 280,
): readonly [RefObject<E | null>, number] {
  const ref = useRef<E>(null)
  const [width, setWidth] = useState(720)
  useLayoutEffect(() => {
    const element = ref.current
    if (element === null) return
    const measure = () => setWidth(Math.max(least, Math.floor(element.getBoundingClientRect().width)))
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(element)
    return () => observer.disconnect()
  }, [least])
  return [ref, width]
}
