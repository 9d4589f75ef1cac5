import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Actor, ROLES } from '#contract/actor.ts'
import { mayMoveTo } from '#contract/job-moves.ts'
import type { DraftJobBody, Job } from '#contract/jobs.ts'
import type { RouteInput } from '#contract/route.ts'
import { routes } from '#contract/routes.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import { JOB_MOVES, JOB_STATES, type JobState, moveOf } from '#domain/jobs/job-state.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { bankedFeeder } from '../support/banked-feeder.ts'
import { followChanges } from '../support/follow-changes.ts'
import { proposalToKeep } from '../support/kept-proposal.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { LEFT_AFTER_LOOK, LOOK_SEQUENCE } from '../support/small-job.ts'
import { entriesThrough } from '../support/walk-job.ts'
import {
  COORDINATOR,
  CREW,
  PLANNER,
  READER,
  SMALL,
  SUPERVISOR,
  startTestServer,
  type TestServer,
} from './test-server.ts'

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
  const layers = layersOfFeeder(bankedFeeder())
  await server.call(routes.takeInFeeder, { body: { layers } })
})
afterAll(() => server.stop())

type Origin = DraftJobBody['origin']
type DraftInput = RouteInput<typeof routes.draftJob>

const LOOK: Origin = { kind: 'by hand', jobKind: 'inspection', poles: ['P2', 'P3'] }
const ON_BANK = { kind: 'by hand' as const, poles: ['P3'], regulatorId: 'R3' }

const drafting = (origin: Origin, more: object = {}, feederId = SMALL): DraftInput => ({
  params: { feederId },
  body: { title: 'Work at the creek', origin, ...more },
})
const draft = (origin: Origin, more: object = {}, feederId = SMALL, as: Actor = PLANNER) =>
  server.call(routes.draftJob, drafting(origin, more, feederId), as)

const get = (jobId: string, as: Actor = CREW) =>
  server.call(routes.getJob, { params: { jobId } }, as)

const move = (job: Pick<Job, 'id' | 'version'>, to: JobState, as: Actor, reason?: string) =>
  server.call(routes.moveJob, moving(job, to, reason), as)

function moving({ id, version }: Pick<Job, 'id' | 'version'>, to: JobState, reason?: string) {
  return { params: { jobId: id }, body: { version, to, ...(reason && { reason }) } }
}

/** The shortest way of moves from a draft. */
const WAYS: Readonly<Record<JobState, readonly JobState[]>> = {
  drafted: [],
  approved: ['approved'],
  issued: ['approved', 'issued'],
  'in the field': ['approved', 'issued', 'in the field'],
  'work done': ['approved', 'issued', 'in the field', 'work done'],
  closed: ['approved', 'issued', 'in the field', 'work done', 'closed'],
  returned: ['approved', 'returned'],
}

/** Takes a draft to a state, with all that is entered on the way. */
async function bringTo(state: JobState, drafted: Job): Promise<Job> {
  let job = drafted
  for (const to of WAYS[state]) {
    if (to === 'work done') await doWork(job)
    if (to === 'closed') await leave(job.id)
    job = await move(job, to, SUPERVISOR, to === 'returned' ? 'The gate is locked.' : undefined)
  }
  return job
}

const doWork = (job: Job) =>
  server.call(
    routes.sendEntries,
    { params: { jobId: job.id }, body: { entries: entriesThrough(job.plan) } },
    CREW,
  )

const leave = (jobId: string, asLeft: object = LEFT_AFTER_LOOK, version = 0) =>
  server.call(
    routes.putAsLeft,
    { params: { jobId }, body: { version, asLeft: { ...LEFT_AFTER_LOOK, ...asLeft } } },
    CREW,
  )

async function keepRound(poles: readonly string[]) {
  const measures = [{ kind: 'perch deterrent' as const, partIds: [] }]
  const chosen = poles.map((pole) => ({
    ...{ pole, measures, costUsd: 400, reduction: 1, round: 0, notes: [] },
  }))
  const body = {
    name: 'East side',
    programme: {
      request: { budgetUsd: 10_000, from: '2027-01-01', to: '2027-12-31' },
      poles: chosen,
      rounds: [
        {
          poles: [...poles].reverse(),
          driveM: 900,
          crewDays: 1,
          earliest: '2027-02-01',
          latest: '2027-03-01',
        },
      ],
      leftOut: [],
      ...{ costUsd: 800, reduction: 2, reductionPossible: 3, gap: 0, curve: [] },
    },
  }
  return server.call(routes.keepProgramme, { params: { feederId: SMALL }, body }, COORDINATOR)
}

