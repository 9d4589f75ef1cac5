import type { Position } from '#domain/feeder/geometry.ts'
import { shareValue, useShared } from '../device/shared-value.ts'

/** Where the map is asked to go; a new object each time, so that the same place can be asked again. */
export interface CameraWish {
  readonly at: Position
  /** Zoomed in to at least this; the map never zooms out for a wish. */
  readonly leastZoom: number
}

const wish = shareValue<CameraWish | null>(null)

/** Brings the map to a place. Without motion where the system asks for none. */
export function showPlace(at: Position, leastZoom = 16): void {
  wish.set({ at, leastZoom })
}

export function useCameraWish(): CameraWish | null {
  return useShared(wish)
}
