import { describe, expect, it } from 'vitest'
import { askedAtPole, checkPole, type SeenAnswer } from '../../../web/crew/pole-check.ts'
import { signsOfPole } from '../../../web/crew/pole-signs.ts'
import { type FeederModel, modelFeeder } from '../../../web/state/feeder-model.ts'
import { readDemoFeeder } from '../../support/demo-feeder.ts'
import { feederSketch } from '../../support/feeder-sketch.ts'

/** S-1 – S-2 – S-3 – S-4 – S-5 with a tap from S-3 to T-1; a transformer on S-2, a capacitor on S-4. */
const model = modelFeeder(
  feederSketch({
    spans: [
      { id: 'a', from: 'S-1', to: 'S-2', phases: 'ABC', lengthM: 60 },
      { id: 'b', from: 'S-2', to: 'S-3', phases: 'ABC', lengthM: 60 },
      { id: 'c', from: 'S-3', to: 'S-4', phases: 'ABC', lengthM: 60 },
      { id: 'd', from: 'S-4', to: 'S-5', phases: 'ABC', lengthM: 60 },
      { id: 't', from: 'S-3', to: 'T-1', phases: 'B', lengthM: 60 },
    ],
    equipment: [
      { id: 'x', kind: 'transformer', pole: 'S-2', phases: 'B', ratingKva: 25 },
      { id: 'y', kind: 'capacitor', pole: 'S-4', phases: 'ABC', kvarA: 50, kvarB: 50, kvarC: 50 },
    ],
  }),
)

const answers = (given: Readonly<Record<string, SeenAnswer>>) => new Map(Object.entries(given))

describe('“is this the pole?”', () => {
  it('asks for what tells it, and for what only its neighbours have', () => {
    const asked = askedAtPole(model, 'S-4')
    expect(asked.find(({ key }) => key === 'hangs capacitor')?.expected).toBe('yes')
    expect(asked.find(({ key }) => key === 'hangs transformer')?.expected).toBe('no')
    expect(asked.find(({ key }) => key === 'up S-3')?.words).toContain('the tag S-3')
    expect(asked.length).toBeLessThanOrEqual(8)
  })

  it('wants two answers before it says anything', () => {
    expect(checkPole(model, 'S-4', answers({ 'hangs capacitor': 'yes' }))).toEqual({
      kind: 'ask more',
      answersToGo: 1,
    })
  })

  it('is sure where all fits, and nothing nearby would fit as well', () => {
    const seen = answers({ 'hangs capacitor': 'yes', 'primaries 3': 'yes' })
    expect(checkPole(model, 'S-4', seen)).toEqual({ kind: 'this one' })
  })

  it('says which others would fit as well', () => {
    const seen = answers({ 'primaries 3': 'yes', 'hangs transformer': 'no' })
    const check = checkPole(model, 'S-4', seen)
    expect(check.kind).toBe('this or another')
    if (check.kind !== 'this or another') return
    expect(check.others.map(({ poleId }) => poleId)).toContain('S-5')
  })

  it('points to the pole two up that has what the crew sees', () => {
    const seen = answers({ 'hangs capacitor': 'no', 'hangs transformer': 'yes', 'up S-3': 'no' })
    expect(checkPole(model, 'S-4', seen)).toMatchObject({
      kind: 'another',
      likely: { poleId: 'S-2', where: 'two up' },
    })
  })

  it('points down a branch where the line carries one conductor and ends', () => {
    const seen = answers({ 'primaries 3': 'no', 'line ends': 'yes', 'hangs capacitor': 'no' })
    expect(checkPole(model, 'S-4', seen)).toMatchObject({
      kind: 'another',
      likely: { poleId: 'T-1', where: 'one up, one down a branch' },
    })
  })

  it('does not guess where nothing nearby fits better', () => {
    const alone = modelFeeder(
      feederSketch({ spans: [{ id: 'a', from: 'P-1', to: 'P-2', phases: 'A', lengthM: 60 }] }),
    )
    const seen = answers({ 'line ends': 'no', 'primaries 1': 'no', 'up P-1': 'no' })
    expect(checkPole(alone, 'P-2', seen)).toMatchObject({ kind: 'none fits' })
  })

  it('never takes the pole before for the right one, and mostly names it (demo feeder)', async () => {
    const demo = modelFeeder(await readDemoFeeder('thimble'))
    const checks = demo.feeder.poles
      .filter((_, index) => index % 7 === 0)
      .flatMap(({ id }) => {
        const stands = demo.upstreamOf.get(id)
        return stands === undefined ? [] : [{ stands, check: checkFrom(demo, id, stands) }]
      })
    const named = checks.filter(
      ({ stands, check }) => check.kind === 'another' && check.likely.poleId === stands,
    )
    expect(checks.filter(({ check }) => check.kind === 'this one')).toEqual([])
    expect(named.length / checks.length).toBeGreaterThan(0.5)
  })
})

/** What comes of it where a crew answers for one pole while it stands at another. */
function checkFrom(model: FeederModel, wanted: string, stands: string) {
  const there = new Set(signsOfPole(model, stands).map(({ key }) => key))
  const seen = askedAtPole(model, wanted).map(({ key }): [string, SeenAnswer] => [
    key,
    there.has(key) ? 'yes' : 'no',
  ])
  return checkPole(model, wanted, new Map(seen))
}
