import { describe, expect, it } from 'vitest'
import { outlineScale } from '../../../web/birds/bird-outline.ts'
import { drawnPairs, numbered } from '../../../web/birds/drawn-pairs.ts'
import { gapInUnits } from '../../../web/birds/gap-words.ts'
import { pairMarks, viewOfPair } from '../../../web/birds/pair-labels.ts'
import { shapeOf } from '../../../web/birds/part-shape.ts'
import { phaseLetters } from '../../../web/birds/phase-letters.ts'
import { scaleBar } from '../../../web/birds/scale-bar.ts'
import { framesOf, spotOf } from '../../../web/birds/view-frame.ts'
import { ARM, drawnPair, drawnPart, POLE } from './drawing-parts.ts'

const [front, side] = framesOf([POLE, ARM], 380, 60)
if (!front || !side) throw new Error('Expected two views.')

describe('the scale of the drawing', () => {
  it('is the same in both views and in every direction', () => {
    expect(side.pxPerM).toBe(front.pxPerM)
    const [a, b] = [spotOf(front, [0, 0, 0]), spotOf(front, [1, 0, -1])]
    expect(b.x - a.x).toBeCloseTo(front.pxPerM, 9)
    expect(b.y - a.y).toBeCloseTo(front.pxPerM, 9)
  })

  it('shows the whole arm inside the label margins', () => {
    for (const end of [ARM.from, ARM.to]) {
      const { x } = spotOf(front, end)
      expect(x).toBeGreaterThan(60)
      expect(x).toBeLessThan(380 - 60)
    }
  })

  it('lets wires run to its edges and no farther', () => {
    const wire = drawnPart('wire', [0.2, -1.8, 0.2], { kind: 'conductor', to: [0.2, 1.8, 0.2] })
    const { from, to } = shapeOf(wire, side)
    expect(from.x).toBeCloseTo(0, 6)
    expect(to.x).toBeCloseTo(380, 6)
    expect(from.y).toBeCloseTo(spotOf(side, wire.from).y, 9)
  })

  it('is told by a bar that fits, in the unit of the person', () => {
    const us = scaleBar(80, 120, 'us')
    expect(us).toEqual({ words: '4 ft', lengthM: 4 * 0.3048 })
    expect(scaleBar(80, 120, 'metric').words).toBe('1 m')
    expect(scaleBar(80, 60, 'us').words).toBe('2 ft')
  })

  it('draws the eagle of the guidance 60 in wide at the wrists and 40 in high', () => {
    // 60 in and 40 in: APLIC 2006, from memory.
    const { across, up } = outlineScale({ breadthM: 60 * 0.0254, heightM: 40 * 0.0254 }, 100)
    expect(across * 200).toBeCloseTo(152.4, 9)
    expect(up * 100).toBeCloseTo(101.6, 9)
  })
})

describe('dimension lines', () => {
  const a = drawnPart('a', [-0.4, 0, -1])
  const b = drawnPart('b', [-0.1, 0, -1], { potential: 'grounded' })
  const far = drawnPart('far', [-0.4, 0.5, -1], { potential: 'grounded' })

  it('stand in the view in which the gap is longest', () => {
    expect(viewOfPair(drawnPair(a, b))).toBe('front')
    expect(viewOfPair(drawnPair(a, far))).toBe('side')
  })

  it('start at the surface of a thick part, not at its middle', () => {
    const tank = drawnPart('tank', [-0.1, 0, -1], { radiusM: 0.2, potential: 'grounded' })
    const [mark] = pairMarks(numbered([drawnPair(a, tank)]), front)
    const lengthPx = Math.abs((mark?.ends[0].x ?? 0) - (mark?.ends[1].x ?? 0))
    expect(lengthPx).toBeCloseTo(0.1 * front.pxPerM, 6)
  })

  it('share both margins, and no label covers another', () => {
    const pairs = [0, 0.01, 0.02, 0.03, 0.04, 0.05].map((up) =>
      drawnPair(
        drawnPart(`one ${up}`, [-0.3, 0, -1 + up]),
        drawnPart(`other ${up}`, [-0.2, 0, -1 + up]),
      ),
    )
    const marks = pairMarks(numbered(pairs), front)
    for (const edge of ['left', 'right'] as const) {
      const heights = marks.filter((mark) => mark.side === edge).map(({ label }) => label.y)
      expect(heights).toHaveLength(3)
      const sorted = heights.sort((one, other) => one - other)
      for (let at = 1; at < sorted.length; at++) {
        expect(sorted[at]! - sorted[at - 1]!).toBeGreaterThanOrEqual(24 - 1e-6)
      }
    }
  })

  it('are few, and one more for the pair that is pointed at', () => {
    const pairs = numbered(
      Array.from({ length: 20 }, (_, at) =>
        drawnPair(drawnPart(`a${at}`, [0, 0, -at]), drawnPart(`b${at}`, [0.1, 0, -at])),
      ),
    )
    expect(drawnPairs(pairs, null).map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6])
    expect(drawnPairs(pairs, 17).map(({ number }) => number)).toContain(17)
  })

  it('leave a part alone after two lines, so that others are seen too', () => {
    const hub = drawnPart('tank', [0, 0, -1], { potential: 'grounded' })
    const pairs = numbered([
      ...[1, 2, 3].map((at) => drawnPair(hub, drawnPart(`b${at}`, [0.1 * at, 0, -1]))),
      drawnPair(a, b),
    ])
    expect(drawnPairs(pairs, null).map(({ number }) => number)).toEqual([1, 2, 4])
  })

  it('are told once where a jumper in pieces meets the same part, at its tightest', () => {
    const piece = (at: number) => drawnPart(`lead-${at}`, [at, 0, -1], { label: 'A-phase lead' })
    const guy = drawnPart('guy', [0, 0, -1], { potential: 'grounded' })
    const told = numbered([drawnPair(piece(0.1), guy), drawnPair(piece(0.2), guy), drawnPair(a, b)])
    expect(told.map(({ number, places }) => [number, places])).toEqual([
      [1, 2],
      [2, 1],
    ])
    expect(told[0]?.pair.partA.id).toBe('lead-0.1')
  })

  it('cut a gap and never round it up: 59.9 in is not 60 in', () => {
    expect(gapInUnits(59.9 * 0.0254, 'us')).toBe('59 in')
    expect(gapInUnits(44 * 0.0254, 'us')).toBe('44 in')
    expect(gapInUnits(1.5239, 'metric')).toBe('152 cm')
  })
})

describe('letters of the phases', () => {
  it('stand beside live parts, once where two of a phase are close, and do not cover each other', () => {
    const parts = [
      drawnPart('a1', [0.3, 0, -1], { potential: 'A' }),
      drawnPart('a2', [0.32, 0, -1], { potential: 'A' }),
      drawnPart('b1', [0.34, 0, -1], { potential: 'B' }),
      drawnPart('tank', [0.3, 0, -1.3], { potential: 'grounded', kind: 'tank' }),
    ]
    const letters = phaseLetters(parts, front)
    expect(letters.map(({ letter }) => letter)).toEqual(['A', 'B'])
    const [one, other] = letters
    const apart = Math.max(
      Math.abs((one?.at.x ?? 0) - (other?.at.x ?? 0)) / 10,
      Math.abs((one?.at.y ?? 0) - (other?.at.y ?? 0)) / 12,
    )
    expect(apart).toBeGreaterThanOrEqual(1)
  })
})
