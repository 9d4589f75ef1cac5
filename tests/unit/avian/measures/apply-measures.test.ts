import { describe, expect, it } from 'vitest'
import { applyMeasures } from '../../../../server/domain/avian/measures/apply-measures.ts'
import type { MeasureUse } from '../../../../server/domain/avian/measures/measure.ts'
import { possibleMeasures } from '../../../../server/domain/avian/measures/possible-measures.ts'
import { contactPairs, pairId } from '../../../../server/domain/avian/pole-top/contact-pairs.ts'
import type { PoleSite, PoleTop } from '../../../../server/domain/avian/pole-top/pole-top.ts'
import { designSpecies, sizeOf } from '../../../../server/domain/avian/species/shipped-species.ts'
import { FARM_TRANSFORMER, PUMP_TRANSFORMERS, REGULATORS, TANGENT, topOf } from './made-site.ts'

const IN = 0.0254
const EAGLE = sizeOf(designSpecies())
const pairsOf = ({ parts }: PoleTop) => contactPairs(parts, EAGLE).map(pairId)
const applied = (site: PoleSite, ...uses: MeasureUse[]) => applyMeasures(site, topOf(site), uses)
const offered = (site: PoleSite, kind: MeasureUse['kind']): MeasureUse => {
  const use = possibleMeasures(site, topOf(site)).find((each) => each.kind === kind)
  if (!use) throw new Error(`Expected ${kind} to be offered.`)
  return use
}
const SITES = { TANGENT, FARM_TRANSFORMER, PUMP_TRANSFORMERS, REGULATORS }
const sites = Object.entries(SITES)

describe('covers', () => {
  it('close the pairs of the parts that they are on, and no others', () => {
    const use = offered(FARM_TRANSFORMER, 'bushing cover')
    const before = pairsOf(topOf(FARM_TRANSFORMER))
    const left = pairsOf(applied(FARM_TRANSFORMER, use))
    const isOn = (pair: string) => pair.split('~').some((part) => use.partIds.includes(part))
    expect(before.some(isOn)).toBe(true)
    expect(left).toEqual(before.filter((pair) => !isOn(pair)))
  })

  it('are never put on a switch blade, also where the record says so', () => {
    const blades = topOf(REGULATORS).parts.filter(({ kind }) => kind === 'switch blade')
    const use = { kind: 'bushing cover', partIds: blades.map(({ id }) => id) } as const
    expect(blades.length).toBeGreaterThan(0)
    expect(pairsOf(applied(REGULATORS, use))).toEqual(pairsOf(topOf(REGULATORS)))
    const coverable = possibleMeasures(REGULATORS, topOf(REGULATORS)).filter(
      ({ kind }) => kind.includes('cover') || kind === 'insulated jumper',
    )
    const covered = coverable.flatMap(({ partIds }) => partIds)
    expect(blades.filter(({ id }) => covered.includes(id))).toEqual([])
  })

  it.each(sites)('never add a pair, and more of them never do: %s', (_, site) => {
    const covers = possibleMeasures(site, topOf(site)).filter(
      ({ kind, dimensionM }) => dimensionM === undefined && !kind.includes('moved'),
    )
    let before = new Set(pairsOf(topOf(site)))
    for (const [count] of covers.entries()) {
      const now = pairsOf(applied(site, ...covers.slice(0, count + 1)))
      expect(now.filter((pair) => !before.has(pair))).toEqual([])
      before = new Set(now)
    }
  })
})

describe('perches, deterrents and platforms', () => {
  it.each(sites)('close nothing by themselves: %s', (_, site) => {
    const before = pairsOf(topOf(site))
    for (const kind of ['perch deterrent', 'raised perch', 'nest platform'] as const) {
      expect(pairsOf(applied(site, offered(site, kind)))).toEqual(before)
    }
  })

  it('show a raised perch above the highest phase, where a bird can stand', () => {
    const perch = applied(TANGENT, offered(TANGENT, 'raised perch')).parts.find(
      ({ kind }) => kind === 'perch',
    )
    const highestM = Math.max(
      ...topOf(TANGENT)
        .parts.filter(({ kind }) => kind === 'conductor')
        .map(({ from }) => from[2]),
    )
    expect(perch).toMatchObject({ canPerch: true, potential: 'none' })
    expect((perch?.from[2] ?? 0) - highestM).toBeGreaterThan(14 * IN)
  })
})

describe('changes of the framing', () => {
  const conductors = ({ parts }: PoleTop) => parts.filter(({ kind }) => kind === 'conductor')
  const outerM = (top: PoleTop) => Math.max(...conductors(top).map(({ from }) => Math.abs(from[0])))

  it('set the outer phases 56 in from the pole on a 10-ft arm', () => {
    expect(outerM(topOf(TANGENT)) / IN).toBeCloseTo(44, 1)
    expect(outerM(applied(TANGENT, offered(TANGENT, 'longer arm'))) / IN).toBeCloseTo(56, 1)
  })

  it.each(['lowered arm', 'pole-top extension'] as const)(
    'keep phases apart for an eagle by a %s',
    (kind) => {
      expect(pairsOf(topOf(TANGENT))).not.toEqual([])
      expect(pairsOf(applied(TANGENT, offered(TANGENT, kind)))).toEqual([])
    },
  )

  it('raise the middle phase alone by an extension: the arm stays where it is', () => {
    const armM = ({ parts }: PoleTop) => parts.find(({ kind }) => kind === 'arm')?.from[2]
    const raised = applied(TANGENT, offered(TANGENT, 'pole-top extension'))
    expect(armM(raised)).toBeCloseTo(armM(topOf(TANGENT)) ?? Number.NaN, 6)
  })

  it('hang the phases below the arm on suspended insulators', () => {
    const hung = applied(TANGENT, offered(TANGENT, 'suspended insulators'))
    const arm = hung.parts.find(({ kind }) => kind === 'arm')
    const outer = conductors(hung).filter(({ from }) => Math.abs(from[0]) > 40 * IN)
    expect(outer).toHaveLength(2)
    expect(outer.every(({ from }) => from[2] < (arm?.from[2] ?? 0) - 10 * IN)).toBe(true)
  })

  it('leave on what was covered before', () => {
    const covers = offered(PUMP_TRANSFORMERS, 'bushing cover')
    const top = applied(PUMP_TRANSFORMERS, covers)
    const longer = offered(PUMP_TRANSFORMERS, 'longer arm')
    const both = applyMeasures(PUMP_TRANSFORMERS, top, [longer])
    const covered = both.parts.filter(({ surface }) => surface === 'covered')
    expect(covered.map(({ id }) => id).sort()).toEqual([...covers.partIds].sort())
  })

  it('take every pair of the equipment away with the equipment', () => {
    const moved = applied(
      FARM_TRANSFORMER,
      offered(FARM_TRANSFORMER, 'equipment moved to the ground'),
    )
    const kinds = new Set(moved.parts.map(({ kind }) => kind))
    expect([kinds.has('tank'), kinds.has('bushing'), kinds.has('cutout')]).toEqual([
      false,
      false,
      false,
    ])
  })
})