describe('drafting a job', () => {
  it('of a kept proposal sets its bank, on the version of the feeder that is recorded', async () => {
    const body = proposalToKeep(smallFeeder(), 'Bank at the head')
    const params = { feederId: SMALL }
    const proposal = await server.call(routes.saveProposal, { params, body })
    const origin = { kind: 'proposal', proposalId: proposal.id } as const
    const job = await draft(origin, { dueOn: '2026-12-10', crew: 'north truck', loopOhm: 0.05 })
    expect(job).toMatchObject({
      ...{ title: 'Work at the creek', dueOn: '2026-12-10', crew: 'north truck', note: '' },
      ...{ feederId: SMALL, feederVersion: 1, feederVersionAfter: null, origin },
      ...{ state: 'drafted', version: 1, changedBy: PLANNER, reason: '' },
    })
    const { kind, bank, poles } = job.plan
    expect([kind, poles.map(({ pole }) => pole)]).toEqual(['set a bank', ['P1']])
    expect(bank).toMatchObject({
      regulator: { pole: 'P1', span: 'S1', bandCentreV: 124, phases: 'ABC' },
      loopOhm: 0.05,
    })
    expect(bank).not.toHaveProperty('standing')
    expect((await get(job.id)).job).toEqual(job)
    const second = await server.problem(routes.draftJob, drafting(origin))
    expect(second).toMatchObject({ code: 'wrong-state' })
    expect(second.detail).toContain('“Work at the creek”, which is drafted')
    const input = { params: { jobId: job.id }, query: { version: 1 } }
    await server.call(routes.deleteJob, input)
    const other = await server.call(routes.draftJob, drafting(origin))
    const restoring = { params: { jobId: job.id }, query: { version: 2 } }
    expect((await server.problem(routes.restoreJob, restoring)).code).toBe('wrong-state')
    const away = { params: { jobId: other.id }, query: { version: 1 } }
    await server.call(routes.deleteJob, away)
    await server.call(routes.restoreJob, restoring)
  })

  it('of a proposal where a bank stands already changes that one out', async () => {
    const body = proposalToKeep(bankedFeeder(), 'Larger bank')
    const [bank] = body.proposal.banks
    if (!bank) throw new Error('Expected a bank.')
    const banks = [{ ...bank, pole: 'P3', span: 'S3' }]
    const params = { feederId: 'banked' }
    const proposal = await server.call(routes.saveProposal, {
      params,
      body: { ...body, proposal: { ...body.proposal, banks } },
    })
    const origin = { kind: 'proposal', proposalId: proposal.id } as const
    const { plan } = await draft(origin, {}, 'banked')
    expect(plan).toMatchObject({ kind: 'change out a bank', bank: { standing: { id: 'R3' } } })
    expect(plan.bank?.regulator.id).not.toBe('R3')
    expect(plan.notes.join(' ')).toContain('0.1 Ω, which is an assumption')
    const single = await server.call(routes.saveProposal, {
      params,
      body: {
        ...body,
        proposal: {
          ...body.proposal,
          banks: banks.map((each) => ({ ...each, phases: 'A' as const })),
        },
      },
    })
    const otherUnits = { ...origin, proposalId: single.id }
    const refused = await server.problem(routes.draftJob, drafting(otherUnits, {}, 'banked'))
    expect(refused).toMatchObject({ code: 'wrong-state' })
    expect(refused.detail).toContain('One job changes a bank only unit for unit')
    const none = await server.problem(routes.draftJob, drafting(origin, { bank: 1 }, 'banked'))
    expect(none).toMatchObject({ code: 'malformed-request', faults: [{ at: 'body.bank' }] })
    expect((await server.problem(routes.draftJob, drafting(origin))).code).toBe('not-found')
  })

  it('of a round takes its poles in the order of driving, with the measures that were chosen', async () => {
    const { id } = await keepRound(['P2', 'P4'])
    const origin = { kind: 'programme', programmeId: id, round: 0 } as const
    const job = await draft(origin, {}, SMALL, COORDINATOR)
    expect(job.plan.kind).toBe('retrofit round')
    expect(job.plan.poles.map(({ pole, measures }) => [pole, measures[0]?.kind])).toEqual([
      ['P4', 'perch deterrent'],
      ['P2', 'perch deterrent'],
    ])
    const other = { ...origin, round: 3 }
    expect(await server.problem(routes.draftJob, drafting(other))).toMatchObject({
      code: 'wrong-state',
      detail: 'The programme has 1 rounds, and none of the number 4 with poles in it.',
    })
    const gone = { ...origin, programmeId: 'gone' }
    expect((await server.problem(routes.draftJob, drafting(gone))).code).toBe('not-found')
    expect((await server.problem(routes.draftJob, drafting(origin))).code).toBe('wrong-state')
  })

  it.each([
    'change settings',
    'change out a bank',
    'remove a bank',
    'take a bank out of service',
  ] as const)('by hand to %s takes the bank that stands', async (jobKind) => {
    const { plan } = await draft({ ...ON_BANK, jobKind }, {}, 'banked')
    expect(plan).toMatchObject({
      kind: jobKind,
      bank: { regulator: { id: 'R3' }, standing: { id: 'R3' } },
    })
    expect(plan.poles.map(({ pole }) => pole)).toEqual(['P3'])
    const without = { ...ON_BANK, jobKind, regulatorId: 'R9' }
    expect(await server.problem(routes.draftJob, drafting(without, {}, 'banked'))).toMatchObject({
      code: 'malformed-request',
      faults: [{ at: 'body.origin.regulatorId' }],
    })
    const elsewhere = { ...ON_BANK, jobKind, poles: ['P2'] }
    const problem = await server.problem(routes.draftJob, drafting(elsewhere, {}, 'banked'))
    expect(problem.detail).toContain('The bank R3 stands at pole P3')
  })

  describe('on a bank that stands bypassed', () => {
    const bypassed = { ...ON_BANK, poles: ['P3'] }
    beforeAll(async () => {
      const feeder = bankedFeeder('hanging')
      const equipment = feeder.equipment.map(
        (item) => ({ ...item, state: 'bypassed' }) as Regulator,
      )
      const layers = layersOfFeeder({ ...feeder, equipment })
      await server.call(routes.takeInFeeder, { body: { layers } })
    })

    it.each([
      ['return a bank to service', 'return-to-service'],
      ['change out a bank', 'change-out-bypassed'],
      ['remove a bank', 'remove-bypassed'],
    ] as const)('to %s goes by %s', async (jobKind, sequenceId) => {
      const { plan } = await draft({ ...bypassed, jobKind }, {}, 'hanging')
      expect(plan.bank).toMatchObject({ standing: { state: 'bypassed' } })
      expect(plan.bank?.regulator).not.toHaveProperty('state')
      expect(plan.poles[0]?.sequence).toMatchObject({ id: sequenceId, bankAtStart: 'bypassed' })
      expect(plan.whileBypassed?.map(({ caseId }) => caseId)).toEqual(['peak', 'light'])
    })

    it.each([
      ['hanging', 'take a bank out of service', 'out of service already'],
      ['hanging', 'change settings', 'given when it is returned to service'],
      ['banked', 'return a bank to service', 'nothing to return'],
    ] as const)('%s: to %s is refused', async (feederId, jobKind, words) => {
      const input = drafting({ ...bypassed, jobKind }, {}, feederId)
      const problem = await server.problem(routes.draftJob, input)
      expect(problem.code).toBe('wrong-state')
      expect(problem.detail).toContain(words)
    })

    it('takes settings where a control works in the end, and refuses them else', async () => {
      const settings = { bandCentreV: 124 }
      const { plan } = await draft(
        { ...bypassed, jobKind: 'return a bank to service', settings },
        {},
        'hanging',
      )
      expect(plan.bank).toMatchObject({
        regulator: { bandCentreV: 124 },
        standing: { bandCentreV: 122 },
      })
      const going = { ...bypassed, jobKind: 'remove a bank' as const, settings }
      expect(await server.problem(routes.draftJob, drafting(going, {}, 'hanging'))).toMatchObject({
        code: 'malformed-request',
        faults: [{ at: 'body.origin.settings' }],
      })
    })
  })

  it('gives new units a switch at the neutral side where that is said, and no others', async () => {
    const sideOf = async (jobKind: 'change out a bank' | 'take a bank out of service') => {
      const { plan } = await draft({ ...ON_BANK, jobKind }, { neutralSide: 'switched' }, 'banked')
      return plan.bank?.regulator.neutralSide
    }
    expect(await sideOf('change out a bank')).toBe('switched')
    expect(await sideOf('take a bank out of service')).toBeUndefined()
  })

  it.each([
    ['change out a bank', undefined, true],
    ['take a bank out of service', undefined, true],
    ['remove a bank', undefined, true],
    ['change settings', undefined, false],
    ['change settings', 'take along', true],
    ['change out a bank', 'leave', false],
  ] as const)('to %s with bird work %s takes it along: %s', async (jobKind, birdWork, takes) => {
    const more = birdWork === undefined ? {} : { birdWork }
    const { plan } = await draft({ ...ON_BANK, jobKind }, more, 'banked')
    const [work] = plan.poles
    const leftWords = `On pole P3 ${work?.openPairsAfter} pairs stay open`
    expect((work?.measures.length ?? 0) > 0).toBe(takes && work?.openPairs !== 0)
    expect(plan.notes.some((note) => note.startsWith(leftWords))).toBe(work?.openPairsAfter !== 0)
  })

  it('puts nothing up on an inspection, and refuses a round without its work', async () => {
    const looked = await draft(LOOK, { birdWork: 'take along' })
    expect(looked.plan.poles.flatMap(({ measures }) => measures)).toEqual([])
    const round = drafting({ ...LOOK, jobKind: 'retrofit round' }, { birdWork: 'leave' })
    expect(await server.problem(routes.draftJob, round)).toMatchObject({
      code: 'malformed-request',
      faults: [{ at: 'body.birdWork' }],
    })
  })

  it.each(['retrofit round', 'inspection'] as const)('by hand for an %s', async (jobKind) => {
    const { plan } = await draft({ ...LOOK, jobKind })
    expect(plan.poles.map(({ pole }) => pole)).toEqual(['P2', 'P3'])
    expect(plan.bank).toBeUndefined()
  })

  it('refuses poles that are not on the feeder, and a new bank that nobody proposed', async () => {
    const poles = ['P2', 'P99', 'P3', 'X']
    expect(await server.problem(routes.draftJob, drafting({ ...LOOK, poles }))).toMatchObject({
      code: 'malformed-request',
      faults: [{ at: 'body.origin.poles.1' }, { at: 'body.origin.poles.3' }],
    })
    const bank = { ...LOOK, jobKind: 'set a bank' as const }
    const problem = await server.problem(routes.draftJob, drafting(bank))
    expect(problem.detail).toContain('drafted from a kept proposal')
    const nowhere = drafting(LOOK, {}, 'nowhere')
    expect((await server.problem(routes.draftJob, nowhere)).code).toBe('not-found')
  })
})

