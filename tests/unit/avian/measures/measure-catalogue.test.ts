import { describe, expect, it } from 'vitest'
import { MEASURE_KINDS } from '#domain/feeder/measure-kinds.ts'
import { BirdSettings } from '../../../../server/domain/avian/bird-settings.ts'
import { COVER_KINDS } from '../../../../server/domain/avian/measures/cover-parts.ts'
import { measureCatalogue } from '../../../../server/domain/avian/measures/measure-catalogue.ts'

const shipped = measureCatalogue()
const of = (kind: string, facts = shipped) => facts.find((entry) => entry.kind === kind)

describe('the catalogue of measures', () => {
  it('has every kind, with what it takes away, its limits, its life and its cost', () => {
    expect(shipped.map(({ kind }) => kind)).toEqual([...MEASURE_KINDS])
    const isWhole = shipped.every(
      ({ removes, limits, lifeYears, costUsd }) =>
        removes !== '' && limits !== '' && lifeYears > 0 && costUsd > 0,
    )
    expect(isWhole).toBe(true)
  })

  it('calls every figure an assumption and keeps the range that it is the middle of', () => {
    expect(new Set(shipped.map(({ sureness }) => sureness))).toEqual(new Set(['assumption']))
    expect(of('cutout cover')).toMatchObject({ costUsd: 300, lifeYears: 15 })
    expect(of('cutout cover')?.source).toContain('100 to 500 US$ a pole, 10 to 20 years')
  })

  it('says of every cover that it is no protection for people', () => {
    const silent = COVER_KINDS.filter(
      (kind) => !of(kind)?.limits.includes('no insulation for people'),
    )
    expect(silent).toEqual([])
  })

  it('says of perches and deterrents that they close no pair', () => {
    expect(of('raised perch')?.limits).toContain('Closes no pair by itself')
    expect(of('perch deterrent')?.limits).toContain('Closes no pair by itself')
  })

  it('takes what the utility set in place of its own, with the utility’s source', () => {
    const settings = BirdSettings.parse({
      measures: [{ kind: 'cutout cover', costUsd: 410, source: 'contract of 2026' }],
    })
    const set = of('cutout cover', measureCatalogue(settings))
    expect(set).toMatchObject({ costUsd: 410, lifeYears: 15 })
    expect(set?.source).toMatch(/^Set by the utility \(cost\): contract of 2026\./)
    expect(of('arrester cap', measureCatalogue(settings))).toEqual(of('arrester cap'))
  })
})
