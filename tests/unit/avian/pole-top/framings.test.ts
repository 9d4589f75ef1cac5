import { describe, expect, it } from 'vitest'
import { contactPairs, pairId } from '../../../../server/domain/avian/pole-top/contact-pairs.ts'
import { FRAMINGS } from '../../../../server/domain/avian/pole-top/framing.ts'
import { poleTopOf } from '../../../../server/domain/avian/pole-top/pole-top-of.ts'
import { IN, partOf, siteOf, topOf } from './site-of.ts'

const EAGLE = { breadthM: 60 * IN, heightM: 40 * IN }
const eaglePairs = (words: Parameters<typeof topOf>[0]) => contactPairs(topOf(words).parts, EAGLE)
const wireM = 0.5 * IN

describe('spacing of phases on an arm', () => {
  it('is 44 in across on an 8-ft arm (Colorado DRMS document 1291909, p. 13)', () => {
    const top = topOf({ framing: 'flat arm' })
    const gap = partOf(top, 'B-conductor').from[0] - partOf(top, 'A-conductor').from[0]
    expect(gap / IN).toBeCloseTo(44, 6)
    const [pair] = contactPairs(top.parts, EAGLE)
    expect(pair && pairId(pair)).toBe('A-conductor~B-conductor')
    expect(((pair?.distanceM ?? 0) + wireM) / IN).toBeCloseTo(44, 6)
  })

  it('slopes by 20 degrees from the outer to the middle phase where that one stands on the pole top (the same drawing)', () => {
    const top = topOf({ framing: 'tangent, 8 ft arm' })
    const [outer, middle] = [partOf(top, 'A-conductor').from, partOf(top, 'B-conductor').from]
    const degrees = (Math.atan2(middle[2] - outer[2], middle[0] - outer[0]) * 180) / Math.PI
    expect(degrees).toBeCloseTo(20, 0)
  })

  // Computed: √(60² − 44²) = 40.8 in and √(60² − 56²) = 21.5 in, between the surfaces of wires 0.5 in thick.
  it.each([
    { arm: '8 ft arm', outerIn: 44, dropIn: Math.sqrt(60 ** 2 - 44 ** 2), rounded: 40.8 },
    { arm: '10 ft arm', outerIn: 56, dropIn: Math.sqrt(60 ** 2 - 56 ** 2), rounded: 21.5 },
  ])(
    'just reaches 60 in on an $arm when the outer phases drop $rounded in',
    ({ arm, outerIn, dropIn, rounded }) => {
      expect(dropIn).toBeCloseTo(rounded, 1)
      // As high as broad, so that the straight line alone decides.
      const size = { breadthM: 60 * IN, heightM: 60 * IN }
      const bridged = (outerDropIn: number) => {
        const measured = {
          outerPhaseM: outerIn * IN + wireM,
          outerDropM: outerDropIn * IN,
          topPinM: 10 * IN,
        }
        const { parts } = topOf({ framing: arm, choice: { measured, withoutParts: ['neutral'] } })
        return contactPairs(parts, size).map(pairId)
      }
      expect(bridged(dropIn - 0.05)).toEqual(['A-conductor~B-conductor', 'B-conductor~C-conductor'])
      expect(bridged(dropIn + 0.001)).toEqual([])
    },
  )

  it('follows the separations that the record has for the pole', () => {
    const measured = { phaseToPhaseHorizontalM: 1.2, phaseToPhaseVerticalM: 0.5 }
    const top = topOf({ framing: 'tangent, 8 ft arm', measured })
    expect(partOf(top, 'C-conductor').from[0]).toBeCloseTo(1.2, 9)
    const drop = partOf(top, 'B-conductor').from[2] - partOf(top, 'C-conductor').from[2]
    expect(drop).toBeCloseTo(0.5, 9)
  })

  it('follows what a person measured before what the record has', () => {
    const top = topOf({
      framing: 'tangent, 8 ft arm',
      measured: { phaseToPhaseHorizontalM: 1.2 },
      choice: { measured: { outerPhaseM: 1.4 } },
    })
    expect(partOf(top, 'C-conductor').from[0]).toBeCloseTo(1.4, 9)
  })
})