describe('moving a job', () => {
  it.each(JOB_STATES)(
    'from %s goes where the table says, for whom it says, and nowhere else',
    async (from) => {
      const job = await bringTo(from, await draft(LOOK))
      const people = [PLANNER, COORDINATOR, CREW, SUPERVISOR]
      for (const to of JOB_STATES) {
        for (const as of people) {
          const known = moveOf(from, to)
          const isAllowed = known !== undefined && mayMoveTo(as.role, to)
          if (isAllowed && !known.needsReason) continue
          const problem = await server.problem(routes.moveJob, moving(job, to), as)
          const code =
            known === undefined ? 'wrong-state' : isAllowed ? 'malformed-request' : 'not-allowed'
          expect([to, as.role, problem.code]).toEqual([to, as.role, code])
        }
      }
      expect((await get(job.id)).job).toEqual(job)
    },
  )

  it.each(JOB_MOVES)(
    'from $from to $to is done by everybody who may',
    async ({ from, to, needsReason }) => {
      const roles = ROLES.filter((role) => mayMoveTo(role, to))
      expect(roles.length).toBeGreaterThan(0)
      for (const role of roles) {
        const drafted = await draft(LOOK)
        const before =
          from === 'returned'
            ? await move(
                await bringTo('in the field', drafted),
                'returned',
                CREW,
                'No bucket truck.',
              )
            : await bringTo(from, drafted)
        if (to === 'work done') await doWork(before)
        if (to === 'closed') await leave(before.id)
        const reason = needsReason ? 'The pole is sound after all.' : undefined
        const moved = await move(before, to, { id: `demo-${role}`, role }, reason)
        expect(moved).toMatchObject({
          state: to,
          version: before.version + 1,
          reason: reason ?? '',
        })
        expect(moved.changedBy.role).toBe(role)
      }
    },
  )

  it('is refused to whoever saw an older version, with what stands now', async () => {
    const job = await draft(LOOK)
    const approved = await move(job, 'approved', SUPERVISOR)
    const problem = await server.problem(routes.moveJob, moving(job, 'approved'), SUPERVISOR)
    expect(problem).toMatchObject({ code: 'stale-version', current: approved })
  })

  it('sent twice with one key is done once and answered the same', async () => {
    const job = await draft(LOOK)
    const headers = { ...(await server.headersOf(SUPERVISOR)), 'idempotency-key': randomUUID() }
    const first = await server.call(routes.moveJob, moving(job, 'approved'), headers)
    const again = await server.call(routes.moveJob, moving(job, 'approved'), headers)
    expect(again).toEqual(first)
    const told = await server.call(
      routes.getHistory,
      { params: { subject: 'job', subjectId: job.id } },
      SUPERVISOR,
    )
    expect(told.entries.map(({ version }) => version)).toEqual([1, 2])
  })

  it('keeps the time on the device, and why it was returned', async () => {
    const job = await bringTo('issued', await draft(LOOK))
    const deviceAt = '2026-11-20T10:00:00.000Z'
    const { params, body } = moving(job, 'returned', 'The road is washed out.')
    const input = { params, body: { ...body, deviceAt } }
    const returned = await server.call(routes.moveJob, input, CREW)
    expect(returned.reason).toBe('The road is washed out.')
    const subject = { subject: 'job', subjectId: job.id } as const
    const told = await server.call(routes.getHistory, { params: subject }, CREW)
    expect(told.entries.at(-1)).toMatchObject({ deviceAt, actorId: CREW.id, version: 4 })
    expect((await move(returned, 'drafted', PLANNER)).reason).toBe('')
  })

  it('says that the work is not done as long as steps are missing', async () => {
    const job = await bringTo('in the field', await draft(LOOK))
    const problem = await server.problem(routes.moveJob, moving(job, 'work done'), CREW)
    expect(problem).toMatchObject({ code: 'wrong-state', current: { state: 'in the field' } })
    expect(problem.detail).toMatch(/^The work is not done yet\. .+/)
  })
})

