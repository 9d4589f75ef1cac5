import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { EAGLE_GUIDANCE } from '#domain/avian/eagle-guidance.ts'
import { birdPoles } from '#domain/avian/pole-urgency.ts'
import { assessSeparation } from '#domain/avian/separation.ts'
import {
  gapBothUnits,
  pairInWords,
  shortfallInWords,
  verdictInWords,
} from '#domain/avian/separation-words.ts'
import { birdFeeder, type Gaps, poleWith } from './bird-feeder.ts'

const WIDE: Gaps = {
  phaseHorizontalIn: 60,
  phaseVerticalIn: 0,
  groundHorizontalIn: 0,
  groundVerticalIn: 40,
}
const assess = (gaps: Gaps, phaseCount = 3) => assessSeparation(poleWith(gaps), phaseCount)

describe('the guidance', () => {
  it('is 60 inches across or 40 inches up and down, as APLIC 2006 gives it for eagles (from memory)', () => {
    expect(EAGLE_GUIDANCE.horizontalM).toBeCloseTo(1.524, 12)
    expect(EAGLE_GUIDANCE.verticalM).toBeCloseTo(1.016, 12)
  })

  it('says on its face that it is from memory and where it is from', () => {
    expect(EAGLE_GUIDANCE.sureness).toBe('from memory')
    expect(EAGLE_GUIDANCE.citation).toContain('Suggested Practices')
  })

  it('is missed by an 8 ft arm with 44 in between phases (spacing seen in permit file DRMS1291909)', () => {
    const arm = assess({ ...WIDE, phaseHorizontalIn: 44, phaseVerticalIn: 16 })
    expect(arm.verdict).toBe('bridgeable')
    expect(arm.worst?.pair).toBe('phase to phase')
  })
})

describe('a pole held against the guidance', () => {
  it('is sufficient where one direction of each pair reaches it', () => {
    expect(assess(WIDE).verdict).toBe('sufficient')
  })

  it('can be bridged where ground is 14 in across and level with the phase', () => {
    const separation = assess({ ...WIDE, groundHorizontalIn: 14, groundVerticalIn: 0 })
    expect(separation.verdict).toBe('bridgeable')
    expect(verdictInWords(separation)).toBe(
      'Phase to ground: 14 in apart horizontally, 0 in vertically; an eagle can bridge it.',
    )
    expect(separation.worst && shortfallInWords(separation.worst)).toBe(
      'Phase to ground is short by 46 in horizontally or 40 in vertically; making up either one would do.',
    )
  })

  it('names the pair that is furthest below when both are short', () => {
    const separation = assess({
      phaseHorizontalIn: 44,
      phaseVerticalIn: 0,
      groundHorizontalIn: 10,
      groundVerticalIn: 5,
    })
    expect(separation.worst?.pair).toBe('phase to ground')
    expect(separation.worst?.shareOfGuidance).toBeCloseTo(10 / 60, 9)
  })

  it('stays unknown when nothing is recorded', () => {
    const separation = assess({})
    expect(separation.verdict).toBe('unknown')
    expect(verdictInWords(separation)).toBe(
      'Not settled: phase to phase and phase to ground are not fully recorded.',
    )
  })

  it('stays unknown when one direction falls short and the other is not recorded', () => {
    const separation = assess({ ...WIDE, groundHorizontalIn: 20, groundVerticalIn: undefined })
    expect(separation.verdict).toBe('unknown')
    expect(pairInWords(separation.pairs[1]!)).toBe(
      'Phase to ground: 20 in apart horizontally, vertical gap not recorded; what is recorded falls short, and the other gap decides.',
    )
  })

  it('is sufficient when one direction reaches it though the other is not recorded', () => {
    const separation = assess({ phaseHorizontalIn: 72, groundVerticalIn: 48 })
    expect(separation.verdict).toBe('sufficient')
  })

  it('does not ask for a second phase on a single-phase pole', () => {
    const separation = assess({ groundHorizontalIn: 0, groundVerticalIn: 40 }, 1)
    expect(separation.pairs[0]?.verdict).toBe('absent')
    expect(separation.verdict).toBe('sufficient')
  })

  it('counts a recorded phase-to-phase gap even where the map shows one phase', () => {
    const separation = assess({ ...WIDE, phaseHorizontalIn: 20 }, 1)
    expect(separation.verdict).toBe('bridgeable')
  })

  it('never lets a gap just short of 60 in read as 60 in', () => {
    expect(gapBothUnits(1.5239)).toBe('59.9 in (1.523 m)')
    expect(gapBothUnits(1.524)).toBe('60 in (1.524 m)')
    expect(gapBothUnits(14 * 0.0254)).toBe('14 in (0.355 m)')
  })
})

