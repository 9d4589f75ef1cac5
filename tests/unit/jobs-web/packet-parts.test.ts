import { describe, expect, it } from 'vitest'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { drawnPairs } from '../../../web/birds/drawn-pairs.ts'
import type { NumberedPair } from '../../../web/birds/pair-labels.ts'
import { signatureLines } from '../../../web/jobs/paper/signature-lines.ts'
import { toldGaps } from '../../../web/jobs/paper/told-gaps.ts'

describe('lines to sign on', () => {
  it('are there for each unit of a step that is done at each', () => {
    expect(signatureLines({ each: 'unit', signedBy: 'person in charge' }, ['A', 'C'])).toEqual([
      'A: Person in charge',
      'C: Person in charge',
    ])
    expect(signatureLines({ each: 'unit', signedBy: 'two of the crew' }, ['A', 'B'])).toEqual([
      'A: Signed',
      'A: and',
      'B: Signed',
      'B: and',
    ])
  })

  it('are as many for every hold point as the device asks names for', () => {
    const phases = ['A', 'B', 'C'] as const
    for (const step of SHIPPED_SEQUENCES.flatMap(({ steps }) => steps)) {
      const names = step.signedBy === 'two of the crew' ? 2 : 1
      const times = step.each === 'unit' ? phases.length : 1
      expect(signatureLines(step, phases)).toHaveLength(names * times)
    }
  })

  it('are there once where no unit is', () => {
    expect(signatureLines({ each: 'unit', signedBy: 'one of the crew' }, [])).toEqual(['Signed'])
  })
})

describe('gaps beneath a drawing', () => {
  const part = (id: string) => ({ id, label: id })
  const gap = (number: number, a: string, b: string) =>
    ({ number, places: 1, pair: { partA: part(a), partB: part(b) } }) as unknown as NumberedPair
  const all = [
    gap(1, 'tank', 'A'),
    gap(2, 'tank', 'B'),
    gap(3, 'tank', 'C'),
    gap(4, 'A', 'B'),
    gap(5, 'tank', 'D'),
  ]

  it('have no hole in their numbers, and say which are not drawn', () => {
    const drawn = drawnPairs(all, null)
    expect(drawn.map(({ number }) => number)).toEqual([1, 2, 4])
    const { gaps, more } = toldGaps(all, drawn)
    expect(gaps.map(({ number, isDrawn }) => [number, isDrawn])).toEqual([
      [1, true],
      [2, true],
      [3, false],
      [4, true],
    ])
    expect(more).toBe(1)
  })
})