describe('entries of the field', () => {
  const send = (
    job: Pick<Job, 'id'>,
    entries: ReturnType<typeof entriesThrough>,
    as: Actor = CREW,
  ) => server.call(routes.sendEntries, { params: { jobId: job.id }, body: { entries } }, as)
  const said = (kind: 'remark' | 'deviation', id: string) => ({
    ...{ id, at: '2026-11-20T10:00:00.000Z', pole: 'P2', kind, text: 'The pole leans.' },
  })

  it('are kept in their order, sent all at once or one by one, and counted', async () => {
    const job = await bringTo('in the field', await draft(LOOK))
    const entries = entriesThrough(job.plan)
    for (const entry of entries.slice(0, 2)) {
      const { outcomes } = await send(job, [entry])
      expect(outcomes).toEqual([{ id: entry.id, outcome: 'kept' }])
    }
    const rest = [...entries.slice(2), said('deviation', 'd1')]
    expect((await send(job, rest)).outcomes.every(({ outcome }) => outcome === 'kept')).toBe(true)
    const answer = await get(job.id)
    expect(answer.entries.map(({ entry }) => entry)).toEqual([...entries.slice(0, 2), ...rest])
    expect(answer.entries[0]).toMatchObject({ by: CREW })
    const listed = await server.call(routes.listJobs, { query: { feederId: SMALL } }, CREW)
    expect(listed.find(({ id }) => id === job.id)).toMatchObject({
      ...{ stepsDone: entries.length, stepsAll: entries.length, deviations: 1 },
      ...{ kind: 'inspection', poles: ['P2', 'P3'] },
    })
    expect(answer.job.version).toBe(job.version)
  })

  it('come in one request, also where much was written without connection', async () => {
    const job = await bringTo('in the field', await draft(LOOK))
    const entries = Array.from({ length: 200 }, (_, index) => ({
      ...said('remark', `long-${index}`),
      text: 'The pole leans. '.repeat(240),
    }))
    expect((await send(job, entries)).outcomes.map(({ outcome }) => outcome)).toEqual(
      entries.map(() => 'kept'),
    )
  })

  it('that came already are not kept twice, also after the work is done', async () => {
    const job = await bringTo('in the field', await draft(LOOK))
    const entries = entriesThrough(job.plan)
    await send(job, entries.slice(0, 3))
    const { outcomes } = await send(job, entries)
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(
      entries.map((_, index) => (index < 3 ? 'had already' : 'kept')),
    )
    await move(job, 'work done', CREW)
    expect((await send(job, entries)).outcomes.map(({ outcome }) => outcome)).toEqual(
      entries.map(() => 'had already'),
    )
    expect((await get(job.id)).entries).toHaveLength(entries.length)
  })

  it('that the run does not allow are told why and are not kept, the others are', async () => {
    const job = await bringTo('in the field', await draft(LOOK))
    const [first, second, third] = entriesThrough(job.plan)
    if (!first || !second || !third) throw new Error('Expected three steps.')
    const { outcomes } = await send(job, [second, first, third])
    expect(outcomes).toEqual([
      { id: second.id, outcome: 'refused', why: expect.stringMatching(/.{10,}/) },
      { id: first.id, outcome: 'kept' },
      { id: third.id, outcome: 'refused', why: expect.stringMatching(/.{10,}/) },
    ])
    expect((await send(job, [second, third])).outcomes.map(({ outcome }) => outcome)).toEqual([
      'kept',
      'kept',
    ])
    const other = { ...third, remark: 'Something else.' }
    expect((await send(job, [other])).outcomes).toEqual([
      { id: third.id, outcome: 'refused', why: 'Something else was kept under this id before.' },
    ])
  })

  it('sent by two at the same time are each kept once', async () => {
    const job = await bringTo('in the field', await draft(LOOK))
    const entries = entriesThrough(job.plan)
    const answers = await Promise.all([send(job, entries), send(job, entries, SUPERVISOR)])
    const outcomes = answers.map(({ outcomes: [one] }) => one?.outcome).sort()
    expect(outcomes).toEqual(['had already', 'kept'])
    expect((await get(job.id)).entries).toHaveLength(entries.length)
  })

  it('are taken in the field, remarks until the job is closed, and none before or after', async () => {
    const drafted = await draft(LOOK)
    const input = (entry: object) => ({
      ...{ params: { jobId: drafted.id }, body: { entries: [entry as ReturnType<typeof said>] } },
    })
    for (const as of [CREW, SUPERVISOR]) {
      const problem = await server.problem(routes.sendEntries, input(said('remark', 'r0')), as)
      expect(problem).toMatchObject({ code: 'wrong-state' })
      expect(problem.detail).toContain('The job is only drafted.')
    }
    const job = await bringTo('work done', drafted)
    const step = { ...entriesThrough(job.plan)[0], id: 'late' }
    const late = await server.call(routes.sendEntries, input(step), CREW)
    const why = expect.stringContaining('said to be done')
    expect(late.outcomes).toEqual([{ id: 'late', outcome: 'refused', why }])
    const remark = await server.call(routes.sendEntries, input(said('remark', 'r1')), CREW)
    expect(remark.outcomes).toEqual([{ id: 'r1', outcome: 'kept' }])
    await leave(job.id)
    await move(job, 'closed', SUPERVISOR)
    const closed = await server.problem(routes.sendEntries, input(said('remark', 'r2')), CREW)
    expect(closed.detail).toContain('The job is closed.')
  })
})

