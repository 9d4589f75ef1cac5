import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { type Following, followChanges } from '../support/follow-changes.ts'
import { nestingFeeder, OSPREY_FOUND, OSPREY_NEST } from '../support/nesting-feeder.ts'
import { pdf } from '../support/sample-files.ts'
import { readEvents } from './read-events.ts'
import {
  COORDINATOR,
  CREW,
  PLANNER,
  READER,
  SUPERVISOR,
  startTestServer,
  type TestServer,
} from './test-server.ts'

const FEEDER = { params: { feederId: 'nesting' } }

let server: TestServer
beforeAll(async () => {
  server = await startTestServer()
  const layers = layersOfFeeder(nestingFeeder({ id: 'nesting' }))
  await server.call(routes.takeInFeeder, { body: { layers } })
})
afterAll(() => server.stop())

async function take(what: 'poles' | 'incidents', as: 'csv' | 'geojson', actor = COORDINATOR) {
  const headers = await server.headersOf(actor)
  const address = `${server.address}/api/feeders/nesting/birds/${what}?as=${as}`
  return fetch(address, { headers })
}

async function follow(as = READER): Promise<Following> {
  return followChanges(server.address, await server.headersOf(as))
}

describe('the bird record', () => {
  it('refuses a pole that is not on the feeder, and a feeder that is not there', async () => {
    const nest = { ...OSPREY_NEST, pole: 'P99' }
    const problem = await server.problem(routes.addNest, { ...FEEDER, body: nest }, COORDINATOR)
    expect(problem).toMatchObject({
      code: 'malformed-request',
      faults: [{ at: 'body.pole' }],
    })
    const top = { params: { feederId: 'nesting', poleId: 'P99' }, body: { version: 0 } }
    expect(await server.problem(routes.choosePoleTop, top, CREW)).toMatchObject({
      faults: [{ at: 'params.poleId' }],
    })
    const nowhere = { params: { feederId: 'nowhere' }, body: OSPREY_FOUND }
    expect((await server.problem(routes.addIncident, nowhere, CREW)).code).toBe('not-found')
  })

  it('gives what stands to who changes an older version', async () => {
    const added = await server.call(routes.addIncident, { ...FEEDER, body: OSPREY_FOUND }, CREW)
    const params = { feederId: 'nesting', incidentId: added.id }
    const body = { ...OSPREY_FOUND, count: 2, version: 1 }
    const changed = await server.call(routes.changeIncident, { params, body }, COORDINATOR)
    const late = { params, body: { ...body, count: 3 } }
    expect(await server.problem(routes.changeIncident, late, COORDINATOR)).toMatchObject({
      code: 'stale-version',
      current: changed,
    })
    const query = { version: 2 }
    await server.call(routes.deleteIncident, { params, query }, COORDINATOR)
    const again = { params, body: { ...body, version: 3 } }
    expect((await server.problem(routes.changeIncident, again, CREW)).code).toBe('wrong-state')
    await server.call(routes.restoreIncident, { params, query: { version: 3 } }, COORDINATOR)
    const { feeder } = await server.call(routes.getFeeder, FEEDER)
    expect(feeder.incidents).toContainEqual({ id: added.id, ...OSPREY_FOUND, count: 2 })
  })

  it('refuses a programme of poles that the feeder does not have', async () => {
    const body = { name: 'East 2027', programme: programmeOf('P99') }
    const problem = await server.problem(routes.keepProgramme, { ...FEEDER, body }, COORDINATOR)
    expect(problem.faults).toEqual([
      { at: 'body.programme.leftOut.0.pole', what: 'names no pole of the feeder' },
    ])
    const kept = { ...FEEDER, body: { ...body, programme: programmeOf('P2') } }
    const { id } = await server.call(routes.keepProgramme, kept, COORDINATOR)
    const listed = await server.call(routes.listProgrammes, FEEDER, CREW)
    expect(listed).toMatchObject([{ id, feederId: 'nesting', state: 'draft', version: 1 }])
  })

  it('sites on the nests of the record, and tells a reader of the study nothing of them', async () => {
    const at: [number, number] = [-106.9386, 43]
    const owls = { ...OSPREY_NEST, at, species: 'great horned owl' }
    await server.call(routes.addNest, { ...FEEDER, body: owls }, COORDINATOR)
    const { studyId } = await server.call(routes.startStudy, { ...FEEDER, body: { request: {} } })
    for await (const event of readEvents(server, studyId)) void event
    const params = { studyId }
    const seen = await server.call(routes.getStudy, { params }, PLANNER)
    const hidden = await server.call(routes.getStudy, { params }, READER)
    expect(JSON.stringify(seen)).toMatch(/from great horned owl nest/)
    expect(JSON.stringify(hidden)).not.toMatch(/owl|nest /i)
    expect(hidden.result?.excluded.map(({ pole }) => pole)).toEqual(
      seen.result?.excluded.map(({ pole }) => pole),
    )
  })
})

