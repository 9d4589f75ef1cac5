import { useSyncExternalStore } from 'react'

/** What each query said last on screen. */
const saidOnScreen = new Map<string, boolean>()

/**
 * Whether a media query holds now. While the page is printed it stays as it was on screen: a sheet of
 * paper has another width than the window, and what is open must not be drawn anew for it.
 */
export function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (listener) => {
      const list = window.matchMedia(query)
      list.addEventListener('change', listener)
      return () => list.removeEventListener('change', listener)
    },
    () => onScreen(query),
  )
}

function onScreen(query: string): boolean {
  const said = saidOnScreen.get(query)
  if (said !== undefined && window.matchMedia('print').matches) return said
  const says = window.matchMedia(query).matches
  saidOnScreen.set(query, says)
  return says
}

/** Below this width the desk becomes a bottom sheet. */
export const PHONE = '(max-width: 760px)'

/** The system asks for stillness. */
export const LESS_MOTION = '(prefers-reduced-motion: reduce)'

/** The device is worked by finger, as are those that have a camera at hand. */
export const TOUCH = '(pointer: coarse)'
