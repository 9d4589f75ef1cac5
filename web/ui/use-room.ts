import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

export interface Room {
  readonly widthPx: number
  readonly heightPx: number
}

/** Size of an element, kept true as it changes. */
export function useRoom<Element extends HTMLElement>(): [RefObject<Element | null>, Room] {
  const ref = useRef<Element>(null)
  const [room, setRoom] = useState<Room>({ widthPx: 0, heightPx: 0 })
  useLayoutEffect(() => {
    const element = ref.current
    if (!element) return
    const measure = () => setRoom({ widthPx: element.clientWidth, heightPx: element.clientHeight })
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [ref, room]
}
