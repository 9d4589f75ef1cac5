import { describe, expect, test } from 'vitest'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { screenFeeder } from '#domain/siting/screen.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { placeAt, type SampleParts, sampleFeeder, straightLine } from './sample-feeder.ts'

const line = straightLine(6, 100)

function screen(parts: Partial<SampleParts>, request = {}, change: Partial<Feeder> = {}) {
  const feeder = { ...sampleFeeder({ ...line, ...parts }), ...change }
  return screenFeeder(feeder, SiteRequest.parse(request), feeder.header.cases)
}

function reasonsFor(pole: string, result: ReturnType<typeof screen>): readonly string[] {
  return result.excluded.find((excluded) => excluded.pole === pole)?.reasons ?? []
}

describe('Screening poles for a bank', () => {
  test('on a bare line every pole but the last stays in, the source included', () => {
    const result = screen({})
    expect(result.candidates.map((candidate) => candidate.poleId)).toEqual([
      'p0',
      'p1',
      'p2',
      'p3',
      'p4',
    ])
    expect(reasonsFor('p5', result)).toEqual(['The line ends here: a bank would serve nothing.'])
  })

  test('a pole that is dropped keeps all its reasons', () => {
    const poles = line.poles.map((pole) =>
      pole.id === 'p2' ? { ...pole, heightM: 10.7, poleClass: '5' } : pole,
    )
    const reasons = reasonsFor(
      'p2',
      screen(
        { poles },
        {},
        {
          access: [{ id: 'r', kind: 'track', path: [placeAt(0, 240), placeAt(900, 240)] }],
          keepOuts: [
            {
              id: 'k',
              name: 'Willow bottom',
              reason: 'wetland',
              area: [
                [
                  placeAt(150, -50),
                  placeAt(250, -50),
                  placeAt(250, 50),
                  placeAt(150, 50),
                  placeAt(150, -50),
                ],
              ],
            },
          ],
        },
      ),
    )
    expect(reasons).toEqual([
      'The pole is 35 ft (10.7 m) long; a bank needs at least 40 ft (12.2 m).',
      'The pole is class 5; a bank needs class 4 or stronger.',
      'Inside keep-out land Willow bottom: wetland.',
      '787 ft (240 m) from the nearest road or track; limit 492 ft (150 m).',
    ])
  })

  test('what is not recorded rules nothing out and is said', () => {
    const result = screen({})
    expect(result.notes.join(' ')).toContain('No roads or tracks are recorded')
    expect(result.notes.join(' ')).toContain('6 of 6 poles have no length recorded')
  })

  test('a lateral of fewer phases is out for three phases and in when any will do', () => {
    const spans = [
      ...line.spans.slice(0, 3),
      { from: 'p3', to: 'p4', phases: 'AC' as const },
      ...line.spans.slice(4),
    ]
    expect(reasonsFor('p3', screen({ spans }))).toEqual([
      'Onward line carries phases A and C only; all three phases are needed.',
    ])
    const any = screen({ spans }, { phases: 'any' })
    expect(any.candidates.find((candidate) => candidate.poleId === 'p4')?.phases).toBe('AC')
  })

  test('equipment that fills the pole rules it out, a cutout does not', () => {
    const result = screen({
      equipment: [
        {
          kind: 'capacitor',
          id: 'c1',
          pole: 'p1',
          phases: 'ABC',
          kvarA: 100,
          kvarB: 100,
          kvarC: 100,
          state: 'on',
        },
        { kind: 'cutout', id: 'f1', pole: 'p2', phases: 'A', count: 1 },
      ],
    })
    expect(reasonsFor('p1', result)).toEqual(['The pole already carries a capacitor bank (c1).'])
    expect(reasonsFor('p2', result)).toEqual([])
  })

  test('a corner is out by its angle; a junction keeps the span that runs straight on', () => {
    const poles = [...line.poles, { id: 'q', at: placeAt(300, 100) }]
    const spans = [...line.spans, { from: 'p3', to: 'q' }]
    const result = screen({ poles, spans })
    const atJunction = result.candidates.filter((candidate) => candidate.poleId === 'p3')
    expect(atJunction.map((candidate) => candidate.spanId)).toEqual(['p3:p4'])
  })

  test('positions that are only a scheme rule nothing out', () => {
    const feeder = sampleFeeder({
      ...line,
      poles: line.poles.map((pole, i) => ({ ...pole, at: placeAt(0, (i % 2) * 100) })),
    })
    feeder.header.coordinates = 'schematic'
    const result = screenFeeder(feeder, SiteRequest.parse({}), feeder.header.cases)
    expect(result.candidates).toHaveLength(5)
    expect(result.notes).toEqual([
      'Positions are a scheme, so roads, land, nests and line angles ruled nothing out.',
    ])
  })

  test('load and load-moment beyond a pole are those of the heaviest case', () => {
    const result = screen({
      loads: [
        { id: 'l4', pole: 'p4', kwA: 30, kwB: 30, kwC: 30, kvarA: 40, kvarB: 40, kvarC: 40 },
        { id: 'l5', span: 'p4:p5', kwA: 10 },
      ],
      cases: [
        { id: 'light', loadFactor: 0.2 },
        { id: 'peak', loadFactor: 1 },
      ],
    })
    const atP3 = result.screened.find((screened) => screened.pole === 'p3')
    expect(atP3?.downstreamKva).toBeCloseTo(160, 9)
    expect(atP3?.downstreamKvaKm).toBeCloseTo(150 * 0.1 + 10 * 0.15, 3)
    expect(atP3?.distanceM).toBeCloseTo(300, 1)
  })
})
