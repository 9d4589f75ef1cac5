import { afterAll, beforeAll, expect, it } from 'vitest'
import type { CaseSolution } from '#contract/case-solution.ts'
import { routes } from '#contract/routes.ts'
import { CREW, SMALL, startTestServer, type TestServer } from './test-server.ts'

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
})
afterAll(() => server.stop())

const params = { feederId: SMALL }
const BANK = {
  id: 'trial',
  kind: 'regulator' as const,
  pole: 'P3',
  span: 'S3',
  phases: 'ABC' as const,
  windingType: 'B' as const,
  ptRatio: 60,
  ctPrimaryA: 200,
  bandCentreV: 124,
  bandwidthV: 2,
}

function endVolts(solution: CaseSolution | undefined): number {
  if (solution?.status !== 'converged') throw new Error(`Expected a converged case.`)
  return solution.nodes.find(({ id }) => id === 'P5')!.phases.A!.volts120
}

it('solves every case, the end lower at peak than at light load', async () => {
  const { solutions } = await server.call(routes.solveVoltage, { params, body: { taps: 'fixed' } })
  const [peak, light] = solutions
  expect(solutions.map((solution) => 'caseId' in solution && solution.caseId)).toEqual([
    'peak',
    'light',
  ])
  expect(endVolts(peak)).toBeLessThan(118)
  expect(endVolts(light)).toBeGreaterThan(endVolts(peak))
})

it('shows what a bank on trial would do without keeping it', async () => {
  const body = { caseId: 'peak', taps: 'controlled' as const }
  const without = await server.call(routes.solveVoltage, { params, body })
  const withBank = await server.call(routes.solveVoltage, {
    params,
    body: { ...body, extraBanks: [BANK] },
  })
  const again = await server.call(routes.solveVoltage, { params, body })
  expect(endVolts(withBank.solutions[0])).toBeGreaterThan(endVolts(without.solutions[0]) + 2)
  expect(again).toEqual(without)
})

it('holds a bank at the positions that the request gives', async () => {
  const body = { caseId: 'peak', taps: 'fixed' as const, extraBanks: [BANK] }
  const neutral = await server.call(routes.solveVoltage, { params, body })
  const fixedTaps = { trial: { A: 8, B: 0, C: 0 } }
  const raised = await server.call(routes.solveVoltage, { params, body: { ...body, fixedTaps } })
  expect(endVolts(raised.solutions[0])).toBeGreaterThan(endVolts(neutral.solutions[0]) + 4)
})

it('names each thing that the feeder does not have', async () => {
  const extraBanks = [
    { ...BANK, span: 'S77' },
    { ...BANK, id: 'other', pole: 'P1' },
  ]
  const fixedTaps = { nobody: { A: 1 } }
  const body = { taps: 'fixed' as const, caseId: 'night', extraBanks, fixedTaps }
  const problem = await server.problem(routes.solveVoltage, { params, body })
  expect(problem.status).toBe(400)
  expect(problem.faults?.map(({ at }) => at)).toEqual([
    'body.caseId',
    'body.extraBanks.0.span',
    'body.extraBanks.1.pole',
    'body.fixedTaps.nobody',
  ])
})

it('tries no bank that is bypassed: it would change nothing', async () => {
  const extraBanks = [{ ...BANK, state: 'bypassed' as const }]
  const fixedTaps = { [BANK.id]: { A: 1 } }
  const body = { taps: 'fixed' as const, extraBanks, fixedTaps }
  const problem = await server.problem(routes.solveVoltage, { params, body })
  expect(problem.faults?.map(({ at }) => at)).toEqual([
    'body.extraBanks.0.state',
    `body.fixedTaps.${BANK.id}`,
  ])
})

it('tells two banks on trial apart by their ids', async () => {
  const body = {
    taps: 'controlled' as const,
    extraBanks: [BANK, { ...BANK, pole: 'P2', span: 'S2' }],
  }
  const problem = await server.problem(routes.solveVoltage, { params, body })
  expect(problem.faults?.map(({ at }) => at)).toEqual(['body.extraBanks.1.id'])
})

it('lets the crew solve voltages too', async () => {
  const body = { caseId: 'light', taps: 'fixed' as const }
  const { solutions } = await server.call(routes.solveVoltage, { params, body }, CREW)
  expect(solutions).toHaveLength(1)
})
