import { describe, expect, it } from 'vitest'
import { feetAtSpot, moved, onNearestPerch, STEP_M } from '../../../web/birds/bird-place.ts'
import { framesOf, spotOf } from '../../../web/birds/view-frame.ts'
import { ARM, drawnPart, POLE } from './drawing-parts.ts'

const PARTS = [POLE, ARM, drawnPart('bushing', [0.5, 0.1, -0.1])]
const [front, side] = framesOf(PARTS, 380, 60)
if (!front || !side) throw new Error('Expected two views.')

describe('a bird that is dragged', () => {
  it('holds on to the arm where it is let go near it, at the depth of the arm', () => {
    const place = onNearestPerch(PARTS, front, [0.7, 0, -0.05])
    expect(place.partId).toBe('arm')
    expect(place.feetAt[0]).toBeCloseTo(0.7, 6)
    expect(place.feetAt[1]).toBeCloseTo(0.1, 6)
    expect(place.feetAt[2]).toBeCloseTo(-0.1, 6)
  })

  it('stands on the top of a pole, never half-way up it', () => {
    const place = onNearestPerch([POLE], front, [0, 0, 0.05])
    expect(place).toEqual({ feetAt: [0, 0, 0], partId: 'pole' })
    expect(onNearestPerch([POLE], front, [0, 0, -2]).partId).toBeNull()
  })

  it('stays in the air where nothing is near that it could stand on', () => {
    expect(onNearestPerch(PARTS, front, [0.5, 0, 0.9])).toEqual({
      feetAt: [0.5, 0, 0.9],
      partId: null,
    })
  })

  it('goes where the pointer is, and keeps what the view does not show', () => {
    const feet = feetAtSpot(front, [0.2, 0.4, 0], spotOf(front, [-0.6, 0, 0.3]))
    expect(feet[0]).toBeCloseTo(-0.6, 9)
    expect(feet[1]).toBe(0.4)
    expect(feet[2]).toBeCloseTo(0.3, 9)
  })

  it('moves two inches by an arrow key: across the line in front, along it from the side', () => {
    expect(STEP_M / 0.0254).toBeCloseTo(2, 9)
    expect(moved(front, [0, 0, 0], STEP_M, 0)).toEqual([STEP_M, 0, 0])
    expect(moved(side, [0, 0, 0], STEP_M, 0)).toEqual([0, STEP_M, 0])
    expect(moved(side, [0, 0, 0], 0, -STEP_M)).toEqual([0, 0, -STEP_M])
  })
})
