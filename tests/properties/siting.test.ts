import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { compileNetwork } from '#domain/electrical/compile-network.ts'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { beginStudy } from '#domain/siting/begin-study.ts'
import { sitesOf } from '#domain/siting/placement.ts'
import { proposedRegulator } from '#domain/siting/proposed-regulator.ts'
import { screenFeeder } from '#domain/siting/screen.ts'
import { searchPairs } from '#domain/siting/search-pairs.ts'
import { searchSingles } from '#domain/siting/search-singles.ts'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import type { SiteResult } from '#domain/siting/site-result.ts'
import { sitingFeeder } from './random-siting-feeder.ts'

const QUIET = { onProgress: () => undefined, isCancelled: () => false }

function pairsOf(feeder: Feeder, request: SiteRequest, keep: number) {
  const compiled = compileNetwork(feeder)
  if (compiled.status !== 'compiled') throw new Error('Expected a feeder without errors.')
  const { cases } = feeder.header
  const study = beginStudy(feeder, compiled.network, cases, request)
  if ('status' in study) return null
  const { candidates } = screenFeeder(feeder, request, cases)
  const singles = searchSingles(study, sitesOf(compiled.network, candidates), QUIET)
  return searchPairs(study, singles, QUIET, keep)
}

function sited(feeder: Feeder, request: SiteRequest): SiteResult | null {
  const outcome = siteFeeder(feeder, request)
  return outcome.status === 'done' ? outcome.result : null
}

const customersOf = (effect: SiteResult['before']) =>
  Object.values(effect.cases).reduce((sum, { customersOutside }) => sum + customersOutside, 0)

describe('Siting on random feeders', () => {
  test.each(['service', 'loss'] as const)(
    'cutting pairs off never loses the best one (%s)',
    (goal) => {
      const request = SiteRequest.parse({ banks: 2, goal })
      let cut = 0
      fc.assert(
        fc.property(sitingFeeder, (feeder) => {
          const pruned = pairsOf(feeder, request, 1)
          const whole = pairsOf(feeder, request, Number.POSITIVE_INFINITY)
          fc.pre(pruned !== null && whole !== null)
          if (!pruned || !whole) return
          cut += pruned.cutByCustomers + pruned.cutByLoss
          expect(whole.solved).toBe(whole.total)
          expect(pruned.ranked[0]?.key.slice(0, 2)).toEqual(
            whole.ranked[0]?.key.slice(0, 2).map((figure) => expect.closeTo(figure, 2)),
          )
        }),
        { numRuns: 60, seed: 7 },
      )
      expect(cut).toBeGreaterThan(0)
    },
  )

  test('what a proposal promises is what the power flow gives with its banks in the feeder', () => {
    const request = SiteRequest.parse({ maxProposals: 2 })
    fc.assert(
      fc.property(sitingFeeder, (feeder) => {
        for (const proposal of sited(feeder, request)?.proposals ?? []) {
          const extraBanks = proposal.banks.map((bank) => proposedRegulator(bank))
          for (const solution of solveFeeder(feeder, { taps: 'controlled', extraBanks })) {
            if (solution.status !== 'converged') throw new Error(solution.status)
            const promised = proposal.after.cases[solution.caseId]
            const bank = solution.regulators.find(({ id }) => id === extraBanks[0]?.id)
            expect(bank?.taps).toEqual(proposal.banks[0]?.taps[solution.caseId])
            expect(promised?.lossKw).toBeCloseTo(solution.totals.lossKw, 3)
            const volts = solution.nodes
              .filter(({ id, poleId }) => id === poleId)
              .flatMap(({ phases }) => Object.values(phases).map(({ volts120 }) => volts120))
            expect(promised?.lowest.volts120).toBeCloseTo(Math.min(...volts), 4)
            expect(promised?.highest.volts120).toBeCloseTo(Math.max(...volts), 4)
          }
        }
      }),
      { numRuns: 25, seed: 11 },
    )
  })

  test('keeping a bank off more land never makes the best result better', () => {
    const request = SiteRequest.parse({ maxProposals: 1 })
    fc.assert(
      fc.property(sitingFeeder, fc.integer({ min: 1, max: 7 }), (feeder, taken) => {
        const placed: Feeder = { ...feeder, header: { ...feeder.header, coordinates: 'invented' } }
        const [lon] = placed.poles[taken]?.at ?? [0, 0]
        const ring: [number, number][] = [
          [lon - 0.0015, 39.999],
          [lon + 0.0015, 39.999],
          [lon + 0.0015, 40.001],
          [lon - 0.0015, 40.001],
          [lon - 0.0015, 39.999],
        ]
        const keepOuts = [{ id: 'k1', area: [ring], name: 'Seep', reason: 'wet ground' }]
        const free = sited(placed, request)?.proposals[0]
        const kept = sited({ ...placed, keepOuts }, request)?.proposals[0]
        if (!kept) return
        expect(free).toBeDefined()
        expect(customersOf(kept.after)).toBeGreaterThanOrEqual(
          customersOf(free?.after ?? kept.after),
        )
      }),
      { numRuns: 30, seed: 5 },
    )
  })

  test('the order of poles, spans and loads in the file does not matter', () => {
    const request = SiteRequest.parse({ maxProposals: 1 })
    fc.assert(
      fc.property(sitingFeeder, (feeder) => {
        const turned: Feeder = {
          ...feeder,
          poles: feeder.poles.toReversed(),
          spans: feeder.spans.toReversed(),
          loads: feeder.loads.toReversed(),
        }
        const one = sited(feeder, request)
        const other = sited(turned, request)
        expect(other?.candidates.length).toBe(one?.candidates.length)
        const [best, same] = [one?.proposals[0], other?.proposals[0]]
        expect(customersOf(same?.after ?? { cases: {} })).toBe(
          customersOf(best?.after ?? { cases: {} }),
        )
        expect(same?.presentWorthUsd ?? 0).toBeCloseTo(best?.presentWorthUsd ?? 0, 1)
      }),
      { numRuns: 25, seed: 3 },
    )
  })

  test('loads behind a bank are counted once, and never more than there are', () => {
    fc.assert(
      fc.property(sitingFeeder, (feeder) => {
        const result = sited(feeder, SiteRequest.parse({}))
        const all = feeder.loads.reduce((sum, load) => sum + load.customers, 0)
        for (const proposal of result?.proposals ?? []) {
          for (const { customersOutside } of Object.values(proposal.after.cases)) {
            expect(customersOutside).toBeLessThanOrEqual(all)
          }
        }
      }),
      { numRuns: 15, seed: 13 },
    )
  })
})
