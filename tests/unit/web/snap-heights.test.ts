import { expect, it } from 'vitest'
import { nearestSnap, SNAPS, snapHeightPx, stepSnap } from '../../../web/ui/snap-heights.ts'

it('gives the sheet three heights, each above the last, the highest leaving some map', () => {
  for (const roomPx of [480, 640, 760]) {
    const [low = 0, half = 0, full = 0] = SNAPS.map((snap) => snapHeightPx(snap, roomPx))
    expect(low).toBeLessThan(half)
    expect(half).toBeLessThan(full)
    expect(full).toBeLessThan(roomPx)
  }
})

it('settles a sheet let go at the nearest height', () => {
  for (const snap of SNAPS) expect(nearestSnap(snapHeightPx(snap, 700) + 9, 700)).toBe(snap)
})

it('steps up and down and stays at the ends', () => {
  expect([stepSnap('low', 1), stepSnap('full', 1), stepSnap('low', -1)]).toEqual([
    'half',
    'full',
    'low',
  ])
})
