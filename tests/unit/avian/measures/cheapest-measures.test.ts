import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { MeasureKind } from '#domain/feeder/measure-kinds.ts'
import { BirdSettings } from '../../../../server/domain/avian/bird-settings.ts'
import { applyMeasures } from '../../../../server/domain/avian/measures/apply-measures.ts'
import {
  cheapestMeasures,
  cheapestSet,
} from '../../../../server/domain/avian/measures/cheapest-measures.ts'
import { isCoverKind } from '../../../../server/domain/avian/measures/cover-parts.ts'
import { framingVariants } from '../../../../server/domain/avian/measures/framing-variants.ts'
import type { MeasureUse } from '../../../../server/domain/avian/measures/measure.ts'
import { measureCatalogue } from '../../../../server/domain/avian/measures/measure-catalogue.ts'
import { possibleMeasures } from '../../../../server/domain/avian/measures/possible-measures.ts'
import { contactPairs, pairId } from '../../../../server/domain/avian/pole-top/contact-pairs.ts'
import type { PoleSite } from '../../../../server/domain/avian/pole-top/pole-top.ts'
import { designSpecies, sizeOf } from '../../../../server/domain/avian/species/shipped-species.ts'
import { item } from './made-pole-top.ts'
import { FARM_TRANSFORMER, PUMP_TRANSFORMERS, REGULATORS, TANGENT, topOf } from './made-site.ts'

const EAGLE = sizeOf(designSpecies())
const SITES = Object.entries({ TANGENT, FARM_TRANSFORMER, PUMP_TRANSFORMERS, REGULATORS })

const openAfter = (site: PoleSite, uses: readonly MeasureUse[]) =>
  contactPairs(applyMeasures(site, topOf(site), uses).parts, EAGLE)
    .map(pairId)
    .sort()

const kindsOf = (uses: readonly MeasureUse[]) => uses.map(({ kind }) => kind)

describe('the cheapest measures of a pole', () => {
  it.each(SITES)('leave open just what they say, in every set: %s', (_, site) => {
    const sets = cheapestMeasures(site, [])
    expect(sets.length).toBeGreaterThan(0)
    for (const { uses, leftOpen } of sets) {
      expect(openAfter(site, uses)).toEqual([...leftOpen].sort())
    }
  })

  it('close everything at a farm transformer by covers', () => {
    const [first] = cheapestMeasures(FARM_TRANSFORMER, [])
    expect(first?.leftOpen).toEqual([])
    expect(first?.uses.every(({ kind }) => isCoverKind(kind))).toBe(true)
  })

  it('offer another framing of a bare pole beside its cover', () => {
    const sets = cheapestMeasures(TANGENT, [])
    expect(sets.map(({ uses }) => kindsOf(uses))).toEqual([
      ['conductor cover'],
      ['pole-top extension'],
    ])
  })

  it('never lead with moving regulators to the ground, and list what blades leave open', () => {
    const [first, ...others] = cheapestMeasures(REGULATORS, [])
    expect(kindsOf(first?.uses ?? [])).not.toContain('equipment moved to the ground')
    expect(first?.leftOpen.length).toBeGreaterThan(0)
    const moved = others.find(({ uses }) => kindsOf(uses).includes('equipment moved to the ground'))
    expect(moved?.leftOpen.length).toBeLessThan(first?.leftOpen.length ?? 0)
  })

  it('ask for nothing again that stands and is sound, but for what failed', () => {
    const sound = cheapestMeasures(FARM_TRANSFORMER, [item('bushing cover')])
    expect(kindsOf(sound[0]?.uses ?? [])).not.toContain('bushing cover')
    const slipped = cheapestMeasures(FARM_TRANSFORMER, [
      item('bushing cover', { condition: 'slipped' }),
    ])
    expect(slipped).toEqual(cheapestMeasures(FARM_TRANSFORMER, []))
  })

  it('are none where all is closed', () => {
    const [first] = cheapestMeasures(FARM_TRANSFORMER, [])
    const items = (first?.uses ?? []).map(({ kind, partIds }) =>
      item(kind, { measure: kind, partIds: [...partIds] }),
    )
    expect(cheapestMeasures(FARM_TRANSFORMER, items)).toEqual([])
  })

  it.each(SITES)(
    'close as much for as little as any of all subsets of covers and framings, whatever they cost: %s',
    (_, site) => {
      const outcomes = everyOutcome(site)
      fc.assert(
        fc.property(costs, (settings) => {
          const sets = cheapestMeasures(site, [], settings)
          expect(cheapestSet(site, [], settings)).toEqual(sets[0])
          const [best] = sets.filter(
            ({ uses }) => !kindsOf(uses).includes('equipment moved to the ground'),
          )
          const priced = outcomes.map(({ open, kinds }) => ({
            open,
            costUsd: costOf(kinds, settings),
          }))
          const [least] = priced.sort(
            (one, other) => one.open - other.open || one.costUsd - other.costUsd,
          )
          expect(best?.leftOpen.length).toBe(least?.open)
          expect(best?.costUsd).toBeCloseTo(least?.costUsd ?? Number.NaN, 6)
        }),
        { numRuns: 15 },
      )
    },
  )
})

const costs = fc
  .array(fc.integer({ min: 1, max: 2000 }), { minLength: 15, maxLength: 15 })
  .map((costsUsd) =>
    BirdSettings.parse({
      measures: measureCatalogue().map(({ kind }, index) => ({
        kind,
        costUsd: costsUsd[index],
        source: 'made up for the test',
      })),
    }),
  )

const costOf = (kinds: readonly MeasureKind[], settings: BirdSettings): number => {
  const price = new Map(measureCatalogue(settings).map(({ kind, costUsd }) => [kind, costUsd]))
  return kinds.reduce((sum, kind) => sum + (price.get(kind) ?? 0), 0)
}

interface Outcome {
  readonly open: number
  readonly kinds: readonly MeasureKind[]
}

/** Every framing with every subset of covers, and how many pairs are left of those drawn. */
function everyOutcome(site: PoleSite): Outcome[] {
  const framings = [
    { changes: [], top: topOf(site) },
    ...framingVariants(site, topOf(site), [], EAGLE),
  ]
  return framings.flatMap(({ changes, top }) => {
    const covers = possibleMeasures(site, top).filter(({ kind }) => isCoverKind(kind))
    const pairs = contactPairs(top.parts, EAGLE)
    return subsets(covers).map((uses): Outcome => {
      const covered = new Set(uses.flatMap(({ partIds }) => partIds))
      const open = pairs.filter(
        ({ partA, partB }) => !covered.has(partA.id) && !covered.has(partB.id),
      )
      return { open: open.length, kinds: [...kindsOf(changes), ...kindsOf(uses)] }
    })
  })
}

function subsets<Item>(items: readonly Item[]): Item[][] {
  return Array.from({ length: 2 ** items.length }, (_, bits) =>
    items.filter((__, index) => (bits >> index) % 2 === 1),
  )
}
