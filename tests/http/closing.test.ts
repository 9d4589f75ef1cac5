import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Actor } from '#contract/actor.ts'
import type { DraftJobBody, Job } from '#contract/jobs.ts'
import { routes } from '#contract/routes.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { AsLeft } from '#domain/jobs/as-left.ts'
import { builtAgainstPlan } from '#domain/jobs/built-against-plan.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { bankedFeeder } from '../support/banked-feeder.ts'
import { proposalToKeep } from '../support/kept-proposal.ts'
import { entriesThrough } from '../support/walk-job.ts'
import {
  COORDINATOR,
  CREW,
  PLANNER,
  SUPERVISOR,
  startTestServer,
  type TestServer,
} from './test-server.ts'

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
})
afterAll(() => server.stop())

/** A feeder of its own for each test. */
let feederId = ''
let tests = 0
beforeEach(async () => {
  tests += 1
  feederId = `banked-${tests}`
  await takeIn(bankedFeeder(feederId))
})

const takeIn = (feeder: Feeder) =>
  server.call(routes.takeInFeeder, { body: { layers: layersOfFeeder(feeder) } })
const feederNow = () => server.call(routes.getFeeder, { params: { feederId } })
const itemsNow = () => server.call(routes.listProtections, { params: { feederId } })
const historyOf = (subject: 'feeder' | 'protection', subjectId: string) =>
  server
    .call(routes.getHistory, { params: { subject, subjectId }, query: { feederId } }, SUPERVISOR)
    .then(({ entries }) => entries)

const move = ({ id, version }: Pick<Job, 'id' | 'version'>, to: JobState, as: Actor = SUPERVISOR) =>
  server.call(routes.moveJob, { params: { jobId: id }, body: { version, to } }, as)
const refusedClosing = ({ id, version }: Job) =>
  server.problem(
    routes.moveJob,
    { params: { jobId: id }, body: { version, to: 'closed' as const } },
    SUPERVISOR,
  )

/** A job whose crew has done all steps and said what it left. */
async function doneJob(
  origin: DraftJobBody['origin'],
  left: Partial<AsLeft>,
  leavesOut: (entry: JobEntry) => boolean = () => false,
): Promise<Job> {
  const body = { title: 'Work at the creek', origin }
  let job = await server.call(routes.draftJob, { params: { feederId }, body }, PLANNER)
  for (const to of ['approved', 'issued', 'in the field'] as const) job = await move(job, to)
  const params = { jobId: job.id }
  const entries = entriesThrough(job.plan)
  const done = entries.map((entry) => (leavesOut(entry) ? withoutStep(entry) : entry))
  await server.call(routes.sendEntries, { params, body: { entries: done } }, CREW)
  const asLeft = { ...LEFT, ...left }
  await server.call(routes.putAsLeft, { params, body: { version: 0, asLeft } }, CREW)
  return move(job, 'work done', CREW)
}

function withoutStep(entry: JobEntry): JobEntry {
  if (entry.kind !== 'step done') throw new Error(`Expected a step, got a ${entry.kind}.`)
  const { values: _values, remark: _remark, ...step } = entry
  return { ...step, kind: 'step left out', why: 'Covers did not come' }
}

const LEFT: AsLeft = {
  on: '2026-11-20',
  crew: ['K. Lane', 'M. Ortiz'],
  units: [],
  measures: [],
  remarks: '',
  signedBy: 'K. Lane',
  signaturePath: '',
}
const SETTINGS = {
  ...{ bandCentreV: 123, bandwidthV: 2, delayS: 45, rV: 0, xV: 0 },
  ...{ ptRatio: 60, ctPrimaryA: 100, maxRaise: 16, maxLower: 16 },
}
const UNITS: AsLeft['units'] = (['A', 'B', 'C'] as const).map((phase, index) => ({
  ...{ phase, serialNumber: `SN-${index}`, nameplate: '76.2 kVA, 100 A' },
  ...{ ratingKva: 76.2, ratingA: 100, tapLeft: 4 + index },
}))

async function proposedAt(pole: string, span: string) {
  const body = proposalToKeep(bankedFeeder(feederId), 'Bank')
  const banks = body.proposal.banks.map((bank) => ({ ...bank, pole, span, ptRatio: 60 }))
  const proposal = { ...body.proposal, banks }
  const saved = await server.call(routes.saveProposal, {
    params: { feederId },
    body: { ...body, proposal },
  })
  return { kind: 'proposal' as const, proposalId: saved.id }
}

