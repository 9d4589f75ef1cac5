import { afterAll, beforeAll, expect, it } from 'vitest'
import { SavedProposal } from '#contract/proposals.ts'
import type { RouteInput } from '#contract/route.ts'
import { routes } from '#contract/routes.ts'
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
})
afterAll(() => server.stop())

const params = { feederId: SMALL }
const EFFECT = {
  cases: {
    peak: {
      lossKw: 12,
      customersOutside: 0,
      lowest: { volts120: 119, node: 'P5', phase: 'A' as const },
      highest: { volts120: 125, node: 'P4', phase: 'B' as const },
    },
  },
}
const BODY: RouteInput<typeof routes.saveProposal>['body'] = {
  name: 'Bank at P3',
  note: 'Gate code at the office.',
  request: { banks: 1, workMonth: 5 },
  proposal: {
    rank: 1,
    banks: [
      {
        pole: 'P3',
        span: 'S3',
        phases: 'ABC',
        ratingKva: 76.2,
        ratingA: 100,
        peakA: 71,
        distanceM: 5000,
        bandCentreV: 124,
        bandwidthV: 2,
        delayS: 45,
        windingType: 'B',
        ptRatio: 60,
        ctPrimaryA: 100,
        taps: { peak: { A: 9, B: 9, C: 8 } },
      },
    ],
    after: EFFECT,
    reason: 'Brings the end back inside.',
    flags: [],
    marginVolts120: 1,
    energyLossKwhPerYear: 1000,
    lossSavedUsdPerYear: 50,
    costUsd: 100_000,
    presentWorthUsd: 99_000,
    nearAlternatives: ['P4'],
  },
}

it('keeps a proposal with who, when and on which version of the feeder', async () => {
  const saved = await server.call(routes.saveProposal, { params, body: BODY })
  expect(saved).toMatchObject({
    name: 'Bank at P3',
    feederId: SMALL,
    feederVersion: 1,
    savedBy: PLANNER,
    deletedAt: null,
  })
  expect(saved.request).toMatchObject({ banks: 1, workMonth: 5, bandCentreV: 124 })
  const input = { params: { proposalId: saved.id } }
  expect(await server.call(routes.getProposal, input, CREW)).toEqual(saved)
})

it('lists the newest first', async () => {
  const older = await server.call(routes.saveProposal, { params, body: { ...BODY, name: 'Older' } })
  const newer = await server.call(routes.saveProposal, { params, body: { ...BODY, name: 'Newer' } })
  const listed = (await server.call(routes.listProposals, { params })).map(({ id }) => id)
  expect(listed.indexOf(newer.id)).toBeLessThan(listed.indexOf(older.id))
})

const of = ({ id }: { readonly id: string }, version: number) => ({
  params: { proposalId: id },
  query: { version },
})

it('deletes a proposal and brings it back unchanged but for its version', async () => {
  const saved = await server.call(routes.saveProposal, { params, body: BODY })
  const input = { params: { proposalId: saved.id } }
  const deleted = await server.call(routes.deleteProposal, of(saved, 1))
  expect(deleted).toMatchObject({ version: 2, deletedAt: expect.any(String) })
  expect((await server.problem(routes.getProposal, input)).code).toBe('not-found')
  const listed = await server.call(routes.listProposals, { params })
  expect(listed.map(({ id }) => id)).not.toContain(saved.id)
  const restored = await server.call(routes.restoreProposal, of(saved, 2))
  expect(restored).toEqual({ ...saved, version: 3 })
  expect(await server.call(routes.getProposal, input)).toEqual(restored)
})

it('refuses to delete twice and to restore what is there', async () => {
  const saved = await server.call(routes.saveProposal, { params, body: BODY })
  const notDeleted = await server.problem(routes.restoreProposal, of(saved, 1))
  expect(notDeleted).toMatchObject({ status: 409, code: 'wrong-state' })
  await server.call(routes.deleteProposal, of(saved, 1))
  expect((await server.problem(routes.deleteProposal, of(saved, 2))).code).toBe('wrong-state')
})

