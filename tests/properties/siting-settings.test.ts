import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import type { Proposal } from '#domain/siting/site-result.ts'
import { sitingFeeder } from './random-siting-feeder.ts'

const NOON = {
  id: 'noon',
  name: 'Noon',
  loadFactor: 0.3,
  hoursPerYear: 700,
  classFactors: {},
  generationFactor: 1,
}

/** The same feeder with a solar plant at its last pole that delivers at noon. */
function withSun(feeder: Feeder, ratedKw: number): Feeder {
  const pole = feeder.poles.at(-1)?.id ?? ''
  return {
    ...feeder,
    header: { ...feeder.header, cases: [...feeder.header.cases, NOON] },
    equipment: [
      ...feeder.equipment,
      { kind: 'solar', id: 'sun', pole, phases: 'ABC', ratedKw, powerFactor: 1 },
    ],
  }
}

function proposalsOf(feeder: Feeder, request: object): readonly Proposal[] {
  const outcome = siteFeeder(feeder, SiteRequest.parse(request))
  return outcome.status === 'done' ? outcome.result.proposals : []
}

const outsideOf = ({ after }: Proposal) =>
  Object.values(after.cases).reduce((sum, { customersOutside }) => sum + customersOutside, 0)

const placeOf = ({ banks }: Proposal) => banks.map(({ span }) => span).join()

describe('Worked-out settings on random feeders, with the sun and without', () => {
  test.each([1, 2] as const)(
    'they never leave more customers outside than the plain settings (%i banks)',
    (banks) => {
      let changed = 0
      fc.assert(
        fc.property(sitingFeeder, fc.integer({ min: 0, max: 900 }), (feeder, sunKw) => {
          const sunny = sunKw > 100 ? withSun(feeder, sunKw) : feeder
          const request = { banks, maxProposals: 3 }
          const plain = proposalsOf(sunny, { ...request, compensation: 'none' })
          const worked = proposalsOf(sunny, request)
          expect(worked.map(placeOf).sort()).toEqual(plain.map(placeOf).sort())
          for (const proposal of worked) {
            const other = plain.find((one) => placeOf(one) === placeOf(proposal))
            expect(outsideOf(proposal)).toBeLessThanOrEqual(other ? outsideOf(other) : -1)
            changed += proposal.banks.filter(
              ({ bandCentreV, rV, xV }) => bandCentreV !== 124 || rV !== 0 || xV !== 0,
            ).length
          }
        }),
        { numRuns: banks === 1 ? 40 : 12, seed: 17 },
      )
      expect(changed).toBeGreaterThan(0)
    },
  )

  test('other settings than those asked for are never looser at the edges of the band', () => {
    fc.assert(
      fc.property(sitingFeeder, (feeder) => {
        for (const { banks } of proposalsOf(feeder, { maxProposals: 3 })) {
          const settings = banks[0]?.settings
          if (!settings) continue
          const { chosen, plain } = settings
          expect(chosen.customersOutsideAtEdges).toBeLessThanOrEqual(plain.customersOutsideAtEdges)
          const isChanged = chosen.bandCentreV !== plain.bandCentreV
          const topV = chosen.bandCentreV + (banks[0]?.bandwidthV ?? 0) / 2
          expect(isChanged && topV > feeder.header.limits.highVolts120).toBe(false)
        }
      }),
      { numRuns: 25, seed: 29 },
    )
  })
})