describe('what was left', () => {
  it('is put by the version that was seen, and a stale one is told what stands', async () => {
    const job = await bringTo('in the field', await draft(LOOK))
    const first = await leave(job.id)
    expect(first).toMatchObject({ jobId: job.id, feederId: SMALL, version: 1, changedBy: CREW })
    const body = { version: 0, asLeft: { ...LEFT_AFTER_LOOK, remarks: 'Another truck.' } }
    const input = { params: { jobId: job.id }, body }
    const stale = await server.problem(routes.putAsLeft, input, SUPERVISOR)
    expect(stale).toMatchObject({ code: 'stale-version', current: first })
    expect((await leave(job.id, { remarks: 'P3 leans.' }, 1)).version).toBe(2)
    expect((await get(job.id)).asLeft?.asLeft.remarks).toBe('P3 leans.')
  })

  it('names only poles and units of the job, and is taken in the field alone', async () => {
    const issued = await bringTo('issued', await draft(LOOK))
    const input = (asLeft: object) => ({
      ...{ params: { jobId: issued.id } },
      body: { version: 0, asLeft: { ...LEFT_AFTER_LOOK, ...asLeft } },
    })
    const early = await server.problem(routes.putAsLeft, input({}), CREW)
    expect(early).toMatchObject({ code: 'wrong-state' })
    await move(issued, 'in the field', CREW)
    const measures = [{ pole: 'P5', measure: 'perch deterrent', partIds: [], isDone: true }]
    const strange = await server.problem(
      routes.putAsLeft,
      input({ measures, units: [{ phase: 'A' }] }),
      CREW,
    )
    expect(strange.faults?.map(({ at }) => at)).toEqual([
      'body.asLeft.measures.0.pole',
      'body.asLeft.units.0.phase',
    ])
  })

  it('must be there and signed before the job is closed', async () => {
    const done = await bringTo('work done', await draft(LOOK))
    const close = () => server.problem(routes.moveJob, moving(done, 'closed'), SUPERVISOR)
    expect((await close()).detail).toContain('Nothing was said of what the crew left')
    await leave(done.id, { signedBy: '' })
    expect((await close()).detail).toContain('Nobody signed')
    await leave(done.id, {}, 1)
    expect(await move(done, 'closed', SUPERVISOR)).toMatchObject({
      ...{ state: 'closed', feederVersionAfter: null },
    })
  })
})