describe('what readers are told of nests and finds', () => {
  it('is nothing: no list, no live change, no history, no file', async () => {
    const [reading, working] = [await follow(READER), await follow(CREW)]
    const nest = await server.call(routes.addNest, { ...FEEDER, body: OSPREY_NEST }, COORDINATOR)
    const query = { attachedTo: 'nest', attachedToId: nest.id, fileName: 'nest.pdf' } as const
    const file = new Blob([Uint8Array.from(pdf())])
    const attached = await server.call(routes.attach, { ...FEEDER, query, file }, COORDINATOR)
    const top = { params: { feederId: 'nesting', poleId: 'P2' }, body: { version: 0 } }
    await server.call(routes.choosePoleTop, top, CREW)
    const told = (await working.changes(3)).map(({ data }) => data.subject)
    expect(told).toEqual(['nest', 'attachment', 'pole-top'])
    const [first] = await reading.changes(1)
    expect(first?.data.subject).toBe('pole-top')
    reading.leave()
    working.leave()

    for (const route of [routes.listNests, routes.listIncidents, routes.listProgrammes]) {
      expect((await server.problem(route, FEEDER, READER)).code).toBe('not-allowed')
    }
    const history = { params: { subject: 'nest', subjectId: nest.id } } as const
    expect((await server.problem(routes.getHistory, history, READER)).code).toBe('not-allowed')
    expect((await server.problem(routes.listDeleted, FEEDER, READER)).code).toBe('not-allowed')
    expect(await server.call(routes.listAttachments, FEEDER, READER)).toEqual([])
    expect(await server.call(routes.listAttachments, FEEDER, CREW)).toMatchObject([
      { id: attached.id },
    ])
    const address = `${server.address}/api/attachments/${attached.id}/file`
    const statusFor = async (actor = READER) =>
      (await fetch(address, { headers: await server.headersOf(actor) })).status
    expect([await statusFor(READER), await statusFor(CREW)]).toEqual([404, 200])
    expect((await take('poles', 'csv', READER)).status).toBe(403)
    expect((await take('incidents', 'csv', CREW)).status).toBe(403)
  })
})

describe('taking the bird record out', () => {
  it('gives every pole as GeoJSON with its state, pairs and cost', async () => {
    const answer = await take('poles', 'geojson')
    expect(answer.headers.get('content-type')).toBe('application/geo+json')
    const collection = await answer.json()
    expect(collection).toMatchObject({
      type: 'FeatureCollection',
      about: { feeder: 'nesting', designSpecies: { id: 'eagle' } },
    })
    // RFC 7946, section 3.2: a feature has geometry and properties, and an id of its own.
    expect(collection.features.map(({ id }: { id: string }) => id)).toEqual([
      'P1',
      'P2',
      'P3',
      'P4',
      'P5',
    ])
    const { properties, geometry } = collection.features[2]
    expect(geometry).toEqual({ type: 'Point', coordinates: nestingFeeder().poles[2]?.at })
    expect(properties.open_pairs).toBe(properties.pairs.length)
    expect(properties.tightest_pair).toMatch(/ to .*, \d+ in$/)
    expect(properties.rank).toBeCloseTo(properties.hazard * properties.exposure, 2)
  })

  it('gives finds as CSV with all fields and no cell that a spreadsheet would run', async () => {
    const body = { ...OSPREY_FOUND, note: '=1+1', outageMin: 12.5, hadOutage: true }
    await server.call(routes.addIncident, { ...FEEDER, body }, CREW)
    const answer = await take('incidents', 'csv', SUPERVISOR)
    expect(answer.headers.get('content-disposition')).toContain('nesting-bird-finds.csv')
    const [header = '', ...lines] = (await answer.text()).trimEnd().split('\r\n')
    expect(header).toMatch(/^id,longitude,latitude,pole,found_on,species,cause,note,/)
    expect(header.split(',')).toContain('outage_min')
    const line = lines.find((one) => one.includes("'=1+1"))
    expect(line).toContain(',true,')
    expect(line).toContain(',12.5,')
  })
})

function programmeOf(pole: string) {
  return {
    request: { budgetUsd: 1000, from: '2027-01-01', to: '2027-06-30' },
    poles: [],
    rounds: [],
    leftOut: [{ pole, why: 'Nest in use 300 m away.' }],
    costUsd: 0,
    reduction: 0,
    reductionPossible: 1,
    gap: 0,
    curve: [],
  }
}