describe('closing a job on a bank', () => {
  it('writes a version of the feeder in which the bank stands as it was left, and solves with it', async () => {
    const solve = async () => {
      const { solutions } = await server.call(routes.solveVoltage, {
        params: { feederId },
        body: { caseId: 'peak', taps: 'fixed' },
      })
      const [solution] = solutions
      if (solution?.status !== 'converged') throw new Error('Expected a solution.')
      return solution.nodes.find(({ id }) => id === 'P3')?.phases.A?.volts120 ?? 0
    }
    const before = await solve()
    const job = await doneJob(await proposedAt('P2', 'S2'), { units: UNITS, settings: SETTINGS })
    const closed = await move(job, 'closed')
    expect(closed).toMatchObject({ state: 'closed', feederVersion: 1, feederVersionAfter: 2 })
    const { feeder, version } = await feederNow()
    expect(version).toBe(2)
    const bank = feeder.equipment.find(({ pole }) => pole === 'P2')
    expect(bank).toMatchObject({
      ...{ kind: 'regulator', span: 'S2', bandCentreV: 123, delayS: 45 },
      ...{ tapA: 4, tapB: 5, tapC: 6, installedYear: 2026 },
    })
    expect(feeder.equipment.map(({ id }) => id)).toEqual(['R3', bank?.id])
    // Unit A was left four steps of 5/8 % up.
    expect((await solve()) / before).toBeCloseTo(1.025, 2)
    expect(await historyOf('feeder', feederId)).toMatchObject([
      { version: 1, actorId: PLANNER.id },
      { version: 2, actorId: SUPERVISOR.id },
    ])
  })

  it('changes settings of the bank that stands, on the feeder as it is recorded then', async () => {
    const origin = {
      ...{ kind: 'by hand' as const, jobKind: 'change settings' as const },
      ...{ poles: ['P3'], regulatorId: 'R3', settings: { bandCentreV: 123 } },
    }
    const job = await doneJob(origin, { units: UNITS, settings: SETTINGS })
    expect(job.plan.bank?.regulator.bandCentreV).toBe(123)
    const renamed = bankedFeeder(feederId)
    await takeIn({ ...renamed, header: { ...renamed.header, name: 'Renamed meanwhile' } })
    const closed = await move(job, 'closed')
    expect(closed).toMatchObject({ feederVersion: 1, feederVersionAfter: 3 })
    const { feeder } = await feederNow()
    expect(feeder.header.name).toBe('Renamed meanwhile')
    expect(feeder.equipment).toMatchObject([{ id: 'R3', bandCentreV: 123, tapB: 5 }])
  })

  it('takes away the bank that was removed', async () => {
    const origin = {
      ...{ kind: 'by hand' as const, jobKind: 'remove a bank' as const },
      ...{ poles: ['P3'], regulatorId: 'R3' },
    }
    const closed = await move(await doneJob(origin, {}), 'closed')
    expect(closed.feederVersionAfter).toBe(2)
    expect((await feederNow()).feeder.equipment).toEqual([])
  })

  it('leaves a bank bypassed, and returns it with the volts that it had before', async () => {
    const solve = async () => {
      const { solutions } = await server.call(routes.solveVoltage, {
        params: { feederId },
        body: { caseId: 'peak', taps: 'fixed' },
      })
      const [solution] = solutions
      if (solution?.status !== 'converged') throw new Error('Expected a solution.')
      return solution.nodes
        .filter(({ id, poleId }) => id === poleId)
        .map(({ id, phases }) => [id, phases])
    }
    const byHand = { kind: 'by hand' as const, poles: ['P3'], regulatorId: 'R3' }
    const settings = { ...SETTINGS, bandCentreV: 122 }
    const set = { ...byHand, jobKind: 'change settings' as const, settings: { delayS: 45 } }
    await move(await doneJob(set, { units: UNITS, settings }), 'closed')
    const before = await solve()
    const out = { ...byHand, jobKind: 'take a bank out of service' as const }
    const atNeutral = UNITS.map((unit) => ({ ...unit, serialNumber: '', tapLeft: 0 }))
    const closed = await move(await doneJob(out, { units: atNeutral }), 'closed')
    expect(closed.closingNotes).toEqual([
      expect.stringMatching(/^With the bank bypassed \d+ customers are outside the limits in Peak/),
    ])
    const hanging = (await feederNow()).feeder.equipment
    expect(hanging).toMatchObject([{ id: 'R3', state: 'bypassed', tapA: 0, serialB: 'SN-1' }])
    expect(await solve()).not.toEqual(before)
    const back = { ...byHand, jobKind: 'return a bank to service' as const }
    await move(await doneJob(back, { units: UNITS, settings }), 'closed')
    const [standing] = (await feederNow()).feeder.equipment
    expect(standing).not.toHaveProperty('state')
    expect(standing).toMatchObject({ serialA: 'SN-0', tapA: 4, bandCentreV: 122 })
    expect(await solve()).toEqual(before)
    expect((await historyOf('feeder', feederId)).map(({ version }) => version)).toEqual([
      1, 2, 3, 4,
    ])
  })

  it('sends no crew out with steps for a bank that stands otherwise by now', async () => {
    const byHand = { kind: 'by hand' as const, poles: ['P3'], regulatorId: 'R3' }
    const body = {
      title: 'Change the bank',
      origin: { ...byHand, jobKind: 'change out a bank' as const },
    }
    const drafted = await server.call(routes.draftJob, { params: { feederId }, body }, PLANNER)
    const approved = await move(drafted, 'approved')
    const out = { ...byHand, jobKind: 'take a bank out of service' as const }
    await move(await doneJob(out, { units: UNITS }), 'closed')
    const input = { params: { jobId: approved.id }, body: { version: 2, to: 'issued' as const } }
    const problem = await server.problem(routes.moveJob, input, SUPERVISOR)
    expect(problem).toMatchObject({
      code: 'wrong-state',
      detail:
        'Bank R3 is recorded as bypassed by now, and the steps of this job begin with it in service. Draft the job again.',
    })
  })

  it('is refused where the feeder no longer has the span, and writes nothing', async () => {
    const job = await doneJob(await proposedAt('P4', 'S4'), { units: UNITS, settings: SETTINGS })
    const feeder = bankedFeeder(feederId)
    const without = (pole: string | undefined) => pole !== 'P5'
    await takeIn({
      ...feeder,
      poles: feeder.poles.filter(({ id }) => without(id)),
      spans: feeder.spans.filter(({ to }) => without(to)),
      loads: feeder.loads.filter(({ pole }) => without(pole)),
    })
    const problem = await refusedClosing(job)
    expect(problem).toMatchObject({ code: 'wrong-state' })
    expect(problem.detail).toContain('in span S4 at pole P4, which the feeder no longer has')
    expect((await feederNow()).version).toBe(2)
    const { job: now } = await server.call(routes.getJob, { params: { jobId: job.id } })
    expect(now).toEqual(job)
  })

  it('sent twice at the same time with one key is done once and answered the same', async () => {
    const job = await doneJob(await proposedAt('P2', 'S2'), { units: UNITS, settings: SETTINGS })
    const headers = { ...(await server.headersOf(SUPERVISOR)), 'idempotency-key': randomUUID() }
    const body = { version: job.version, to: 'closed' as const }
    const close = () => server.call(routes.moveJob, { params: { jobId: job.id }, body }, headers)
    const [one, other] = await Promise.all([close(), close()])
    expect(other).toEqual(one)
    expect(await close()).toEqual(one)
    expect((await feederNow()).version).toBe(2)
  })

  it('sent twice at the same time writes one version', async () => {
    const job = await doneJob(await proposedAt('P2', 'S2'), { units: UNITS, settings: SETTINGS })
    const both = await Promise.allSettled([move(job, 'closed'), move(job, 'closed')])
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect((await feederNow()).version).toBe(2)
  })
})

