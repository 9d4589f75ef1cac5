import { describe, expect, it } from 'vitest'
import { likenessOf, similarPoles } from '#domain/avian/account/similar-poles.ts'
import { Equipment } from '#domain/feeder/equipment.ts'
import { birdFeeder, poleWith } from '../bird-feeder.ts'

/** About 81 m of longitude at 43° north. */
const STEP = 0.001
const row = (framings: readonly string[]) =>
  birdFeeder(
    framings.map((framing, at) => ({
      ...poleWith({}, `P-${at}`, [-107 + at * STEP, 43]),
      framing,
    })),
  )
const cutout = (pole: string) =>
  Equipment.parse({ id: `cutout-${pole}`, pole, kind: 'cutout', phases: 'A' })

describe('poles like the one where a bird was found', () => {
  it('have the same framing, nearest first', () => {
    const feeder = row(['arm', 'pin', 'arm', 'arm'])
    expect(similarPoles(feeder, 'P-0').map(({ poleId }) => poleId)).toEqual(['P-2', 'P-3'])
  })

  it('carry the same equipment', () => {
    const feeder = { ...row(['arm', 'arm', 'arm']), equipment: [cutout('P-0'), cutout('P-2')] }
    expect(similarPoles(feeder, 'P-0').map(({ poleId }) => poleId)).toEqual(['P-2'])
    expect(likenessOf(feeder, 'P-2')).toEqual({ framing: 'arm', equipment: ['cutout'] })
  })

  it('stand within half a mile', () => {
    const feeder = row(Array.from({ length: 15 }, () => 'arm'))
    const found = similarPoles(feeder, 'P-0')
    // 805 m at about 81.4 m a step.
    expect(found).toHaveLength(9)
    expect(found.at(-1)?.distanceM).toBeLessThanOrEqual(804.672)
  })
})
