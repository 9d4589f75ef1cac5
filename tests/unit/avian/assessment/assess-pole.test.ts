import { describe, expect, it } from 'vitest'
import { assessPole } from '../../../../server/domain/avian/assessment/assess-pole.ts'
import { BirdSettings } from '../../../../server/domain/avian/bird-settings.ts'
import { cheapestMeasures } from '../../../../server/domain/avian/measures/cheapest-measures.ts'
import { birdSpecies } from '../../../../server/domain/avian/species/shipped-species.ts'
import { item } from '../measures/made-pole-top.ts'
import { FARM_TRANSFORMER, madeSite, TANGENT } from '../measures/made-site.ts'

const IN = 0.0254

/** Every cover that the pole needs, as a record of the crew that put them up. */
const wholeKit = (cheapestMeasures(FARM_TRANSFORMER, [])[0]?.uses ?? []).map(({ kind, partIds }) =>
  item(kind, { measure: kind, partIds: [...partIds] }),
)

describe('the state of a pole', () => {
  it('is open while nothing was done', () => {
    const { state, pairs, pairsAsFramed } = assessPole(FARM_TRANSFORMER, [])
    expect(state).toBe('open')
    expect(pairs).toHaveLength(pairsAsFramed)
    expect(pairsAsFramed).toBeGreaterThan(0)
  })

  it('is partly done with one sound cover, and covered with all that are needed', () => {
    expect(assessPole(FARM_TRANSFORMER, wholeKit.slice(0, 1)).state).toBe('partly done')
    const done = assessPole(FARM_TRANSFORMER, wholeKit)
    expect([done.state, done.pairs.length]).toEqual(['covered', 0])
    expect(done.pairsAsFramed).toBeGreaterThan(0)
  })

  it('is failed once an inspection finds a cover slipped, and its pairs are open again', () => {
    const [first, ...others] = wholeKit
    if (!first) throw new Error('Expected a cover to be needed.')
    const after = assessPole(FARM_TRANSFORMER, [{ ...first, condition: 'slipped' }, ...others])
    expect(after.state).toBe('failed')
    const touched = after.pairs.flatMap(({ partA, partB }) => [partA.id, partB.id])
    expect(touched.some((id) => first.partIds?.includes(id))).toBe(true)
  })

  it('is covered again when the failed cover was replaced by a new one', () => {
    const failed = wholeKit.slice(0, 1).map((each) => ({ ...each, state: 'failed' as const }))
    expect(assessPole(FARM_TRANSFORMER, [...failed, ...wholeKit]).state).toBe('covered')
  })

  it.each([
    ['raised perch above the pole top', 'perch'],
    ['perch deterrent on the arm', 'guard'],
  ] as const)('stays open with nothing but a %s', (what, kind) => {
    const before = assessPole(FARM_TRANSFORMER, [])
    const after = assessPole(FARM_TRANSFORMER, [item(what, { kind })])
    expect([after.state, after.pairs.length]).toEqual(['open', before.pairs.length])
  })

  it('is not changed by what is only planned or was taken down', () => {
    const states = (['planned', 'removed'] as const).map(
      (state) =>
        assessPole(
          FARM_TRANSFORMER,
          wholeKit.map((each) => ({ ...each, state })),
        ).state,
    )
    expect(states).toEqual(['open', 'open'])
  })

  it('is separated where the framing alone keeps an eagle’s wrists apart', () => {
    const lowered = madeSite({
      phases: ['A', 'B', 'C'],
      choice: {
        framing: 'arm and pole-top pin',
        groundWire: 'to the neutral',
        measured: { outerDropM: 41 * IN, neutralBelowTopM: 90 * IN },
      },
    })
    expect(assessPole(TANGENT, []).state).toBe('open')
    expect(assessPole(lowered, []).state).toBe('separated')
  })

  it('is covered where an arm lowered later on keeps them apart', () => {
    const arm = item('lowered arm', { kind: 'change of the framing', dimensionM: 41 * IN })
    expect(assessPole(TANGENT, [arm]).state).toBe('covered')
  })

  it('is unknown where nothing tells what the pole carries', () => {
    const { state, poleTop, notes } = assessPole(madeSite({ phases: [] }), [])
    expect([state, poleTop]).toEqual(['unknown', null])
    expect(notes.join()).toContain('choose how it is framed')
  })
})

describe('what is told beside the state', () => {
  it('counts the pairs of every species, fewer for a smaller bird', () => {
    const { bySpecies } = assessPole(FARM_TRANSFORMER, [])
    expect(bySpecies.map(({ speciesId }) => speciesId)).toEqual(birdSpecies().map(({ id }) => id))
    const of = (id: string) => bySpecies.find(({ speciesId }) => speciesId === id)?.pairs ?? 0
    expect(of('american-kestrel')).toBeLessThan(of('eagle'))
  })

  it('decides by the species that the utility chose', () => {
    const settings = BirdSettings.parse({ designSpeciesId: 'american-kestrel' })
    expect(assessPole(TANGENT, [], settings).state).toBe('separated')
  })

  it('says where the record is tighter to ground than the drawing', () => {
    const measured = (acrossIn: number, upIn: number) =>
      madeSite({
        phases: ['A', 'B', 'C'],
        pole: { phaseToGroundHorizontalM: acrossIn * IN, phaseToGroundVerticalM: upIn * IN },
        choice: { framing: 'arm and pole-top pin', groundWire: 'to the neutral' },
      })
    expect(assessPole(measured(14, 20), []).notes.join()).toMatch(/14 in \(0\.36 m\) across/)
    expect(assessPole(measured(40, 50), []).notes).toEqual([])
  })

  it('says which item it can make nothing of', () => {
    const { notes } = assessPole(FARM_TRANSFORMER, [item('grey thing')])
    expect(notes.join()).toContain('“grey thing”')
  })
})