describe('changing, deleting and bringing back', () => {
  it('changes what is said of a job beside its plan, until it is closed', async () => {
    const job = await draft(LOOK, { dueOn: '2026-12-01' })
    const input = {
      params: { jobId: job.id },
      body: { title: 'Look again', crew: 'south', version: 1 },
    }
    const changed = await server.call(routes.changeJob, input, COORDINATOR)
    expect(changed).toMatchObject({ title: 'Look again', crew: 'south', version: 2 })
    expect(changed).not.toHaveProperty('dueOn')
    expect((await server.problem(routes.changeJob, input)).code).toBe('stale-version')
    const closed = await bringTo('closed', changed)
    const late = { ...input, body: { ...input.body, version: closed.version } }
    expect((await server.problem(routes.changeJob, late)).code).toBe('wrong-state')
  })

  it('deletes what is not closed, out of the lists, and restores it', async () => {
    const job = await draft(LOOK)
    const params = { jobId: job.id }
    const gone = await server.call(routes.deleteJob, { params, query: { version: 1 } })
    expect(gone.deletedAt).not.toBeNull()
    expect(await server.problem(routes.getJob, { params })).toMatchObject({
      code: 'not-found',
      detail: 'The job “Work at the creek” was deleted. Have it restored first.',
    })
    const list = () => server.call(routes.listJobs, { query: { feederId: SMALL } })
    expect((await list()).some(({ id }) => id === job.id)).toBe(false)
    const deleted = await server.call(
      routes.listDeleted,
      { params: { feederId: SMALL } },
      SUPERVISOR,
    )
    expect(deleted).toContainEqual(
      expect.objectContaining({ subject: 'job', subjectId: job.id, what: 'Work at the creek' }),
    )
    const back = await server.call(routes.restoreJob, { params, query: { version: 2 } })
    expect(back).toMatchObject({ deletedAt: null, version: 3, plan: job.plan })
    const closed = await bringTo('closed', back)
    const refused = await server.problem(routes.deleteJob, {
      params,
      query: { version: closed.version },
    })
    expect(refused.code).toBe('wrong-state')
  })

  it('lists jobs due first, and only the open ones where that is asked', async () => {
    const late = await draft(LOOK, { dueOn: '2031-02-02' })
    const soon = await draft(LOOK, { dueOn: '2031-01-01' })
    const closed = await bringTo('closed', await draft(LOOK, { dueOn: '2030-12-31' }))
    const ids = [closed.id, soon.id, late.id]
    const steps = entriesThrough(soon.plan).length
    const order = async (query: { open?: 'yes' }) =>
      (await server.call(routes.listJobs, { query: { feederId: SMALL, ...query } }))
        .map(({ id }) => id)
        .filter((id) => ids.includes(id))
    expect(await order({})).toEqual(ids)
    expect(await order({ open: 'yes' })).toEqual([soon.id, late.id])
    const all = await server.call(routes.listJobs, {})
    const counts = all
      .filter(({ id }) => ids.includes(id))
      .map(({ stepsDone, stepsAll }) => [stepsDone, stepsAll])
    expect(counts).toEqual([
      [steps, steps],
      [0, steps],
      [0, steps],
    ])
    const nowhere = { query: { feederId: 'nowhere' } }
    expect((await server.problem(routes.listJobs, nowhere)).code).toBe('not-found')
  })
})