const gapIn = fc.double({ min: 0, max: 120, noNaN: true })
const gaps = fc.record(
  {
    phaseHorizontalIn: gapIn,
    phaseVerticalIn: gapIn,
    groundHorizontalIn: gapIn,
    groundVerticalIn: gapIn,
  },
  { requiredKeys: [] },
)
const direction = fc.constantFrom<keyof Gaps>(
  'phaseHorizontalIn',
  'phaseVerticalIn',
  'groundHorizontalIn',
  'groundVerticalIn',
)
const RANK = { bridgeable: 0, unknown: 1, sufficient: 2 } as const

describe('any pole', () => {
  it('never gets worse when a recorded gap is widened', () => {
    fc.assert(
      fc.property(gaps, direction, gapIn, (before, which, byIn) => {
        const recorded = before[which]
        fc.pre(recorded !== undefined)
        const after = { ...before, [which]: recorded + byIn }
        expect(RANK[assess(after).verdict]).toBeGreaterThanOrEqual(RANK[assess(before).verdict])
      }),
    )
  })

  it('that is sufficient stays so when the other direction of a pair is measured after all', () => {
    const wideEnough = fc.double({ min: 60, max: 120, noNaN: true })
    fc.assert(
      fc.property(wideEnough, wideEnough, gapIn, gapIn, (phaseIn, groundIn, upIn, acrossIn) => {
        const before = { phaseHorizontalIn: phaseIn, groundVerticalIn: groundIn }
        const after = { ...before, phaseVerticalIn: upIn, groundHorizontalIn: acrossIn }
        expect(assess(before).verdict).toBe('sufficient')
        expect(assess(after).verdict).toBe('sufficient')
      }),
    )
  })

  it('is bridgeable only when some pair misses both directions', () => {
    fc.assert(
      fc.property(gaps, (recorded) => {
        const missesBoth = (across?: number, up?: number) =>
          across !== undefined && up !== undefined && across < 59.999 && up < 39.999
        const expected =
          missesBoth(recorded.phaseHorizontalIn, recorded.phaseVerticalIn) ||
          missesBoth(recorded.groundHorizontalIn, recorded.groundVerticalIn)
        if (expected) expect(assess(recorded).verdict).toBe('bridgeable')
      }),
    )
  })

  it('keeps its verdict whatever guards, covers and perches are hung on it', () => {
    const kinds = fc.constantFrom('guard' as const, 'cover' as const, 'perch' as const)
    const states = fc.constantFrom(
      'planned' as const,
      'on' as const,
      'failed' as const,
      'removed' as const,
    )
    fc.assert(
      fc.property(gaps, kinds, states, (recorded, kind, state) => {
        const feeder = birdFeeder([poleWith(recorded)])
        const item = { id: 'I-1', pole: 'P-1', kind, what: 'bushing', state, on: '2026-01-01' }
        const bare = birdPoles(feeder, [], 1)[0]
        const covered = birdPoles(feeder, [item], 1)[0]
        expect(covered?.separation).toEqual(bare?.separation)
        expect(covered?.items).toHaveLength(1)
      }),
    )
  })
})