describe('closing a round for birds', () => {
  it('puts what was done on the poles, and leaves the feeder as it is', async () => {
    const origin = {
      ...{ kind: 'by hand' as const, jobKind: 'retrofit round' as const, poles: ['P3', 'P4'] },
    }
    const job = await doneJob(origin, {
      measures: [
        {
          ...{ pole: 'P3', measure: 'perch deterrent', partIds: [], isDone: true },
          materialClass: 'plastic',
        },
        { pole: 'P4', measure: 'perch deterrent', partIds: [], isDone: false, why: 'No bracket.' },
      ],
    })
    const before = await itemsNow()
    const closed = await move(job, 'closed')
    expect(closed.feederVersionAfter).toBeNull()
    expect((await feederNow()).version).toBe(1)
    const added = (await itemsNow()).filter(({ id }) => !before.some((item) => item.id === id))
    expect(added).toMatchObject([
      {
        ...{ pole: 'P3', kind: 'guard', measure: 'perch deterrent', state: 'on', on: '2026-11-20' },
        ...{ materialClass: 'plastic', installedBy: 'K. Lane, M. Ortiz', changedBy: SUPERVISOR },
      },
    ])
    const [item] = added
    expect(await historyOf('protection', item?.id ?? '')).toMatchObject([{ what: 'added' }])
  })

  it('ends what was replaced, with its history', async () => {
    const body = {
      ...{ pole: 'P3', kind: 'perch' as const, what: 'perch deterrent', state: 'failed' as const },
      ...{ on: '2024-05-01', measure: 'perch deterrent' as const },
    }
    const old = await server.call(routes.addProtection, { params: { feederId }, body }, COORDINATOR)
    const origin = {
      ...{ kind: 'by hand' as const, jobKind: 'retrofit round' as const, poles: ['P3'] },
    }
    const measures: AsLeft['measures'] = [
      { pole: 'P3', measure: 'perch deterrent', partIds: [], isDone: true },
    ]
    await move(await doneJob(origin, { measures }), 'closed')
    const items = (await itemsNow()).filter(({ pole }) => pole === 'P3')
    expect(items.map(({ state, on }) => [state, on]).sort()).toEqual([
      ['on', '2026-11-20'],
      ['removed', '2026-11-20'],
    ])
    expect(await historyOf('protection', old.id)).toMatchObject([
      { what: 'added' },
      { what: 'changed', after: { state: 'removed', on: '2026-11-20' } },
    ])
  })
})