describe('orders of steps', () => {
  const put = (sequence: object, version: number) => ({
    params: { sequenceId: 'look' },
    body: { version, sequence: { ...LOOK_SEQUENCE, ...sequence } },
  })

  it('come with the program as version 0, and a supervisor sets others', async () => {
    const shipped = await server.call(routes.listSequences, {}, CREW)
    expect(shipped.length).toBeGreaterThan(3)
    expect(shipped.every(({ version, changedBy }) => version === 0 && changedBy === null)).toBe(
      true,
    )
    const own = await server.call(routes.putSequence, put({}, 0), SUPERVISOR)
    expect(own).toMatchObject({ version: 1, changedBy: SUPERVISOR })
    const stale = await server.problem(routes.putSequence, put({ name: 'x' }, 0), SUPERVISOR)
    expect(stale).toMatchObject({ code: 'stale-version', current: own })
    const all = await server.call(routes.listSequences, {}, CREW)
    expect(all).toContainEqual(own)
    const job = await draft({ ...LOOK, poles: ['P2'] })
    expect(all.map(({ sequence }) => sequence.id)).toContain(job.plan.poles[0]?.sequence.id)
  })

  it('replace a shipped one of the same id, for jobs drafted from then on', async () => {
    const before = await draft({ ...LOOK, poles: ['P2'] })
    const work = before.plan.poles[0]
    if (!work) throw new Error('Expected a pole.')
    const sequence = { ...work.sequence, name: 'The utility’s own look' }
    const version = work.sequenceVersion
    const input = { params: { sequenceId: sequence.id }, body: { version, sequence } }
    const set = await server.call(routes.putSequence, input, SUPERVISOR)
    const after = await draft({ ...LOOK, poles: ['P2'] })
    expect(after.plan.poles[0]).toMatchObject({
      sequence: { name: 'The utility’s own look' },
      sequenceVersion: set.version,
    })
    expect((await get(before.id)).job.plan).toEqual(before.plan)
  })

  it('with a fault are refused, with every fault', async () => {
    const other = { ...put({}, 1), params: { sequenceId: 'other' } }
    expect(await server.problem(routes.putSequence, other, SUPERVISOR)).toMatchObject({
      code: 'malformed-request',
      faults: [{ at: 'body.sequence.id' }],
    })
    const [step] = LOOK_SEQUENCE.steps
    const twice = await server.problem(
      routes.putSequence,
      put({ steps: [step, step] }, 1),
      SUPERVISOR,
    )
    expect(twice).toMatchObject({ code: 'malformed-request' })
    expect(twice.faults?.length).toBeGreaterThan(0)
  })
})

