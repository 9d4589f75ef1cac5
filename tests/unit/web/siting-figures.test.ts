import { describe, expect, it } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import type { Proposal, ProposedBank, SiteResult } from '#domain/siting/site-result.ts'
import { effectOf } from '../../../web/planner/effect.ts'
import { banksAsMoved, movedText } from '../../../web/planner/moved-banks.ts'
import { movedProposal } from '../../../web/planner/moved-proposal.ts'
import { regulatorOfBank } from '../../../web/planner/trial-banks.ts'
import { modelFeeder } from '../../../web/state/feeder-model.ts'
import { sitingFunctions } from '../../../web/workers/siting-functions.ts'
import { smallFeeder } from '../../support/small-feeder.ts'

const feeder = smallFeeder({ poles: 9 })
const model = modelFeeder(feeder)
const request = SiteRequest.parse({ sameWithinPct: 0 })

function sited(): SiteResult {
  const outcome = siteFeeder(feeder, request)
  if (outcome.status !== 'done') throw new Error(`The study ended as ${outcome.status}.`)
  return outcome.result
}

function proposalAt(index: number): Proposal {
  const found = result.proposals[index]
  if (!found) throw new Error(`Expected at least ${index + 1} proposals.`)
  return found
}

const result = sited()
const solveWith = (banks: readonly ProposedBank[]) =>
  solveFeeder(feeder, { taps: 'controlled', extraBanks: banks.map(regulatorOfBank) })

describe('figures computed in the browser', () => {
  it('are those of the study for the line as it stands', () => {
    const { limits } = feeder.header
    for (const solution of solveWith([])) {
      if (solution.status !== 'converged') throw new Error('A case did not converge.')
      const effect = effectOf(model, solution, limits)
      const judged = result.before.cases[solution.caseId]
      expect(effect?.customersOutside).toBe(judged?.customersOutside)
      expect(effect?.lowest.volts120).toBeCloseTo(judged?.lowest.volts120 ?? 0, 6)
      expect(effect?.highest.volts120).toBeCloseTo(judged?.highest.volts120 ?? 0, 6)
      expect(effect?.lossKw).toBeCloseTo(judged?.lossKw ?? 0, 6)
    }
  })

  it('are those of the second proposal once the first is dragged to its pole', () => {
    const [first, second] = [proposalAt(0), proposalAt(1)]
    const moved = movedText(
      first.banks,
      second.banks.map(({ pole }) => pole),
    )
    const places = banksAsMoved(model, first.banks, moved)
    const judged = sitingFunctions.judge(feeder, request, places)
    if (judged.status !== 'judged') throw new Error(judged.what)
    const shown = movedProposal(first, judged.proposal)
    const { nearAlternatives, rank, reason, ...figures } = second
    expect(shown).toMatchObject(figures)
    expect(shown.rank).toBe(first.rank)
    expect(shown.reason).toContain(`Moved by hand from proposal ${first.rank}`)
    expect(shown.reason).toContain(reason)
  })

  it('move nothing where the address names a pole that cannot carry the bank', () => {
    const { banks } = proposalAt(0)
    expect(banksAsMoved(model, banks, 'P9')).toEqual(banks)
    expect(banksAsMoved(model, banks, 'no-such-pole')).toEqual(banks)
  })
})