describe('bird work whose step was left out', () => {
  const origin = {
    ...{ kind: 'by hand' as const, jobKind: 'change settings' as const },
    ...{ poles: ['P3'], regulatorId: 'R3', settings: { bandCentreV: 123 } },
  }
  const isBirdWork = (entry: JobEntry) => 'stepId' in entry && entry.stepId === 'bird-work'
  const deterrent: AsLeft['measures'][number] = {
    ...{ pole: 'P3', measure: 'perch deterrent', partIds: [], isDone: true },
  }
  const left = (why?: string): Partial<AsLeft> => ({
    ...{ units: UNITS, settings: SETTINGS },
    measures: [{ ...deterrent, ...(why !== undefined && { why }) }],
  })

  it('is not said to be done without a word', async () => {
    await expect(doneJob(origin, left(), isBirdWork)).rejects.toMatchObject({
      problem: {
        code: 'malformed-request',
        detail: expect.stringContaining('whose step was left out'),
        faults: [{ at: 'body.asLeft.measures.0.why' }],
      },
    })
    await expect(doneJob(origin, left(' '), isBirdWork)).rejects.toMatchObject({
      problem: { code: 'malformed-request' },
    })
  })

  it('that was done after all is a deviation before the job is closed, and a note after it', async () => {
    const job = await doneJob(origin, left('They came at noon.'), isBirdWork)
    const { asLeft, entries } = await server.call(routes.getJob, { params: { jobId: job.id } })
    const seen = builtAgainstPlan(
      job.plan,
      asLeft!.asLeft,
      entries.map(({ entry }) => entry),
    )
    expect(seen.at(-1)).toMatchObject({
      what: 'perch deterrent on pole P3, its step',
      built:
        'said to be done, but its step was left out (“Covers did not come”): They came at noon.',
    })
    const listed = async () =>
      (await server.call(routes.listJobs, { query: { feederId } })).find(({ id }) => id === job.id)
    const counts = { stepsDone: entries.length, stepsLeftOut: 1, deviations: 1 }
    expect(await listed()).toMatchObject(counts)
    const closed = await move(job, 'closed')
    expect(closed.closingNotes).toContainEqual(
      expect.stringMatching(/^Recorded as on: perch deterrent on pole P3, .*They came at noon\./),
    )
    expect(await listed()).toMatchObject(counts)
    expect(await itemsNow()).toContainEqual(
      expect.objectContaining({ measure: 'perch deterrent', state: 'on' }),
    )
  })

  it('and that was not done is left alone', async () => {
    const measures = [{ ...deterrent, isDone: false, why: 'No bracket.' }]
    const job = await doneJob(origin, { ...left(), measures }, isBirdWork)
    const closed = await move(job, 'closed')
    expect(closed.closingNotes?.join(' ')).not.toContain('perch deterrent')
  })
})