describe('orders of steps that are added and withdrawn', () => {
  const own = { ...LOOK_SEQUENCE, id: 'own-look', name: 'Look by our own rules' }
  const at = { params: { sequenceId: 'own-look' } }
  const put = (sequence: typeof own, version: number) => ({
    params: { sequenceId: sequence.id },
    body: { version, sequence },
  })
  const withdraw = (sequenceId: string, version: number) => ({
    params: { sequenceId },
    query: { version },
  })
  const inUse = async () =>
    (await server.call(routes.listSequences, {}, CREW)).map(({ sequence }) => sequence.id)

  it('come and go with their history, and everybody who sees jobs is told at once', async () => {
    const follower = await followChanges(server.address, await server.headersOf(CREW))
    const before = await inUse()
    expect(await server.call(routes.putSequence, put(own, 0), SUPERVISOR)).toMatchObject({
      version: 1,
    })
    expect(await inUse()).toEqual([...before, 'own-look'].sort())
    const stale = await server.problem(routes.withdrawSequence, withdraw('own-look', 2), SUPERVISOR)
    expect(stale).toMatchObject({ code: 'stale-version', current: { version: 1 } })
    const left = await server.call(routes.withdrawSequence, withdraw('own-look', 1), SUPERVISOR)
    expect(left.map(({ sequence }) => sequence.id)).toEqual(before)
    expect(await inUse()).toEqual(before)
    const told = await follower.changes(2)
    expect(told.map(({ data }) => [data.subject, data.subjectId, data.what])).toEqual([
      ['step-sequence', 'own-look', 'added'],
      ['step-sequence', 'own-look', 'deleted'],
    ])
    follower.leave()
    const subject = { subject: 'step-sequence', subjectId: 'own-look' } as const
    const { entries } = await server.call(routes.getHistory, { params: subject }, CREW)
    expect(entries.map(({ what, actorId }) => [what, actorId])).toEqual([
      ['added', SUPERVISOR.id],
      ['deleted', SUPERVISOR.id],
    ])
    const twice = await server.problem(routes.withdrawSequence, withdraw('own-look', 2), SUPERVISOR)
    expect(twice.code).toBe('wrong-state')
    expect((await server.call(routes.putSequence, put(own, 0), SUPERVISOR)).version).toBe(3)
  })

  it('need a name of their own', async () => {
    const [shipped] = await server.call(routes.listSequences, {}, SUPERVISOR)
    const name = ` ${shipped?.sequence.name.toUpperCase()} `
    const problem = await server.problem(
      routes.putSequence,
      put({ ...own, id: 'other-look', name }, 0),
      SUPERVISOR,
    )
    expect(problem).toMatchObject({
      code: 'malformed-request',
      faults: [{ at: 'body.sequence.name' }],
    })
    expect(await inUse()).not.toContain('other-look')
  })

  it('set in place of a shipped one make way for it again', async () => {
    const sequence = shippedOne('change-settings')
    const renamed = { ...sequence, name: 'Settings by our own rules' }
    const set = await server.call(routes.putSequence, put(renamed, 0), SUPERVISOR)
    const left = await server.call(
      routes.withdrawSequence,
      withdraw(sequence.id, set.version),
      SUPERVISOR,
    )
    expect(left.find(({ sequence: { id } }) => id === sequence.id)).toEqual({
      ...{ sequence, version: 0, changedBy: null, changedAt: null },
    })
    const none = await server.problem(routes.withdrawSequence, withdraw('gone', 1), SUPERVISOR)
    expect(none.code).toBe('not-found')
    const shipped = withdraw('perch-replacement', 1)
    const problem = await server.problem(routes.withdrawSequence, shipped, SUPERVISOR)
    expect(problem).toMatchObject({ code: 'not-found' })
    expect(problem.detail).toContain('comes with the program')
  })

  it('stay where some work would be left without any', async () => {
    const sequence = shippedOne('remove-bank')
    const mine = { ...sequence, id: 'own-removal', name: 'Removal by our own rules' }
    await server.call(routes.putSequence, put(mine, 0), SUPERVISOR)
    const looks = { ...sequence, forKinds: ['inspection' as const], steps: LOOK_SEQUENCE.steps }
    const set = await server.call(routes.putSequence, put(looks, 0), SUPERVISOR)
    const refused = await server.problem(
      routes.withdrawSequence,
      withdraw('own-removal', 1),
      SUPERVISOR,
    )
    expect(refused).toMatchObject({
      code: 'wrong-state',
      detail:
        'No order of steps would be left to “remove a bank” where the bank is in service. Set another one for it first.',
    })
    expect(await inUse()).toContain('own-removal')
    const turned = await server.problem(
      routes.putSequence,
      put({ ...mine, forKinds: ['inspection'], steps: LOOK_SEQUENCE.steps }, 1),
      SUPERVISOR,
    )
    expect(turned.code).toBe('wrong-state')
    await server.call(routes.withdrawSequence, withdraw(sequence.id, set.version), SUPERVISOR)
    await server.call(routes.withdrawSequence, withdraw('own-removal', 1), SUPERVISOR)
    expect(await inUse()).not.toContain('own-removal')
  })

  it('are the supervisor’s to withdraw', async () => {
    const { query } = withdraw('own-look', 1)
    const problem = await server.problem(routes.withdrawSequence, { ...at, query }, PLANNER)
    expect(problem.code).toBe('not-allowed')
  })
})

function shippedOne(id: string) {
  const found = SHIPPED_SEQUENCES.find((sequence) => sequence.id === id)
  if (!found) throw new Error(`Expected an order of steps "${id}".`)
  return found
}

describe('who sees a job', () => {
  it('is everybody but readers: lists, live changes, history and files', async () => {
    const [crew, reader] = await Promise.all(
      [CREW, READER].map(async (as) => followChanges(server.address, await server.headersOf(as))),
    )
    if (!crew || !reader) throw new Error('Expected two followers.')
    const job = await bringTo('in the field', await draft(LOOK))
    await doWork(job)
    await leave(job.id)
    const feeder = { params: { feederId: SMALL, protectionId: 'cover-1' } }
    const [cover] = await server.call(routes.listProtections, { params: { feederId: SMALL } })
    if (!cover) throw new Error('Expected a cover.')
    const { id: _id, changedBy: _by, changedAt: _at, deletedAt: _deleted, ...body } = cover
    await server.call(routes.changeProtection, { ...feeder, body }, COORDINATOR)
    const entries = entriesThrough(job.plan).length
    const told = await crew.changes(4 + entries + 2)
    expect([...new Set(told.map(({ data }) => data.subject))]).toEqual([
      'job',
      'job-entry',
      'as-left',
      'protection',
    ])
    expect((await reader.changes(1)).map(({ data }) => data.subject)).toEqual(['protection'])
    crew.leave()
    reader.leave()
    for (const subject of ['job', 'job-entry', 'as-left'] as const) {
      const input = { params: { subject, subjectId: job.id } }
      expect((await server.call(routes.getHistory, input, CREW)).entries.length).toBeGreaterThan(0)
      expect((await server.problem(routes.getHistory, input, READER)).code).toBe('not-allowed')
    }
    expect((await server.problem(routes.listJobs, {}, READER)).code).toBe('not-allowed')
  })
})
