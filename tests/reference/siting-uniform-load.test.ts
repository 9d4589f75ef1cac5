import { describe, expect, test } from 'vitest'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { sampleFeeder, straightLine } from '../unit/siting/sample-feeder.ts'

const SPANS = 100
const SOURCE_V = 122
const ALLOWED_V = 1

/**
 * A line of even resistance whose load is spread evenly and draws constant current, so that the drop
 * to the share u of its length is total · u (2 − u).
 */
function uniformFeeder(totalDropV: number) {
  const nominalV = 7200
  const ampsPerSpan = 1
  const ohmTotal = (2 * totalDropV * (nominalV / 120)) / (SPANS * ampsPerSpan)
  const line = straightLine(SPANS + 1, 100)
  const kw = (nominalV * ampsPerSpan) / 1000
  return sampleFeeder({
    ...line,
    spans: line.spans.map((span) => ({ ...span, lengthM: 100 })),
    nominalKv: (nominalV * Math.sqrt(3)) / 1000,
    sourcePu: SOURCE_V / 120,
    ohmPerKm: [ohmTotal / (SPANS * 0.1), 0],
    loads: line.spans.map(({ from, to }) => ({
      id: `load-${to}`,
      span: `${from}:${to}`,
      kwA: kw,
      kwB: kw,
      kwC: kw,
      constantPower: 0,
      constantCurrent: 1,
      customers: 1,
    })),
  })
}

/**
 * Farthest place from the source at which everything before the bank keeps within the allowed drop:
 * s/l = 1 − √(1 − allowed/total) (Gonen, Electric Power Distribution Engineering, chapter 9, from memory).
 */
describe('Uniform load: the farthest pole for a bank follows the textbook rule', () => {
  test.each([
    { share: 0.5, place: 0.293 },
    { share: 2 / 3, place: 0.423 },
    { share: 0.75, place: 0.5 },
  ])(
    'with $share of the total drop allowed it stands at $place of the length',
    ({ share, place }) => {
      const outcome = siteFeeder(
        uniformFeeder(ALLOWED_V / share),
        SiteRequest.parse({
          lowVolts120: SOURCE_V - ALLOWED_V,
          highVolts120: 125,
          bandCentreV: 122.5,
          bandwidthV: 1,
        }),
      )
      if (outcome.status !== 'done') throw new Error(outcome.status)
      const fit = outcome.result.candidates.filter((candidate) => candidate.customersOutside === 0)
      const farthest = Math.max(...fit.map(({ pole }) => Number(pole.slice(1))))
      expect(1 - Math.sqrt(1 - share)).toBeCloseTo(place, 3)
      // One pole of discreteness, and the little that boosting adds to the current before the bank.
      expect(Math.abs(farthest / SPANS - place)).toBeLessThan(0.015)
    },
  )
})
