export const SNAPS = ['low', 'half', 'full'] as const
export type Snap = (typeof SNAPS)[number]

const LOW_PX = 148
/** Of the map that stays visible above a sheet at full height. */
const LEFT_FREE_PX = 56

/** Height of the sheet in pixels for a room of this height. */
export function snapHeightPx(snap: Snap, roomPx: number): number {
  if (snap === 'low') return Math.min(LOW_PX, roomPx)
  if (snap === 'half') return Math.round(roomPx * 0.52)
  return Math.max(roomPx - LEFT_FREE_PX, LOW_PX)
}

/** The height to which a sheet let go at this height settles. */
export function nearestSnap(heightPx: number, roomPx: number): Snap {
  const gap = (snap: Snap) => Math.abs(snapHeightPx(snap, roomPx) - heightPx)
  return SNAPS.reduce((best, snap) => (gap(snap) < gap(best) ? snap : best))
}

/** One height up (1) or down (−1); stays at the ends. */
export function stepSnap(snap: Snap, step: 1 | -1): Snap {
  return SNAPS[SNAPS.indexOf(snap) + step] ?? snap
}
