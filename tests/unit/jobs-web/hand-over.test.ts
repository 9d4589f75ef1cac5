import { describe, expect, it } from 'vitest'
import { DraftJobBody } from '#contract/jobs.ts'
import type { SavedProposal } from '#contract/proposals.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import { Pole } from '#domain/feeder/pole.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import { dueLooks } from '../../../web/coordinator/year/due-poles.ts'
import { waitingPoles } from '../../../web/coordinator/year/waiting-poles.ts'
import { banksFor, whyNotOffered } from '../../../web/jobs/banks-for.ts'
import { type ByHandKind, bankOfDraft, originByHand } from '../../../web/jobs/by-hand-draft.ts'
import { bodyOfHandOver, faultsOfHandOver, newHandOver } from '../../../web/jobs/hand-over-draft.ts'
import { handedBankOf, viewOfHandOver } from '../../../web/planner/hand-over-view.ts'
import { aJob } from './a-job.ts'

const ORIGIN = { kind: 'proposal', proposalId: 'p-1' } as const

describe('handing a proposal over', () => {
  it('sends the height in metres, whichever unit it is typed in', () => {
    const draft = { ...newHandOver('East bank', ''), elevation: '5,000' }
    expect(bodyOfHandOver(draft, ORIGIN, 0, 'us').elevationM).toBeCloseTo(1524, 6)
    expect(bodyOfHandOver({ ...draft, elevation: '1524' }, ORIGIN, 0, 'metric').elevationM).toBe(
      1524,
    )
  })

  it('leaves figures that are empty to the server', () => {
    const body = bodyOfHandOver(newHandOver('East bank', ''), ORIGIN, 1, 'us')
    expect(body).not.toHaveProperty('loopOhm')
    expect(body).not.toHaveProperty('elevationM')
    expect(body).not.toHaveProperty('dueOn')
    expect(DraftJobBody.parse(body).bank).toBe(1)
  })

  it('says of neutral side and bird work what was chosen, where the work has any', () => {
    const chosen = {
      ...newHandOver('East bank', ''),
      neutralSide: 'switched',
      birdWork: 'leave',
    } as const
    expect(bodyOfHandOver(chosen, ORIGIN, 0, 'us')).toMatchObject({
      neutralSide: 'switched',
      birdWork: 'leave',
    })
    const body = (jobKind: JobKind) =>
      bodyOfHandOver(chosen, { kind: 'by hand', jobKind, poles: ['W-1'] }, 0, 'us')
    expect(body('change out a bank').neutralSide).toBe('switched')
    expect(body('take a bank out of service')).not.toHaveProperty('neutralSide')
    expect(body('inspection').birdWork).toBe('leave')
    const round = { kind: 'programme', programmeId: 'y', round: 0 } as const
    expect(bodyOfHandOver(chosen, round, 0, 'us')).not.toHaveProperty('birdWork')
    expect(bodyOfHandOver(newHandOver('East bank', ''), ORIGIN, 0, 'us')).not.toHaveProperty(
      'birdWork',
    )
  })

  it('says what is wrong with a loop of no ohms, and with a height that is no figure', () => {
    const draft = { ...newHandOver('East bank', ''), loopOhm: '0', elevation: 'high' }
    const faults = faultsOfHandOver(draft, 'us')
    expect(faults.loopOhm).toContain('above 0')
    expect(faults.elevation).toContain('height above sea level')
    expect(faultsOfHandOver(newHandOver('East bank', ''), 'us')).toEqual({
      loopOhm: null,
      elevation: null,
    })
  })

  it('knows in the address which of two banks is being handed over', () => {
    expect(handedBankOf(viewOfHandOver(1))).toBe(1)
    expect(handedBankOf(viewOfHandOver(0))).toBe(0)
    expect(handedBankOf('edit-proposal')).toBeNull()
  })
})

