import { afterAll, beforeAll, expect, it } from 'vitest'
import type { RouteInput } from '#contract/route.ts'
import { routes } from '#contract/routes.ts'
import {
  COORDINATOR,
  CREW,
  PLANNER,
  SMALL,
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

it('deletes a proposal and brings it back unchanged', async () => {
  const saved = await server.call(routes.saveProposal, { params, body: BODY })
  const input = { params: { proposalId: saved.id } }
  const deleted = await server.call(routes.deleteProposal, input)
  expect(deleted.deletedAt).not.toBeNull()
  expect((await server.problem(routes.getProposal, input)).code).toBe('not-found')
  expect(await server.call(routes.listProposals, { params })).not.toContainEqual(saved)
  expect(await server.call(routes.restoreProposal, input)).toEqual(saved)
  expect(await server.call(routes.getProposal, input)).toEqual(saved)
})

it('refuses to delete twice and to restore what is there', async () => {
  const saved = await server.call(routes.saveProposal, { params, body: BODY })
  const input = { params: { proposalId: saved.id } }
  const notDeleted = await server.problem(routes.restoreProposal, input)
  expect(notDeleted).toMatchObject({ status: 409, code: 'wrong-state' })
  await server.call(routes.deleteProposal, input)
  expect((await server.problem(routes.deleteProposal, input)).code).toBe('wrong-state')
})

it('lets only the planner keep and delete', async () => {
  const saved = await server.call(routes.saveProposal, { params, body: BODY })
  const input = { params: { proposalId: saved.id } }
  for (const actor of [CREW, COORDINATOR]) {
    const deleting = await server.problem(routes.deleteProposal, input, actor)
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
  const nobody = { params: { proposalId: 'nobody' } }
  expect((await server.problem(routes.deleteProposal, nobody)).code).toBe('not-found')
})