it('changes name and note, and leaves the rest as it was computed', async () => {
  const saved = await server.call(routes.saveProposal, { params, body: BODY })
  const input = { params: { proposalId: saved.id } }
  const body = { name: 'Bank at the gate', note: '', version: 1 }
  const changed = await server.call(routes.changeProposal, { ...input, body }, SUPERVISOR)
  expect(changed).toEqual({ ...saved, name: 'Bank at the gate', note: '', version: 2 })
  expect(await server.call(routes.getProposal, input)).toEqual(changed)
})

it('refuses a change of what another changed first, and gives what stands', async () => {
  const saved = await server.call(routes.saveProposal, { params, body: BODY })
  const input = { params: { proposalId: saved.id } }
  const body = { name: 'First', note: '', version: 1 }
  const first = await server.call(routes.changeProposal, { ...input, body })
  const late = { ...input, body: { ...body, name: 'Second' } }
  const problem = await server.problem(routes.changeProposal, late, SUPERVISOR)
  expect(problem).toMatchObject({ status: 409, code: 'stale-version' })
  expect(SavedProposal.parse(problem.current)).toEqual(first)
  expect((await server.problem(routes.deleteProposal, of(saved, 1))).code).toBe('stale-version')
  await server.call(routes.deleteProposal, of(saved, 2))
  const gone = { ...input, body: { ...body, version: 3 } }
  expect((await server.problem(routes.changeProposal, gone)).code).toBe('wrong-state')
})

it('refuses a proposal that stands where the feeder has nothing', async () => {
  const [bank] = BODY.proposal.banks
  const banks = [{ ...bank!, pole: 'P77', span: 'S77' }]
  const proposal = { ...BODY.proposal, banks, nearAlternatives: ['P4', 'P78'] }
  const problem = await server.problem(routes.saveProposal, { params, body: { ...BODY, proposal } })
  expect(problem).toMatchObject({ status: 400, code: 'malformed-request' })
  expect(problem.faults).toEqual([
    { at: 'body.proposal.banks.0.pole', what: 'names no pole of the feeder' },
    { at: 'body.proposal.banks.0.span', what: 'names no span of the feeder' },
    { at: 'body.proposal.nearAlternatives.1', what: 'names no pole of the feeder' },
  ])
})

it('lets only the planner and the supervisor keep, change and delete', async () => {
  const saved = await server.call(routes.saveProposal, { params, body: BODY })
  const change = { params: { proposalId: saved.id }, body: { name: 'x', version: 1 } }
  for (const actor of [CREW, COORDINATOR, READER]) {
    const deleting = await server.problem(routes.deleteProposal, of(saved, 1), actor)
    expect((await server.problem(routes.changeProposal, change, actor)).code).toBe('not-allowed')
    expect(deleting).toMatchObject({ status: 403, code: 'not-allowed' })
    expect(deleting.detail).toContain(`The role ${actor.role} may not`)
    const saving = await server.problem(routes.saveProposal, { params, body: BODY }, actor)
    expect(saving.code).toBe('not-allowed')
  }
})

it('wants a name, a feeder that is there and a proposal that is there', async () => {
  const nameless = await server.problem(routes.saveProposal, {
    params,
    body: { ...BODY, name: '  ' },
  })
  expect(nameless.faults?.map(({ at }) => at)).toEqual(['body.name'])
  const elsewhere = { params: { feederId: 'nowhere' }, body: BODY }
  expect((await server.problem(routes.saveProposal, elsewhere)).code).toBe('not-found')
  expect((await server.problem(routes.listProposals, elsewhere)).code).toBe('not-found')
  const nobody = of({ id: 'nobody' }, 1)
  expect((await server.problem(routes.deleteProposal, nobody)).code).toBe('not-found')
})
