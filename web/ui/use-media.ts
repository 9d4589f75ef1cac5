import { useSyncExternalStore } from 'react'

/** Whether a media query holds now. */
export function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (listener) => {
      const list = window.matchMedia(query)
      list.addEventListener('change', listener)
      return () => list.removeEventListener('change', listener)
    },
    () => window.matchMedia(query).matches,
  )
}

/** Below this width the desk becomes a bottom sheet. */
export const PHONE = '(max-width: 760px)'

/** The system asks for stillness. */
export const LESS_MOTION = '(prefers-reduced-motion: reduce)'

/** The device is worked by finger, as are those that have a camera at hand. */
export const TOUCH = '(pointer: coarse)'
