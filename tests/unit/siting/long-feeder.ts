import type { Feeder } from '#domain/feeder/feeder.ts'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import type { SiteResult } from '#domain/siting/site-result.ts'
import { type SampleParts, sampleFeeder, straightLine } from './sample-feeder.ts'

export const LINE = straightLine(21, 500)

/** The same load of 6 customers at each pole but the first. */
export function loadsOf(kw: number): NonNullable<SampleParts['loads']> {
  return LINE.poles.slice(1).map(({ id }) => ({
    id: `l-${id}`,
    pole: id,
    kwA: kw,
    kwB: kw,
    kwC: kw,
    kvarA: 25,
    kvarB: 25,
    kvarC: 25,
    customers: 6,
  }))
}

/** 10 km of line whose far half is low at peak; one load of 6 customers at each pole. */
export function longFeeder(change: Partial<SampleParts> = {}): Feeder {
  return sampleFeeder({
    ...LINE,
    ohmPerKm: [0.4, 0.5],
    cases: [
      { id: 'peak', name: 'Peak', loadFactor: 1, hoursPerYear: 1500 },
      { id: 'light', name: 'Light', loadFactor: 0.2, hoursPerYear: 7260 },
    ],
    loads: loadsOf(72),
    ...change,
  })
}

export function sited(feeder: Feeder, request: object = {}): SiteResult {
  const outcome = siteFeeder(feeder, SiteRequest.parse(request))
  if (outcome.status !== 'done') throw new Error(`Expected a result, got ${outcome.status}.`)
  return outcome.result
}
