import { useState } from 'react'

export const LEAST_DESK_PX = 380
export const MOST_DESK_PX = 440
const STORED = 'crossarm.desk-width'

function clamp(widthPx: number): number {
  return Math.max(LEAST_DESK_PX, Math.min(MOST_DESK_PX, widthPx))
}

/** Width of the desk in pixels, kept on this device. */
export function useDeskWidth(): [number, (widthPx: number) => void] {
  const [widthPx, setWidthPx] = useState(() => {
    const kept = Number(window.localStorage.getItem(STORED))
    return clamp(kept || LEAST_DESK_PX + 20)
  })
  const keep = (next: number) => {
    const fitted = clamp(next)
    window.localStorage.setItem(STORED, String(fitted))
    setWidthPx(fitted)
  }
  return [widthPx, keep]
}
