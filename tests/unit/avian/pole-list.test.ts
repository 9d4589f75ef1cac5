import { describe, expect, it } from 'vitest'
import { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { Protection } from '#domain/feeder/birds.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { mergeAssessed } from '../../../web/coordinator/assessed-birds.ts'
import {
  type ListedPole,
  listFigures,
  listPoles,
} from '../../../web/coordinator/list/listed-pole.ts'
import { steadinessInWords, steadinessOf } from '../../../web/coordinator/list/order-working.ts'
import {
  filterPoles,
  NO_FILTER,
  type PoleFilter,
} from '../../../web/coordinator/list/pole-filter.ts'
import { poleReasons } from '../../../web/coordinator/list/pole-reasons.ts'
import { type Assessed, BirdBench } from '../../../web/workers/bird-bench.ts'
import { birdFeeder, nestAt, poleWith } from './bird-feeder.ts'

const settings = BirdSettings.parse({ inspectEveryMonths: 12 })

/** Closes no pair by itself, so that the pole stays as it is. */
const deterrent: Protection = {
  id: 'I-1',
  pole: 'P-21',
  kind: 'perch',
  what: 'perch deterrent on the arm',
  state: 'on',
  measure: 'perch deterrent',
  on: '2025-05-01',
}

const framed = (id: string, framing: string, lat: number) => ({
  ...poleWith({}, id, [-107, lat]),
  framing,
})

/** Flat 8-ft arms give 44 in between phases: an eagle bridges them. The last pole is far from the nest. */
const feeder: Feeder = birdFeeder(
  [
    framed('P-10', 'single pole, 8-ft crossarm', 43.2),
    framed('P-1', 'single pole, 8-ft crossarm', 43.1),
    framed('P-21', 'single pole, 8-ft crossarm', 43),
  ],
  { nests: [nestAt([-107, 43.001])] },
)

const quietly = () => undefined

function assessedOnce(items: readonly Protection[]): Assessed {
  const bench = new BirdBench()
  bench.hold({ feeder, surroundings: undefined })
  return bench.assess({ choices: [], protections: items, settings }, quietly)
}

function listedWith(items: readonly Protection[]): ListedPole[] {
  const { assessments, exposures, ranked } = mergeAssessed(null, 'T', assessedOnce(items))
  return listPoles({ feeder, items, settings, assessments, exposures, ranked })
}

const OPEN_JOBS = new Map([['P-10', ['a retrofit round']]])

const ids = (filter: Partial<PoleFilter>): string[] =>
  filterPoles(listedWith([deterrent]), { ...NO_FILTER, ...filter }, OPEN_JOBS).map(
    ({ pole }) => pole.id,
  )

describe('the list of poles', () => {
  it('puts a pole near a nest in use first, and says how tight it is and why it is there', () => {
    const [first] = listedWith([])
    if (!first) throw new Error('Expected a pole.')
    expect(first.pole.id).toBe('P-21')
    const [what, why] = poleReasons(first, 'eagle', true)
    expect(what).toMatch(/^\d+ pairs? open, the tightest for the eagle: .+, \d+ in\.$/)
    expect(why).toMatch(/nest/i)
  })

  it('keeps the order when nothing is typed, and puts a pole of exactly the typed id first', () => {
    expect(ids({})[0]).toBe('P-21')
    expect(ids({ scrap: 'p1' })[0]).toBe('P-1')
    expect(ids({ scrap: 'p1' })).toHaveLength(2)
  })

  it('is narrowed by nest, by the day that a look is due, and by species', () => {
    expect(ids({ isNearNest: true })).toEqual(['P-21'])
    expect(ids({ dueBy: '2026-04-30' })).toEqual([])
    expect(ids({ dueBy: '2026-05-01' })).toEqual(['P-21'])
    expect(ids({ speciesId: 'american-kestrel' })).toEqual([])
    expect(ids({ speciesId: 'eagle' })).toHaveLength(3)
    expect(ids({ state: 'unknown' })).toEqual([])
  })

  it('counts for its first line what can be bridged, what is near a nest and what is due', () => {
    expect(listFigures(listedWith([deterrent]), '2026-11-25')).toEqual({
      poles: 3,
      bridgeable: 3,
      bridgeableNearNest: 1,
      due: 1,
      unknown: 0,
      isComplete: true,
    })
    expect(listFigures(listedWith([deterrent]), '2026-04-30').due).toBe(0)
  })

  it('can be narrowed to the poles that wait for a job', () => {
    expect(ids({ waitsForJob: true })).toEqual(['P-10'])
    expect(ids({ waitsForJob: true, scrap: 'P-2' })).toEqual([])
    expect(ids({})).toHaveLength(3)
  })

  it('says how many of the first poles other weights would not move', () => {
    const pole = { poleId: 'P', hazard: 1, exposure: 1, rank: 1 }
    const steadiness = steadinessOf([
      { ...pole, staysAmongFirst: 1 },
      { ...pole, staysAmongFirst: 0.95 },
      { ...pole, staysAmongFirst: 0.5 },
      { ...pole, staysAmongFirst: null },
    ])
    expect(steadiness).toEqual({ first: 3, stay: 2 })
    if (steadiness) expect(steadinessInWords(steadiness)).toContain('2 of the first 3 stay')
  })
})

describe('assessing again', () => {
  it('tells only of the pole whose record has changed, and of all after another feeder', () => {
    const bench = new BirdBench()
    bench.hold({ feeder, surroundings: undefined })
    const marks = { choices: [], protections: [] as Protection[], settings }
    const told = (protections: Protection[]) =>
      bench
        .assess({ ...marks, protections }, quietly)
        .assessments.map(({ poleId }) => poleId)
        .sort()
    expect(told([])).toEqual(['P-1', 'P-10', 'P-21'])
    expect(told([deterrent])).toEqual(['P-21'])
    expect(told([deterrent])).toEqual([])
    bench.hold({ feeder: { ...feeder, nests: [] }, surroundings: undefined })
    expect(told([deterrent])).toEqual([])
    const other = { ...feeder, header: { ...feeder.header, id: 'U' } }
    bench.hold({ feeder: other, surroundings: undefined })
    expect(told([deterrent])).toHaveLength(3)
  })

  it('lays what changed over what was known, and never over another feeder', () => {
    const whole = assessedOnce([])
    const known = mergeAssessed(null, 'T', whole)
    const [one] = whole.assessments
    if (!one) throw new Error('Expected an assessment.')
    const part = { ...whole, isWhole: false, assessments: [{ ...one, state: 'failed' as const }] }
    const merged = mergeAssessed(known, 'T', part)
    expect(merged.assessments.size).toBe(3)
    expect(merged.assessments.get(one.poleId)?.state).toBe('failed')
    expect(mergeAssessed(known, 'U', part).assessments.size).toBe(1)
  })
})