describe('what conducts', () => {
  it('makes a steel arm a grounded part a few inches below each phase', () => {
    const top = topOf({ framing: 'flat arm', choice: { armMaterial: 'steel' } })
    expect(partOf(top, 'arm').potential).toBe('grounded')
    const toArm = contactPairs(top.parts, EAGLE).filter((pair) =>
      pairId(pair).startsWith('A-conductor~arm'),
    )
    expect(toArm).toHaveLength(1)
    expect((toArm[0]?.distanceM ?? 0) / IN).toBeLessThan(12)
  })

  it.each(['wood', 'fibreglass'] as const)('leaves a %s arm without potential', (armMaterial) => {
    const top = topOf({ framing: 'flat arm', choice: { armMaterial } })
    expect(partOf(top, 'arm').potential).toBe('none')
  })

  it.each(['steel', 'concrete'] as const)(
    'grounds a %s pole, so that a single phase above it can be bridged',
    (material) => {
      expect(eaglePairs({ framing: 'pole-top pin', phases: 'A', material }).map(pairId)).toContain(
        'A-conductor~pole',
      )
      expect(eaglePairs({ framing: 'pole-top pin', phases: 'A' })).toEqual([])
    },
  )

  it('brings ground to the pole top by a ground wire that reaches it, and not by one that ends at the neutral', () => {
    const pairs = (groundWire: 'none' | 'to the neutral' | 'to the pole top') =>
      eaglePairs({ framing: 'pole-top pin', phases: 'A', choice: { groundWire } }).map(pairId)
    expect(pairs('to the pole top')).toContain('A-conductor~ground-wire')
    expect(pairs('to the neutral')).toEqual([])
    expect(pairs('none')).toEqual([])
  })
})

describe('words of a record', () => {
  it.each([
    ['tangent, 8 ft arm', 'ABC', 'arm and pole-top pin'],
    ['tangent, flat 8 ft arm', 'ABC', 'flat arm'],
    ['angle, double arm, 10 ft arm', 'ABC', 'arm and pole-top pin'],
    ['dead-end, 8 ft arm, switch pole', 'ABC', 'dead-end arm'],
    ['double dead-end, 10 ft arm', 'ABC', 'double dead-end arm'],
    ['corner, vertical dead-ends', 'ABC', 'vertical corner'],
    ['two-phase tangent, 8 ft arm', 'AC', 'two-phase arm'],
    ['two-phase dead-end, 8 ft arm', 'AC', 'dead-end arm'],
    ['single-phase pole top, transformer', 'B', 'pole-top pin'],
    ['single-phase dead-end', 'B', 'single-phase dead-end'],
  ])('“%s” is %s on the framing %s', (framing, phases, expected) => {
    expect(topOf({ framing, phases }).framing).toBe(expected)
  })

  it('take the name of each framing for itself', () => {
    for (const framing of FRAMINGS) expect(topOf({ framing }).framing).toBe(framing)
  })

  it('that say nothing are drawn by the number of phases, and the drawing says so', () => {
    const unnamed = topOf({ phases: 'A' })
    expect(unnamed.framing).toBe('pole-top pin')
    expect(unnamed.assumptions.join()).toMatch(/No framing is recorded/)
    expect(topOf({ framing: 'H-frame' }).assumptions.join()).toMatch(/“H-frame” is not known/)
    expect(topOf({ framing: 'flat arm' }).assumptions.join()).not.toMatch(/framing/)
  })

  it('draw an arm as long as they say', () => {
    expect(
      partOf(topOf({ framing: 'tangent, 10 ft arm' }), 'C-conductor').from[0] / IN,
    ).toBeCloseTo(56)
  })

  it('draw nothing where no phase is known', () => {
    expect(poleTopOf(siteOf({ phases: '' }))).toBeNull()
  })
})

describe('what a person says of a pole top', () => {
  it('takes parts off and adds others', () => {
    const choice = {
      withoutParts: ['neutral'],
      addedParts: [
        {
          id: 'lamp',
          label: 'street lamp',
          kind: 'bracket' as const,
          potential: 'grounded' as const,
          fromM: [0.1, 0, -0.5] as [number, number, number],
          toM: [1, 0, -0.5] as [number, number, number],
          radiusM: 0.03,
          canPerch: true,
        },
      ],
    }
    const top = topOf({ framing: 'flat arm', choice })
    expect(top.parts.map(({ id }) => id)).not.toContain('neutral')
    expect(contactPairs(top.parts, EAGLE).map(pairId)).toContain('C-conductor~lamp')
  })
})
