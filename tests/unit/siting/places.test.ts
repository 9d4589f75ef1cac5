import { describe, expect, test } from 'vitest'
import { Nest } from '#domain/feeder/birds.ts'
import type { Equipment } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { judgePlaces, preparePlaces } from '#domain/siting/judge-places.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import type { Proposal } from '#domain/siting/site-result.ts'
import { LINE, longFeeder, sited } from './long-feeder.ts'
import { placeAt } from './sample-feeder.ts'

function judged(feeder: Feeder, poles: readonly string[], request: object = {}): Proposal {
  const judge = preparePlaces(feeder, SiteRequest.parse(request))
  if (typeof judge === 'string') throw new Error(judge)
  const places = poles.map((pole) => {
    const span = feeder.spans.find(({ from }) => from === pole)?.id ?? ''
    return { pole, span, phases: 'ABC' as const }
  })
  const found = judgePlaces(judge, places)
  if (found.status !== 'judged') throw new Error(found.what)
  return found.proposal
}

/** Figures to eight places: a solution started from another one ends in other last digits. */
function rounded<Value extends object>(value: Value): Value {
  return JSON.parse(
    JSON.stringify(value, (_key, each) =>
      typeof each === 'number' ? Number(each.toFixed(8)) : each,
    ),
  )
}

const transformer = (change: object = {}): Equipment =>
  ({
    kind: 'transformer',
    id: 't1',
    pole: 'p8',
    phases: 'B',
    ratingKva: 15,
    connection: 'single-phase',
    ...change,
  }) as Equipment

const bank = (change: object = {}): Equipment =>
  ({
    kind: 'regulator',
    id: 'r1',
    pole: 'p8',
    span: 'p8:p9',
    phases: 'ABC',
    windingType: 'B',
    connection: 'wye',
    ptRatio: 60,
    ctPrimaryA: 250,
    bandCentreV: 124,
    bandwidthV: 2,
    rV: 0,
    xV: 0,
    delayS: 30,
    tapA: 0,
    tapB: 0,
    tapC: 0,
    maxRaise: 16,
    maxLower: 16,
    ...change,
  }) as Equipment

describe('A bank where a person put it', () => {
  test('has the size, settings, figures and cautions of a searched one', () => {
    const feeder = longFeeder()
    const { rank: _rank, nearAlternatives: _near, ...best } = sited(feeder).proposals[0] as Proposal
    const [place] = best.banks
    expect(rounded(judged(feeder, [place?.pole ?? '']))).toMatchObject(rounded(best))
  })

  test('says first what would have ruled the pole out', () => {
    const poles = LINE.poles.map((pole) => ({
      ...pole,
      poleClass: pole.id === 'p8' ? '7' : '2',
      heightM: pole.id === 'p8' ? 9 : 13,
    }))
    const feeder = longFeeder({
      poles,
      equipment: [
        transformer({ connection: 'grounded-wye-grounded-wye', phases: 'ABC', pole: 'p8' }),
      ],
    })
    const nest = Nest.parse({
      id: 'n1',
      species: 'golden eagle',
      at: placeAt(4000, 50),
      bufferM: 200,
      seasonFrom: '01-01',
      seasonTo: '07-31',
      status: 'in use',
    })
    const [first] = judged({ ...feeder, nests: [nest] }, ['p8']).flags
    expect(first).toMatch(/^The search rules pole p8 out: /)
    for (const words of ['already carries a transformer', 'class 7', '9.0 m', 'golden eagle']) {
      expect(first).toContain(words)
    }
  })

  test('two of them keep the order in which they were put, whichever is nearer the source', () => {
    const { banks } = judged(longFeeder(), ['p14', 'p5'], { banks: 2 })
    expect(banks.map(({ pole }) => pole)).toEqual(['p14', 'p5'])
    expect(banks[0]?.delayS).toBe((banks[1]?.delayS ?? Number.NaN) + 15)
  })

  test('where no line leaves the pole it is said, without a figure', () => {
    const judge = preparePlaces(longFeeder(), SiteRequest.parse({}))
    if (typeof judge === 'string') throw new Error(judge)
    const found = judgePlaces(judge, [{ pole: 'p20', span: 'p19:p20', phases: 'ABC' }])
    expect(found).toMatchObject({ status: 'not judged' })
  })
})

describe('A single-phase service transformer on a pole', () => {
  const feeder = longFeeder({ equipment: [transformer()] })

  test('rules it out as long as nothing else is asked for', () => {
    const { excluded } = sited(feeder)
    expect(excluded.find(({ pole }) => pole === 'p8')?.reasons).toEqual([
      'The pole already carries a transformer (t1).',
    ])
  })

  test('is a caution with its cost where the request says so', () => {
    const request = { serviceTransformers: 'caution', sameWithinPct: 0, maxProposals: 20 }
    const found = sited(feeder, request).proposals.find(({ banks }) => banks[0]?.pole === 'p8')
    expect(found?.costUsd).toBe(106_000)
    expect(found?.flags.join(' ')).toContain('has to move to another pole first')
  })

  test.each([
    ['in series with the line', { span: 'p8:p9', highKv: 12.47, lowKv: 12.47 }],
    ['of three phases', { phases: 'ABC', connection: 'grounded-wye-grounded-wye' }],
  ])('a transformer %s rules out all the same', (_what, change) => {
    const { excluded } = sited(longFeeder({ equipment: [transformer(change)] }), {
      serviceTransformers: 'caution',
    })
    expect(excluded.map(({ pole }) => pole)).toContain('p8')
  })
})

describe('A bank that stands bypassed', () => {
  const feeder = longFeeder({ equipment: [bank({ state: 'bypassed', name: 'North bank' })] })
  const result = sited(feeder)

  test('regulates nothing, and its pole is ruled out with what may do the job', () => {
    expect(result.before).toEqual(sited(longFeeder()).before)
    expect(result.excluded.find(({ pole }) => pole === 'p8')?.reasons).toEqual([
      'The pole carries a regulator bank (North bank) that stands bypassed; returning it may do the job.',
    ])
  })

  test('what returning it alone gives is what it gives in service', () => {
    const inService = sited(longFeeder({ equipment: [bank()] }))
    expect(result.bypassed).toHaveLength(1)
    expect(result.bypassed?.[0]?.after).toEqual(inService.before)
    expect(result.bypassed?.[0]?.words).toMatch(
      /Returning it alone, with its recorded settings, would leave customers outside: \d+ instead of \d+ in Peak/,
    )
    expect(inService.bypassed).toBeUndefined()
  })

  test('proposals in the same line say that the settings go together', () => {
    for (const { flags } of result.proposals) {
      expect(flags.join(' ')).toContain(
        'The bank at pole p8 (North bank), in the same line, stands bypassed',
      )
    }
  })
})
