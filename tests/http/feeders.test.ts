import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import {
  COORDINATOR,
  CREW,
  PLACE,
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

describe('reading feeders', () => {
  it('lists the feeders that came with the program', async () => {
    const [first, ...others] = await server.call(routes.listFeeders, {})
    expect(others).toEqual([])
    expect(first).toEqual({
      id: SMALL,
      name: 'Small feeder',
      nominalKv: 12.47,
      place: PLACE,
      origin: 'demo',
      version: 1,
      poles: 5,
      customers: 40,
      coordinates: 'invented',
    })
  })

  it('gives a whole feeder as its folder holds it', async () => {
    const { feeder, version, origin } = await server.call(routes.getFeeder, { params })
    expect(feeder).toEqual(smallFeeder({ place: PLACE }))
    expect({ version, origin }).toEqual({ version: 1, origin: 'demo' })
  })

  it('shows nests and incidents to everybody but readers', async () => {
    const feeder = smallFeeder({ id: 'nesting' })
    const at: [number, number] = [-106.95, 43.001]
    const season = { seasonFrom: '02-15', seasonTo: '07-15' }
    feeder.nests.push({
      id: 'N1',
      at,
      species: 'osprey',
      status: 'in use',
      bufferM: 200,
      ...season,
    })
    feeder.incidents.push({
      id: 'I1',
      at,
      pole: 'P3',
      foundOn: '2026-03-01',
      species: 'osprey',
      cause: 'confirmed electrocution',
    })
    await server.call(routes.takeInFeeder, { body: { layers: layersOfFeeder(feeder) } })
    const nesting = { params: { feederId: 'nesting' } }
    for (const actor of [PLANNER, COORDINATOR, CREW, SUPERVISOR]) {
      const seen = (await server.call(routes.getFeeder, nesting, actor)).feeder
      expect([seen.nests, seen.incidents]).toEqual([feeder.nests, feeder.incidents])
    }
    const { feeder: seen } = await server.call(routes.getFeeder, nesting, READER)
    expect(seen).toEqual({ ...feeder, nests: [], incidents: [] })
    const { findings } = await server.call(routes.getFindings, nesting, READER)
    expect(JSON.stringify(findings)).not.toMatch(/N1|I1|osprey/)
    const body = { caseId: 'peak', taps: 'controlled' as const }
    const [solution] = (await server.call(routes.solveVoltage, { ...nesting, body }, READER))
      .solutions
    expect(solution?.status).toBe('converged')
  })

  it('says which feeder is not there', async () => {
    const problem = await server.problem(routes.getFeeder, { params: { feederId: 'nowhere' } })
    expect(problem).toMatchObject({ status: 404, code: 'not-found' })
    expect(problem.detail).toContain('nowhere')
  })

  it('refuses a version that is no number, and one that never was', async () => {
    const wrong = { params, query: { version: 'two' as unknown as number } }
    const malformed = await server.problem(routes.getFeeder, wrong)
    expect(malformed.faults?.map(({ at }) => at)).toEqual(['query.version'])
    const absent = await server.problem(routes.getFeeder, { params, query: { version: 99 } })
    expect(absent.code).toBe('not-found')
  })

  it('finds nothing wrong with a sound feeder', async () => {
    expect(await server.call(routes.getFindings, { params })).toEqual({ findings: [] })
  })

  it('gives the land of a place, and says which place has none', async () => {
    const { layers } = await server.call(routes.getLand, { params: { placeId: PLACE } })
    expect(layers.creek?.features[0]?.properties).toEqual({ name: 'Test Creek' })
    const problem = await server.problem(routes.getLand, { params: { placeId: 'nowhere' } })
    expect(problem.code).toBe('not-found')
  })
})

describe('taking in layers', () => {
  it('keeps a new feeder and lists it', async () => {
    const layers = layersOfFeeder(smallFeeder({ id: 'added-1', name: 'Added' }))
    const taken = await server.call(routes.takeInFeeder, { body: { layers } })
    expect(taken).toEqual({ id: 'added-1', version: 1, findings: [] })
    const listed = await server.call(routes.listFeeders, {})
    expect(listed.find(({ id }) => id === 'added-1')).toMatchObject({ origin: 'added', version: 1 })
  })

  it('makes a new version of a known id and keeps the old one', async () => {
    const first = layersOfFeeder(smallFeeder({ id: 'added-2', poles: 5 }))
    const second = layersOfFeeder(smallFeeder({ id: 'added-2', poles: 7 }))
    await server.call(routes.takeInFeeder, { body: { layers: first } })
    expect(await server.call(routes.takeInFeeder, { body: { layers: second } })).toMatchObject({
      version: 2,
    })
    const added = { params: { feederId: 'added-2' } }
    const newest = await server.call(routes.getFeeder, added)
    const oldest = await server.call(routes.getFeeder, { ...added, query: { version: 1 } })
    expect([newest.feeder.poles.length, oldest.feeder.poles.length]).toEqual([7, 5])
  })

  it('refuses a feeder with errors whole and gives every finding', async () => {
    const feeder = smallFeeder({ id: 'broken' })
    feeder.spans[0]!.to = 'P99'
    feeder.loads[0]!.pole = 'P98'
    const body = { layers: layersOfFeeder(feeder) }
    const problem = await server.problem(routes.takeInFeeder, { body })
    expect(problem).toMatchObject({ status: 422, code: 'feeder-refused' })
    const about = problem.findings?.map(({ featureId }) => featureId)
    expect(about).toEqual(expect.arrayContaining(['S1', 'L2']))
    const listed = await server.call(routes.listFeeders, {})
    expect(listed.map(({ id }) => id)).not.toContain('broken')
  })

  it('tells what is missing when there are no layers in the request', async () => {
    const body = {} as { layers: Record<string, unknown> }
    const problem = await server.problem(routes.takeInFeeder, { body })
    expect(problem).toMatchObject({ status: 400, code: 'malformed-request' })
    expect(problem.faults?.map(({ at }) => at)).toEqual(['body.layers'])
  })

  it('is not for the crew', async () => {
    const body = { layers: layersOfFeeder(smallFeeder({ id: 'crew-1' })) }
    const problem = await server.problem(routes.takeInFeeder, { body }, CREW)
    expect(problem).toMatchObject({ status: 403, code: 'not-allowed' })
  })
})
