import { useEffect, useRef } from 'react'

/** Brings a row into view and the focus to its head when it opens, wherever it was opened from. */
export function useArrival(isOpen: boolean) {
  const ref = useRef<HTMLElement>(null)
  useEffect(() => {
    if (!isOpen) return
    ref.current?.querySelector('button')?.focus({ preventScroll: true })
    ref.current?.scrollIntoView({ block: 'start' })
  }, [isOpen])
  return ref
}
