import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

/**
 * Width of an element in CSS pixels, kept as it changes: drawings are laid out for the room there is,
 * so that lines and lettering keep their size.
 *
 * @param first - until the element stands on the page
 */
export function useWidth<T extends Element>(
  first: number,
): readonly [ref: RefObject<T | null>, width: number] {
  const ref = useRef<T>(null)
  const [width, setWidth] = useState(first)
  useLayoutEffect(() => {
    const element = ref.current
    if (element === null) return undefined
    const measure = (room: number): void => {
      if (room > 0) setWidth(Math.floor(room))
    }
    measure(element.getBoundingClientRect().width)
    const observer = new ResizeObserver(([entry]) => measure(entry?.contentRect.width ?? 0))
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [ref, width]
}
