import { describe, expect, it } from 'vitest'
import { DraftJobBody } from '#contract/jobs.ts'
import type { SavedProposal } from '#contract/proposals.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import { dueLooks } from '../../../web/coordinator/year/due-poles.ts'
import { waitingPoles } from '../../../web/coordinator/year/waiting-poles.ts'
import { originByHand } from '../../../web/jobs/by-hand-draft.ts'
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
  const knows = (pole: string) => pole.startsWith('W-')

  it('takes ids with commas, spaces or lines between, each once', () => {
    const draft = {
      kind: 'inspection',
      poles: 'W-1, W-2\nW-1;W-3',
      regulatorId: '',
      settings: {},
    } as const
    const chosen = originByHand(draft, knows, [])
    expect(chosen.ok && chosen.poles).toEqual(['W-1', 'W-2', 'W-3'])
  })

  it('names the poles that the feeder does not have', () => {
    const chosen = originByHand(
      { kind: 'inspection', poles: 'W-1 X-9', regulatorId: '', settings: {} },
      knows,
      [],
    )
    expect(!chosen.ok && chosen.why).toBe('This feeder has no pole X-9.')
  })

  it('asks for a bank where the work is on one', () => {
    const chosen = originByHand(
      { kind: 'remove a bank', poles: '', regulatorId: '', settings: {} },
      knows,
      [],
    )
    expect(!chosen.ok && chosen.why).toContain('Choose the bank')
  })

  it('carries the settings that are to change, and asks for one where none is named', () => {
    const standing = { id: 'R-1', pole: 'W-1' } as unknown as Regulator
    const draft = (settings: Record<string, string>) =>
      ({ kind: 'change settings', poles: '', regulatorId: 'R-1', settings }) as const
    const chosen = originByHand(draft({ bandCentreV: '123,5', delayS: ' ' }), knows, [standing])
    expect(chosen.ok && chosen.origin).toMatchObject({ settings: { bandCentreV: 123.5 } })
    expect(originByHand(draft({}), knows, [standing]).ok).toBe(false)
    const wrong = originByHand(draft({ bandCentreV: '1230' }), knows, [standing])
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