describe('a job drafted by hand', () => {
  const polesOf = (...ids: string[]) =>
    new Map(ids.map((id) => [id, Pole.parse({ id, at: [-107, 43] })]))
  const poles = polesOf('W-1', 'W-2', 'W-3', 'W-144', 'S-144', 'S-145', 'W-30')
  const typed = (words: string) =>
    originByHand({ kind: 'inspection', poles: words, regulatorId: '', settings: {} }, poles, [])

  it('takes ids with commas, spaces or lines between, each once', () => {
    const draft = {
      kind: 'inspection',
      poles: 'W-1, W-2\nW-1;W-3',
      regulatorId: '',
      settings: {},
    } as const
    const chosen = originByHand(draft, poles, [])
    expect(chosen.ok && chosen.poles).toEqual(['W-1', 'W-2', 'W-3'])
  })

  it('takes any scrap that tells a pole apart, as the search of the crew does', () => {
    const found = (words: string) => {
      const chosen = typed(words)
      return chosen.ok ? chosen.poles : chosen.why
    }
    expect(found('s144')).toEqual(['S-144'])
    expect(found('145, w-2, s-145')).toEqual(['S-145', 'W-2'])
    expect(found('W-3')).toEqual(['W-3'])
    expect(found('144')).toBe(
      '“144” is part of S-144 and W-144: type more of the one that is meant.',
    )
    expect(found('W')).toMatch(/^“W” is part of W-1, W-2, W-3, W-30 and 1 more:/)
  })

  it('names the poles that the feeder does not have', () => {
    const chosen = originByHand(
      { kind: 'inspection', poles: 'W-1 X-9', regulatorId: '', settings: {} },
      poles,
      [],
    )
    expect(!chosen.ok && chosen.why).toBe('This feeder has no pole X-9.')
  })

  const bank = (id: string, state?: 'bypassed') =>
    ({ kind: 'regulator', id, pole: `W-${id}`, ...(state && { state }) }) as unknown as Regulator
  const onBank = (kind: ByHandKind, regulatorId = '') =>
    ({ kind, poles: '', regulatorId, settings: {} }) as const

  it('offers only banks that stand as the work takes them', () => {
    const both = [bank('1'), bank('2', 'bypassed')]
    const offered = (kind: ByHandKind) => banksFor(kind, both).map(({ id }) => id)
    expect(offered('take a bank out of service')).toEqual(['1'])
    expect(offered('change settings')).toEqual(['1'])
    expect(offered('return a bank to service')).toEqual(['2'])
    expect(offered('remove a bank')).toEqual(['1', '2'])
    expect(offered('change out a bank')).toEqual(['1', '2'])
    expect(whyNotOffered('return a bank to service', both)).toBe(
      'Not offered, since it is in service: pole W-1.',
    )
    expect(whyNotOffered('remove a bank', both)).toBeNull()
    // The bank that was chosen for other work is not offered, so the one that is takes its place.
    expect(bankOfDraft(onBank('return a bank to service', '1'), both)?.id).toBe('2')
  })

  it('says why no bank is offered', () => {
    const why = (kind: ByHandKind, banks: readonly Regulator[]) => {
      const chosen = originByHand(onBank(kind), poles, banks)
      return chosen.ok ? '' : chosen.why
    }
    expect(why('remove a bank', [])).toBe('No regulator bank stands on this feeder.')
    expect(why('return a bank to service', [bank('1')])).toContain('is in service')
    expect(why('take a bank out of service', [bank('1', 'bypassed')])).toContain('already')
    expect(why('change settings', [bank('1', 'bypassed')])).toContain('returned to service')
  })

  it('may give other settings to a bank that is returned, and none to one that is taken out', () => {
    const typed = (kind: ByHandKind) => ({ ...onBank(kind), settings: { bandCentreV: '122' } })
    const returned = originByHand(typed('return a bank to service'), poles, [bank('1', 'bypassed')])
    expect(returned.ok && returned.origin).toMatchObject({ settings: { bandCentreV: 122 } })
    const taken = originByHand(typed('take a bank out of service'), poles, [bank('1')])
    expect(taken.ok && taken.origin).not.toHaveProperty('settings')
  })

  it('carries the settings that are to change, and asks for one where none is named', () => {
    const standing = bank('R-1')
    const draft = (settings: Record<string, string>) =>
      ({ kind: 'change settings', poles: '', regulatorId: 'R-1', settings }) as const
    const chosen = originByHand(draft({ bandCentreV: '123,5', delayS: ' ' }), poles, [standing])
    expect(chosen.ok && chosen.origin).toMatchObject({ settings: { bandCentreV: 123.5 } })
    expect(originByHand(draft({}), poles, [standing]).ok).toBe(false)
    const wrong = originByHand(draft({ bandCentreV: '1230' }), poles, [standing])
    expect(!wrong.ok && wrong.why).toContain('Band centre: 1230')
  })
})

describe('poles that wait for a job', () => {
  const proposal = (id: string, pole: string) =>
    ({ id, deletedAt: null, proposal: { banks: [{ pole }] } }) as unknown as SavedProposal

  it('are those of open jobs and of kept proposals', () => {
    const jobs = [
      aJob({ poles: ['W-1', 'W-2'], origin: { kind: 'programme', programmeId: 'y', round: 0 } }),
    ]
    expect(waitingPoles([proposal('p-1', 'W-9')], jobs)).toEqual(['W-1', 'W-2', 'W-9'])
  })

  it('wait no more once the job of the proposal is closed', () => {
    const jobs = [aJob({ state: 'closed', poles: ['W-9'] })]
    expect(waitingPoles([proposal('p-1', 'W-9'), proposal('p-2', 'W-9')], jobs)).toEqual(['W-9'])
    expect(waitingPoles([proposal('p-1', 'W-9')], jobs)).toEqual([])
  })
})

describe('looks that are due', () => {
  it('leave out poles of open jobs and those that are due later', () => {
    const pole = (id: string, ...dueOn: string[]) =>
      ({ pole: { id }, dueOn }) as unknown as Parameters<typeof dueLooks>[0][number]
    const listed = [
      pole('later', '2027-01-01'),
      pole('due', '2026-11-28', '2027-01-01'),
      pole('handed', '2026-01-01'),
      pole('long due', '2026-01-01'),
      pole('none'),
    ]
    const { free, handed } = dueLooks(listed, new Map([['handed', true]]), '2026-11-28')
    expect(free.map(({ pole: id }) => id)).toEqual(['long due', 'due'])
    expect(handed).toBe(1)
  })
})
