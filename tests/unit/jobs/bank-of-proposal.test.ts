import { describe, expect, it } from 'vitest'
import { Regulator } from '#domain/feeder/equipment.ts'
import { bankOfProposal } from '#domain/jobs/bank-of-proposal.ts'
import { feederWithBank } from '#domain/jobs/feeder-with-bank.ts'
import { checkFeeder } from '#domain/network/check-feeder.ts'
import type { ProposedBank } from '#domain/siting/site-result.ts'
import { sampleFeeder } from './sample-bank.ts'

const PROPOSED: ProposedBank = {
  pole: 'P2',
  span: 'P2:P3',
  phases: 'ABC',
  ratingKva: 167,
  ratingA: 219,
  peakA: 112,
  distanceM: 6000,
  bandCentreV: 124,
  bandwidthV: 2,
  delayS: 45,
  windingType: 'B',
  ptRatio: 60,
  ctPrimaryA: 250,
  taps: { peak: { A: 7, B: 5, C: 4 } },
}

describe('a proposed bank that is to be built', () => {
  it('is named by its pole and comes at neutral with the settings of the proposal', () => {
    const bank = bankOfProposal(sampleFeeder(), PROPOSED)
    expect(bank).toMatchObject({ id: 'REG-P2', name: 'Regulators at P2', bandCentreV: 124 })
    expect([bank.tapA, bank.tapB, bank.tapC]).toEqual([0, 0, 0])
  })

  it('stands in the feeder without a fault', () => {
    const feeder = sampleFeeder()
    const bank = bankOfProposal(feeder, PROPOSED)
    const after = feederWithBank(feeder, bank, [])
    expect(after.equipment).toEqual([bank])
    expect(checkFeeder(after)).toEqual([])
  })

  it('takes a number where its id is taken', () => {
    const first = bankOfProposal(sampleFeeder(), PROPOSED)
    const second = bankOfProposal({ equipment: [first] }, PROPOSED)
    const third = bankOfProposal({ equipment: [first, second] }, PROPOSED)
    expect([second.id, third.id]).toEqual(['REG-P2-2', 'REG-P2-3'])
  })

  it('has an id that is not too long on a pole with a very long one', () => {
    const bank = bankOfProposal(sampleFeeder(), { ...PROPOSED, pole: 'P'.repeat(64) })
    expect(Regulator.shape.id.safeParse(bank.id).success).toBe(true)
  })
})

describe('a bank that takes the place of another', () => {
  it('keeps the order of what stands on the span', () => {
    const feeder = sampleFeeder()
    const [one, two, three] = ['R1', 'R2', 'R3'].map((id) => ({
      ...bankOfProposal(feeder, PROPOSED),
      id,
    }))
    const standing = { ...feeder, equipment: [one!, two!, three!] }
    const after = feederWithBank(standing, { ...two!, id: 'NEW' }, ['R2'])
    expect(after.equipment.map(({ id }) => id)).toEqual(['R1', 'NEW', 'R3'])
    expect(feederWithBank(standing, null, ['R2']).equipment.map(({ id }) => id)).toEqual([
      'R1',
      'R3',
    ])
  })
})
